"""Lets what may be done to wood, and a late look at wire, rest while wood is frozen at its place.

A keeper of a place like Minneapolis read in January, at −17 °C, that a larch may be wired.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from datetime import date, timedelta

from msgspec.structs import replace

from backbud.plan.due import Due
from backbud.plan.followups import FollowUp
from backbud.species import Window, Year, frozen_around, frozen_weeks, mildest_week
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
        elif _is_late_look(one, year.today):
            yield replace(due, follow_up=_until_it_thaws(one, year))
        else:
            yield due


def _is_late_look(one: FollowUp, today: date) -> bool:
    """Whether it is a look at wire whose time has passed: in frozen wood no wire cuts in."""
    return (
        one.outcome == "open"
        and one.act == "checked"
        and ("checked wire" in one.settled_by and one.window.closes < today and not one.promised)
    )


def _until_it_thaws(one: FollowUp, year: Year) -> FollowUp:
    rests = frozen_around(year.today, year)
    return one if rests is None else replace(one, schedule=replace(one.schedule, rests=rests))


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
