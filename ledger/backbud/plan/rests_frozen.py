"""Lets what may be done to wood rest while it is frozen where the tree stands, until it has thawed.

A keeper of a place like Minneapolis read in January, at −17 °C, that a larch may be wired.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from datetime import timedelta

from msgspec.structs import replace

from backbud.plan.due import Due
from backbud.plan.followups import FollowUp
from backbud.species import Window, Year, frozen_weeks, mildest_week
from backbud_grammar.forms import WorkName

_OF_WOOD: tuple[WorkName, ...] = ("branches", "wire")
_A_DAY, _FORTNIGHT = timedelta(days=1), timedelta(days=13)


def resting_while_frozen(dues: Iterable[Due], year: Year) -> Iterator[Due]:
    """The dues; `year`: at the place and under the cover where the tree stands today."""
    for due in dues:
        one = due.follow_up
        may_rest = one.outcome == "open" and not one.weight.must and not one.promised
        if may_rest and one.row.work in _OF_WOOD and one.window.closes >= year.today:
            yield replace(due, follow_up=_resting(one, year))
        else:
            yield due


def _resting(one: FollowUp, year: Year) -> FollowUp:
    """Where its last weeks are frozen it ends before them; where all are, the mildest fortnight is
    left of it."""
    window, frozen = one.window, frozen_weeks(one.window, year)
    if frozen is None:
        return one
    if frozen.opens <= window.opens and frozen.closes >= window.closes:
        mild = mildest_week(window, year)
        left = Window(mild, mild, min(mild + _FORTNIGHT, window.closes))
        return replace(one, window=left)
    if frozen.closes >= window.closes:
        ends = frozen.opens - _A_DAY
        return replace(one, window=Window(window.opens, min(window.best, ends), ends))
    return replace(one, schedule=replace(one.schedule, rests=frozen))
