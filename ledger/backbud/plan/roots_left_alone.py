"""Asks for no look at roots that only tells whether to repot, while nobody would repot.

So it is in the year after a heavy bend, while a graft has not taken, and for two years after a
tree came from the wild. What was seen of the roots themselves asks on. Common practice, no
source.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from datetime import date, timedelta

from msgspec.structs import replace

from backbud.collection.hard_work import stresses
from backbud.collection.state import Tree
from backbud.plan.due import Due
from backbud.plan.followups import FollowUp
from backbud_grammar.act_words import SettledBy, as_settling

_A_YEAR, _TWO_YEARS = timedelta(days=365), timedelta(days=730)
# What settles the look that a repotting of a season gives way to (habits/repotting.py).
_WHETHER_TO_REPOT: frozenset[SettledBy] = frozenset((as_settling("checked", "roots"), "repotted"))
_GRAFT = as_settling("checked", "graft")


def roots_left_alone(dues: Iterable[Due], tree: Tree) -> list[Due]:
    """The dues, without the looks that nobody would act on."""
    every = list(dues)
    if not any(_asks_whether_to_repot(due) for due in every):
        return every
    bent = _last_heavy_bend(tree)
    wild = tree.last.get("collected")
    grafts = [one.follow_up for one in every if _is_open_graft(one.follow_up)]
    return [
        replace(due, follow_up=replace(due.follow_up, outcome="replaced"))
        if _asks_whether_to_repot(due)
        and _waits(due.follow_up, bent, wild.day if wild else None, grafts)
        else due
        for due in every
    ]


def _asks_whether_to_repot(due: Due) -> bool:
    one = due.follow_up
    of_season = due.event is None and one.outcome == "open" and not one.promised
    return of_season and one.act == "checked" and _WHETHER_TO_REPOT.issubset(one.settled_by)


def _waits(
    look: FollowUp, bent: date | None, wild: date | None, grafts: Sequence[FollowUp]
) -> bool:
    best = look.window.best
    return (
        (bent is not None and best < bent + _A_YEAR)
        or (wild is not None and best < wild + _TWO_YEARS)
        or any(graft.window.opens <= look.window.closes for graft in grafts)
    )


def _last_heavy_bend(tree: Tree) -> date | None:
    bends = (
        entry.event.day
        for entry in reversed(tree.history)
        if entry.event.act == "bent" and not entry.undone and stresses(entry.event)
    )
    return next(bends, None)


def _is_open_graft(one: FollowUp) -> bool:
    return one.outcome == "open" and one.act == "checked" and _GRAFT in one.settled_by
