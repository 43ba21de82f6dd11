"""What a journal gained since it last stood otherwise, and how its plan changed for that."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping
from datetime import date
from typing import Literal

from msgspec import Struct

from backbud.journal.events import Event
from backbud.views.work import DaysView, WorkView

Because = Literal["settled", "no cause", "gone"]


class ActView(Struct, frozen=True):
    """An act of the diary as written: its date, whose it is, and where it stands."""

    date: str
    subjects: str
    line: str
    at: str


class MovedView(Struct, frozen=True):
    """A work whose days are others than they were."""

    was: DaysView
    work: WorkView


class WentView(Struct, frozen=True):
    """A work that is open no more. `why`: it was settled (`by`), its tree is gone, or there is no
    cause for it any more."""

    work: WorkView
    why: Because
    by: str = ""


class SinceView(Struct, frozen=True):
    """What changed since a revision of the journal, both looked at on one day.

    `revision`, `written`, `said`: its digest, its day, and what was said of it. `gained`, `lost`:
    acts that the diary has now and had not, and the other way round; one that was changed is in
    both. `came`, `went`, `moved`: works that are open now and were not, were and are not, or stand
    on other days. `shifted`: how many others moved for the weather's sake by less than a week.
    """

    revision: str
    written: date
    said: str
    on: date
    gained: tuple[ActView, ...]
    lost: tuple[ActView, ...]
    came: tuple[WorkView, ...]
    went: tuple[WentView, ...]
    moved: tuple[MovedView, ...]
    shifted: int = 0


# A shift below this is the weather's, or its rounding's; such dates are rounded to weeks.
_LEAST_DAYS = 7


def acts_gained(before: Iterable[Event], now: Iterable[Event]) -> tuple[ActView, ...]:
    """The acts that are in `now` and not in `before`, however often each stands there."""
    had = Counter(map(_sign, before))
    found = []
    for event in now:
        if had[_sign(event)]:
            had[_sign(event)] -= 1
        else:
            line = f"{event.written} -- {event.remark}" if event.remark else event.written
            found.append(ActView(event.when.text, event.subjects, line, str(event.origin)))
    return tuple(found)


def _sign(event: Event) -> tuple[str, ...]:
    return event.when.text, event.subjects, event.written, event.remark


def changes(
    before: Mapping[str, WorkView], now: Mapping[str, WorkView], here: frozenset[str]
) -> tuple[tuple[WorkView, ...], tuple[WentView, ...], tuple[MovedView, ...], int]:
    """What came, went and moved among the open works, and how many shifted a little. `here`: the
    handles of the trees that are here now."""
    came = [one for ident, one in now.items() if one.is_open and not _was_open(before, ident)]
    went = [
        _went(now.get(ident), one, here)
        for ident, one in before.items()
        if one.is_open and not _was_open(now, ident)
    ]
    both = [(before[i], one) for i, one in now.items() if one.is_open and _was_open(before, i)]
    changed = [(was, one) for was, one in both if was.window != one.window]
    moved = [
        MovedView(DaysView(was.opens, was.best, was.closes), one)
        for was, one in changed
        if _days_apart(was, one) >= _LEAST_DAYS
    ]
    return tuple(came), tuple(went), tuple(moved), len(changed) - len(moved)


def _was_open(works: Mapping[str, WorkView], ident: str) -> bool:
    return ident in works and works[ident].is_open


def _went(now: WorkView | None, was: WorkView, here: frozenset[str]) -> WentView:
    if now is not None and now.settled is not None:
        return WentView(now, "settled", f"{now.settled.day}: {now.settled.text}")
    return WentView(was, "no cause" if was.tree in here else "gone")


def _days_apart(was: WorkView, now: WorkView) -> int:
    ends = ((was.opens, now.opens), (was.best, now.best), (was.closes, now.closes))
    return max(abs((there - here).days) for here, there in ends)
