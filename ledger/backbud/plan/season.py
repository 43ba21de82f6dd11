"""Open works and the hours of a week go in; the year ahead, its weeks evened out, comes out.

Each work stands on its best day; a week that is then over the hours a person has gives works to
weeks with room inside their windows, one at a time. Only the day on this sheet moves: never a
window, and never what stands in a calendar. A work moves only where that makes the hours over the
limit fewer; then the week it goes to stays lighter than the one it left was, so that the largest
week cannot grow either.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Iterable, Iterator, Sequence
from datetime import date, timedelta
from typing import NamedTuple

from msgspec import Struct

from backbud.plan.followups import FollowUp
from backbud.words import monday_of

WEEKS = 52
WEEK = timedelta(days=7)
# What hangs on the weather, on a rhythm or on another person keeps its day.
_KEEPS = (
    "fed watered soaked moved shaded unshaded protected unprotected quarantined released "
    "treated returned received sold lent"
)
KEEPS_ITS_DAY = frozenset(_KEEPS.split())
OPEN = ("overdue", "now", "coming")


class Work(Struct, frozen=True, gc=False):
    """A work with the days it may be done on, all included, and the best of them.

    `can_wait`: it may be moved. `late`: its window is over.
    """

    id: str
    tree: str
    act: str
    title: str
    minutes: int
    opens: date
    best: date
    closes: date
    can_wait: bool = True
    late: bool = False


class Placed(NamedTuple):
    """A work and the day on which it stands."""

    work: Work
    day: date

    @property
    def moved(self) -> bool:
        return self.day != self.work.best


class Week(Struct, frozen=True):
    """A week from its Monday; the works in it in the order of their days."""

    monday: date
    works: tuple[Placed, ...]

    @property
    def minutes(self) -> int:
        return sum(placed.work.minutes for placed in self.works)


class Season(Struct, frozen=True):
    """The weeks from this one on. `unmoved`: the minutes of each with every work on its best day.

    `limit`: minutes that a week has room for, 0 where nobody said.
    """

    weeks: tuple[Week, ...]
    unmoved: tuple[int, ...]
    limit: int


def works_of(follow_ups: Iterable[FollowUp], today: date) -> Iterator[Work]:
    """The open works: what is past its best day is best today, and late is what has to be now."""
    for one in follow_ups:
        state = one.state(today)
        if state in OPEN:
            late = state == "overdue"
            opens = today if late else max(one.window.opens, today)
            yield Work(
                one.id,
                one.tree,
                one.act,
                one.title,
                one.minutes,
                opens,
                today if late else max(one.window.best, today),
                today if late else one.window.closes,
                one.act not in KEEPS_ITS_DAY and not late,
                late,
            )


def season_of(works: Iterable[Work], today: date, limit_minutes: int, weeks: int = WEEKS) -> Season:
    """Lay out the works whose best day lies in the weeks from this one on, and even these out.

    The same for the works in any order. A limit of 0 moves nothing.
    """
    first = monday_of(today)
    ordered = sorted(works, key=lambda work: (work.best, work.id))
    laid: list[list[Placed]] = [[] for _ in range(weeks)]
    for work in ordered:
        at = _week(work.best, first)
        if 0 <= at < weeks:
            laid[at].append(Placed(work, work.best))
    unmoved = tuple(_load(week) for week in laid)
    if limit_minutes > 0:
        _even_out(laid, first, limit_minutes)
    return Season(
        tuple(
            Week(first + n * WEEK, tuple(sorted(week, key=lambda p: (p.day, p.work.id))))
            for n, week in enumerate(laid)
        ),
        unmoved,
        limit_minutes,
    )


def minutes_over(loads: Iterable[int], limit: int) -> int:
    """The minutes of all weeks that are over the limit."""
    return sum(max(load - limit, 0) for load in loads)


class _Reach(NamedTuple):
    """A work that can wait: the first, the best and the last week it may stand in."""

    first: int
    best: int
    last: int
    placed: Placed


class _Move(NamedTuple):
    """A possible move, the best first: most taken off what is over, nearest, longest, by id."""

    over: int
    weeks_away: int
    shorter: int
    id: str
    to: int
    reach: _Reach


def _even_out(laid: list[list[Placed]], first: date, limit: int) -> None:
    """Move works, one at a time, each of the fullest week first, while that helps.

    Each move makes the minutes over the limit fewer, so it comes to an end. A week that gave more
    than it had to may take works of another then, so it is gone through again.
    """
    loads = [_load(week) for week in laid]
    reaches = [_reaches(week, first, len(laid)) for week in laid]
    moved = True
    while moved:
        moved = False
        over = (n for n, load in enumerate(loads) if load > limit)
        for at in sorted(over, key=lambda n: (-loads[n], n)):
            while (move := _best_move(reaches[at], at, loads, limit)) is not None:
                moved = True
                work = move.reach.placed.work
                there = Placed(work, _day_in(move.to, work, first))
                laid[at].remove(move.reach.placed)
                laid[move.to].append(there)
                reaches[at].remove(move.reach)
                reaches[move.to].append(move.reach._replace(placed=there))
                loads[at] -= work.minutes
                loads[move.to] += work.minutes


def _reaches(week: Iterable[Placed], first: date, weeks: int) -> list[_Reach]:
    return [
        _Reach(
            max(_week(placed.work.opens, first), 0),
            _week(placed.work.best, first),
            min(_week(placed.work.closes, first), weeks - 1),
            placed,
        )
        for placed in week
        if placed.work.can_wait and placed.work.minutes > 0
    ]


def _best_move(
    reaches: Iterable[_Reach], at: int, loads: Sequence[int], limit: int
) -> _Move | None:
    """The move out of a week that helps most; None where none helps."""
    room = [n for n, load in enumerate(loads) if load < limit]
    if loads[at] <= limit or not room:
        return None
    too_much = loads[at] - limit
    best: _Move | None = None
    for reach in reaches:
        minutes, ident = reach.placed.work.minutes, reach.placed.work.id
        relieves = min(minutes, too_much)
        for to in room[bisect_left(room, reach.first) : bisect_right(room, reach.last)]:
            change = max(loads[to] + minutes - limit, 0) - relieves
            if change < 0 and (best is None or change <= best.over):
                move = _Move(change, abs(to - reach.best), -minutes, ident, to, reach)
                best = move if best is None else min(best, move)
    return best


def _day_in(week: int, work: Work, first: date) -> date:
    """The day of a week that is nearest to a work's best day, and inside its window."""
    monday = first + week * WEEK
    begins, ends = max(monday, work.opens), min(monday + WEEK - timedelta(days=1), work.closes)
    return min(max(work.best, begins), ends)


def _week(day: date, first: date) -> int:
    return (day - first).days // 7


def _load(week: Iterable[Placed]) -> int:
    return sum(placed.work.minutes for placed in week)
