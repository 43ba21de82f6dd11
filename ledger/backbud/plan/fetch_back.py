"""Makes it fall due to fetch a tree back that was lent, when the time is over that was agreed."""

from __future__ import annotations

from collections.abc import Iterator

from msgspec.structs import replace

from backbud.collection.state import Tree
from backbud.plan.due import Due, cause_of, due_of
from backbud.plan.followups import reason_on
from backbud.plan.hang import Hanger
from backbud.plan.windows import window_until
from backbud.species import PROMISE, Proposal
from backbud.tongue import phrase


def fetch_back(tree: Tree, hanger: Hanger) -> Iterator[Due]:
    """The end of the loan that the diary names; nothing where it names none."""
    event = tree.last.get("lent")
    if tree.standing != "lent" or event is None or not event.exact:
        return
    journal = hanger.journal
    window = window_until(event, journal.southern)
    if window is None:
        return
    due = due_of(
        tree,
        Proposal(
            "returned",
            window,
            because=phrase("It was lent until then."),
            cautions=(phrase("Look it over for pests before it joins the others."),),
            weight=PROMISE,
        ),
        "fetch-back",
        cause_of(event),
        reason_on("diary", hanger.quoter.reason(event, tree), event.origin, quotes=True),
        journal.acts,
        event,
        next(n for n, entry in enumerate(tree.history) if entry.event is event),
        promised=True,
    )
    yield replace(due, follow_up=replace(due.follow_up, title=phrase("fetch it back")))
