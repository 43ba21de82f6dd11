"""Makes it fall due to ask an owner, some weeks after a tree went home, how it does there."""

from __future__ import annotations

from collections.abc import Iterator

from msgspec.structs import replace

from backbud.collection.state import Tree
from backbud.journal.read import Journal
from backbud.plan.customers import is_customers
from backbud.plan.due import Due, cause_of, due_of
from backbud.plan.followups import reason_on
from backbud.species import ROUTINE, Figure, Proposal, weeks_after
from backbud.tongue import phrase

ASK_AFTER_WEEKS = Figure(
    "ask_after_weeks",
    4.0,
    "How many weeks after a tree went home its owner is asked how it does; common practice, no "
    "source.",
)


def ask_after(tree: Tree, journal: Journal) -> Iterator[Due]:
    """One asking for the last time it went home; it lapses when a month has passed."""
    event = tree.last.get("returned")
    if tree.standing != "returned" or event is None or not event.exact:
        return
    if not is_customers(tree, journal):
        return
    weeks = round(ASK_AFTER_WEEKS.among(journal.settings.figures))
    at = next(n for n, entry in enumerate(tree.history) if entry.event is event)
    due = due_of(
        tree,
        Proposal(
            "asked-after",
            weeks_after(event.day, weeks, weeks, weeks + 4),
            because=phrase("What was done shows by now, and its owner may have a question."),
            weight=ROUTINE,
        ),
        "ask-after",
        cause_of(event),
        reason_on(
            "diary", phrase("It went home on {text}.", text=event.when.day_or_text), event.origin
        ),
        journal.acts,
        event,
        at,
    )
    yield replace(due, follow_up=replace(due.follow_up, title=phrase("ask how it does at home")))
