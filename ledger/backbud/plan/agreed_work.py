"""Makes work that was agreed with an owner fall due before the tree is wanted home.

It is a promise: it never lapses, and is kept once it is done (where one work of the language was
agreed), the tree is told ready, is billed or goes home.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from datetime import timedelta

from msgspec.structs import replace

from backbud.collection.state import Tree
from backbud.journal.events import Event
from backbud.journal.read import Journal
from backbud.plan.customers import AHEAD, came_of, is_customers
from backbud.plan.due import Due, cause_of, due_of
from backbud.plan.followups import reason_on
from backbud.plan.insults import WEAK
from backbud.plan.windows import span_window, window_of_plan
from backbud.species import PROMISE, Figure, Proposal, Window
from backbud.tongue import as_named, phrase
from backbud_grammar.act_words import ActWord, as_act

AGREED_WEEKS = Figure(
    "agreed_weeks",
    12.0,
    "In how many weeks agreed work is to be done, where no day is said; common practice, no "
    "source.",
)
AGREED_WORK = "agreed-work"
_KEEP = re.compile(r"(?:winter )?(?:storage|care)")
_PIECE_ENDS = re.compile(r", | and | then ")
_LEFT_OUT = re.compile(r"\b(?:no|not|never|without|except|but)\b")


def agreed_work(tree: Tree, journal: Journal) -> Iterator[Due]:
    """The work that was agreed for this visit, oldest first. A price by the week, the month or the
    year, or of an hour, with no word of what for, is for its keep and asks for nothing; nor does
    what is agreed for its keep by name, of which only the end is news: the hand-back tells it."""
    if not is_customers(tree, journal):
        return
    came = came_of(tree)
    agreed = [
        (at, entry.event)
        for at, entry in enumerate(tree.history)
        if entry.event.act == "agreed"
        and not entry.undone
        and entry.event.exact
        and (came is None or entry.event.day >= came.day)
        and _asks(entry.event)
    ]
    came_for = said_for(came) if came is not None else ()
    names_work = any(said_for(event) for _, event in agreed)
    for at, event in agreed:
        said = said_for(event) or came_for
        if names_work and not said:
            # Of works that were agreed by name it is no more than the price.
            continue
        if is_keep(said):
            continue
        # Where more was agreed, that one of them is done keeps no promise.
        named = said if len(said) == 1 else ()
        what = f": {as_named(', '.join(said))}" if said else ""
        done_by = _done_by(named, journal)
        due = due_of(
            tree,
            Proposal(
                "ready",
                _planned(event, tree, done_by, journal) or _window(event, tree, journal),
                because=phrase("Its owner was promised it."),
                cautions=_cautions(tree),
                minutes=_minutes(said, journal),
                settled_by=("ready", "returned", "billed", *done_by),
                weight=PROMISE,
            ),
            AGREED_WORK,
            cause_of(event),
            reason_on(
                "plan",
                phrase("Agreed with its owner on {text}.", text=event.day),
                event.origin,
            ),
            journal.acts,
            event,
            at,
            promised=True,
        )
        # Its words are the keeper's own, and so is this work (views/for_keeper.py). Only the same
        # works, agreed again, stand for it: what else was promised since is another promise.
        yield replace(
            due,
            part=", ".join(said).casefold(),
            follow_up=replace(due.follow_up, title=phrase("do what was agreed{what}", what=what)),
        )


def said_for(event: Event) -> tuple[str, ...]:
    """What a line says it is for."""
    return tuple(d.words for d in event.all("for") if d.words)


def _cautions(tree: Tree) -> tuple[str, ...]:
    """What a promise does not know: how the tree stands today."""
    found = []
    if tree.weak:
        found += [WEAK, phrase("Tell its owner why it waits, and ask for another season.")]
    if tree.quarantined:
        found.append(
            phrase("It stands in quarantine: tools and hands go to no other tree from it.")
        )
    return tuple(found)


def _done_by(named: Sequence[str], journal: Journal) -> tuple[ActWord, ...]:
    """The acts that one named work is: what was agreed is kept once it is done."""
    if not named:
        return ()
    forms = [form for form in journal.acts.values() if "no_work" not in form.traits]
    # `repot` is `repotting`, which potting on is as well.
    names = {named[0]}.union(*(form.called for form in forms if form.bare == named[0]))
    return tuple(
        dict.fromkeys(
            as_act(form.word)
            for form in forms
            if form.bare == named[0] or not names.isdisjoint(form.called)
        )
    )


def _minutes(said: Sequence[str], journal: Journal) -> int:
    """The usual minutes of the works that a price names; 0 where it names none that is known."""
    return sum(
        max(
            (a.minutes for a in journal.acts.values() if _names(one, (a.bare, *a.called))),
            default=0,
        )
        for one in set(_pieces(said))
    )


def is_keep(said: Sequence[str]) -> bool:
    """Whether nothing but its keep was agreed: a stay through the winter, and no work."""
    pieces = _pieces(said)
    return bool(pieces) and all(map(_KEEP.fullmatch, pieces))


def acts_named(said: Sequence[str], journal: Journal) -> frozenset[ActWord] | None:
    """The acts that are named as what a price is for: none where it is for its keep; None where a
    piece of it names neither, so that nobody can tell what was agreed.

    What stands behind `not` or `without` names nothing.
    """
    found: set[ActWord] = set()
    for piece in _pieces(said):
        meant = _LEFT_OUT.split(piece, maxsplit=1)[0].strip()
        if not meant or _KEEP.fullmatch(meant):
            continue
        named = [
            as_act(form.word)
            for form in journal.acts.values()
            if "no_work" not in form.traits and _names(meant, (form.bare, *form.called))
        ]
        if not named:
            return None
        found.update(named)
    return frozenset(found)


def _pieces(said: Sequence[str]) -> list[str]:
    return [one.strip().casefold() for text in said for one in _PIECE_ENDS.split(text)]


def _names(piece: str, works: Sequence[str]) -> bool:
    """Whether words are a work, with what is said of it before or behind: `hard pruning`."""
    return any(f" {one} " in f" {piece} " for one in works)


def _asks(event: Event) -> bool:
    amount = event.first("amount")
    if amount is not None and amount.words:
        return False
    return amount is not None or event.has("for")


def _planned(
    agreed: Event, tree: Tree, done_by: Sequence[ActWord], journal: Journal
) -> Window | None:
    """When it was planned for since it was agreed, the latest plan first."""
    for entry in reversed(tree.history):
        plan = entry.event
        if plan.day < agreed.day:
            return None
        is_plan = plan.was("planned", "put-off") and plan.exact and not entry.undone
        if is_plan and plan.named in done_by:
            return window_of_plan(plan, journal.southern)
    return None


def _window(event: Event, tree: Tree, journal: Journal) -> Window:
    """Until two weeks before it is wanted, when the hand-back opens; or so many weeks."""
    wanted = event.first("wanted")
    by = span_window(wanted.date if wanted is not None else tree.wanted, journal.southern)
    if by is None or by.closes < event.day:
        weeks = AGREED_WEEKS.among(journal.settings.figures)
        closes = event.day + timedelta(weeks=weeks)
    else:
        closes = max(by.closes - AHEAD, event.day)
    return Window(event.day, event.day + (closes - event.day) / 2, closes)
