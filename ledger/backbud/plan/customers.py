"""Makes the hand-back of a customer's tree fall due by the day it is wanted, or once ready."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import timedelta

from backbud.collection.batch import ARRIVALS
from backbud.collection.state import Tree
from backbud.journal.events import Event
from backbud.journal.read import Journal
from backbud.plan.due import Due, cause_of, due_of
from backbud.plan.followups import reason_on
from backbud.plan.quote import Quoter
from backbud.plan.windows import span_window
from backbud.species import NOTHING_SAID, PROMISE, Proposal, Schedule, Window
from backbud.tongue import phrase
from backbud_grammar.act_words import ActWord

# Time to see the tree settle and to arrange the day.
AHEAD = timedelta(days=14)
# What tells how far a visit is.
_TELL_OF_IT: tuple[ActWord, ...] = ("ready", "agreed", "billed")

_ON_THE_WAY = "Keep it out of frost, sun and wind on the way."
_WEAK = "It is written down as weak: ask its owner whether it may stay until it grows again."
_APART = "It stands in quarantine: look at it, and let it out, before it goes."
_COVERED = (
    "Its winter shelter should not be broken off: ask its owner whether it may stay till then."
)


def hand_back(tree: Tree, journal: Journal, quoter: Quoter) -> Iterator[Due]:
    """The hand-back of a tree that its owner wants by a day, or that is ready to go.

    It hangs on the tree's coming, so that it stays one entry from the agreement to the day.
    """
    if not is_customers(tree, journal):
        return
    came = came_of(tree)
    ready, agreed, billed = (this_time(tree.last.get(act), came) for act in _TELL_OF_IT)
    # What came and is billed is done, and goes home; a bill names money, so it is not quoted.
    done = billed if came is not None and not tree.wanted else None
    if ready is not None:
        wanted = span_window(tree.wanted, journal.southern) if tree.wanted else None
        closes = ready.day + AHEAD
        if wanted is not None:
            # Its owner may come on the very day that was agreed.
            closes = max(closes, wanted.closes)
        window = Window(ready.day, ready.day + AHEAD / 2, closes)
        reason = reason_on("diary", quoter.reason(ready, tree), ready.origin, quotes=True)
    elif done is not None:
        window = Window(done.day, done.day + AHEAD / 2, done.day + AHEAD)
        reason = reason_on("diary", phrase("Its work is done, so it goes home."), done.origin)
    else:
        by = span_window(tree.wanted, journal.southern) if tree.wanted else None
        if by is None or (came is not None and by.closes < came.day):
            return
        window = Window(by.closes - AHEAD, by.closes - AHEAD / 2, by.closes)
        reason = reason_on(
            "plan",
            phrase("Its owner wants it back by {wanted}.", wanted=tree.wanted),
            agreed.origin if agreed else None,
        )
    cause = next((event for event in (came, agreed, ready) if event is not None), None)
    yield due_of(
        tree,
        Proposal(
            "returned",
            window,
            phrase("It goes home with an account of the work and advice."),
            phrase("to its owner"),
            cautions=tuple(_cautions(tree)),
            weight=PROMISE,
            schedule=Schedule(
                after=phrase("It stands ready and nobody came for it: write to its owner.")
            )
            if ready is not None
            else NOTHING_SAID,
        ),
        "hand-back",
        cause_of(cause) if cause else f"wanted-{tree.wanted}".replace("/", "_"),
        reason,
        journal.acts,
        promised=True,
    )


def _cautions(tree: Tree) -> Iterator[str]:
    """What to think of before it goes, by how it stands today."""
    yield _ON_THE_WAY
    if tree.weak:
        yield _WEAK
    if tree.quarantined:
        yield _APART
    if tree.on("protection"):
        yield _COVERED


def is_customers(tree: Tree, journal: Journal) -> bool:
    """Whether a tree is somebody else's than the keeper's."""
    keeper = journal.things.find(journal.settings.keeper)
    return bool(tree.owner) and (keeper is None or tree.owner != keeper.handle)


def came_of(tree: Tree) -> Event | None:
    """The exact day of its last coming."""
    came = tree.last_of(*ARRIVALS)
    return came if came is not None and came.exact else None


def this_time(event: Event | None, came: Event | None) -> Event | None:
    """The event, unless it was on an earlier visit."""
    if event is None or not event.exact or (came is not None and event.day < came.day):
        return None
    return event
