"""Asks no tree on, to where it is kept better, once it is asked out of what it stands under.

Both hang on nights: the way on is asked for until the last that may be too cold, the way out from
the first on which they usually let it out, and in a hard place those weeks overlap.
"""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date

from msgspec.structs import replace

from backbud.plan.due import Due


def one_way(dues: Iterable[Due]) -> list[Due]:
    """The dues; from the day on which it may come out the way on is over."""
    every = list(dues)
    out = sorted({due.follow_up.window.opens for due in every if _comes_out(due)})
    return [_until(due, out) if _goes_on(due) else due for due in every] if out else every


def _goes_on(due: Due) -> bool:
    return due.part == "on" and due.follow_up.act == "moved" and due.follow_up.outcome == "open"


def _comes_out(due: Due) -> bool:
    return due.bares and due.follow_up.outcome == "open"


def _until(due: Due, out: list[date]) -> Due:
    one = due.follow_up
    first = next((day for day in out if day > one.window.opens), None)
    if first is None or first > one.window.closes:
        return due
    return replace(due, follow_up=replace(one, next_cycle=first))
