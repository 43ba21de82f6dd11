"""What a journal gained since it last stood otherwise, and how its plan changed for that."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping
from datetime import date
from typing import Literal, NamedTuple

from msgspec import Struct

from backbud.journal.events import Event
from backbud.views.work import DaysView, WorkView

Because = Literal["settled", "displaced", "unasked", "no cause", "gone"]


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
    """A work that is open no more. `why`: it was settled (`by`), its tree is gone, a line that is
    new stands in the place of what asked for it (`displaced`, `by`), the line that asked for it
    stands there no more (`unasked`, `by`), or there is no cause for it any more; `by` are then the
    lines of its tree that are new, or nothing."""

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


# So many new lines of a tree are told where none of them alone is known to be the reason.
MOST_LINES = 3
# A shift below this is the weather's, or its rounding's; such dates are rounded to weeks.
_LEAST_DAYS = 7


def acts_gained(before: Iterable[Event], now: Iterable[Event]) -> tuple[ActView, ...]:
    """The acts that are in `now` and not in `before`, however often each stands there."""
    found = []
    for event in _more(before, now):
        line = f"{event.written} -- {event.remark}" if event.remark else event.written
        when = f"{event.when.text} {event.hour}".rstrip()
        found.append(ActView(when, event.subjects, line, str(event.origin)))
    return tuple(found)


def _sign(event: Event) -> tuple[str, ...]:
    return event.when.text, event.hour, event.subjects, event.written, event.remark


class LinesOf(NamedTuple):
    """The lines of one tree that are new, and those that are gone."""

    gained: tuple[Event, ...] = ()
    lost: tuple[Event, ...] = ()


def tree_lines_changed(before: Iterable[Event], now: Iterable[Event]) -> LinesOf:
    """What a tree's lines, as they were and as they are, differ in."""
    was, found = tuple(before), tuple(now)
    return LinesOf(tuple(_more(was, found)), tuple(_more(found, was)))


def _more(before: Iterable[Event], now: Iterable[Event]) -> Iterator[Event]:
    had = Counter(map(_sign, before))
    for event in now:
        if had[_sign(event)]:
            had[_sign(event)] -= 1
        else:
            yield event


def plan_changes(
    before: Mapping[str, WorkView],
    now: Mapping[str, WorkView],
    here: frozenset[str],
    lines: Mapping[str, LinesOf] = {},
) -> tuple[tuple[WorkView, ...], tuple[WentView, ...], tuple[MovedView, ...], int]:
    """What came, went and moved among the open works, and how many shifted a little. `here`: the
    handles of the trees that are here now. `lines`: what is new and gone of each tree."""
    came = [one for ident, one in now.items() if one.is_open and not _was_open(before, ident)]
    went = [
        _went(now.get(ident), one, here, lines.get(one.tree, LinesOf()))
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


def _went(now: WorkView | None, was: WorkView, here: frozenset[str], lines: LinesOf) -> WentView:
    if now is not None and now.settled is not None:
        return WentView(now, "settled", f"{now.settled.day}: {now.settled.text}")
    if was.tree not in here:
        return WentView(was, "gone")
    return _displaced(was, lines)


def _displaced(was: WorkView, lines: LinesOf) -> WentView:
    """What line made a work go that nothing asks for any more, as far as that can be told.

    The cause stands in its id: the act with its date, `wired-2026-03-01`.
    """
    cause = was.id.split("/")[2]
    for event in lines.lost:
        if cause == f"{event.act}-{event.when.text}":
            return WentView(was, "unasked", _told(event))
    settles = {one.partition(" ")[0] for one in was.settled_by}
    for event in reversed(lines.gained):
        if cause.startswith(f"{event.act}-") or event.act in settles:
            return WentView(was, "displaced", _told(event))
    return WentView(was, "no cause", "; ".join(map(_told, lines.gained[-MOST_LINES:])))


def _told(event: Event) -> str:
    return f"{event.when.text}: {event.written}"


def _days_apart(was: WorkView, now: WorkView) -> int:
    ends = ((was.opens, now.opens), (was.best, now.best), (was.closes, now.closes))
    return max(abs((there - here).days) for here, there in ends)
