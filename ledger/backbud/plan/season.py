"""Open works and the hours of a week go in; the year ahead, its weeks evened out, comes out.

Each work stands on its best day; a week that is then over the hours a person has gives works to
weeks with room inside their windows, one at a time. Only the day on this sheet moves: never a
window, and never what stands in a calendar. A work moves only where that makes the hours over the
limit fewer; then the week it goes to stays lighter than the one it left was, so that the largest
week cannot grow either.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from datetime import date, timedelta
from heapq import heapify, heappop, heappush
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
    laid: list[dict[str, Placed]] = [{} for _ in range(weeks)]
    for work in ordered:
        at = _week(work.best, first)
        if 0 <= at < weeks:
            laid[at][work.id] = Placed(work, work.best)
    unmoved = tuple(_load(week.values()) for week in laid)
    if limit_minutes > 0:
        _even_out(laid, first, limit_minutes)
    return Season(
        tuple(
            Week(first + n * WEEK, tuple(sorted(week.values(), key=lambda p: (p.day, p.work.id))))
            for n, week in enumerate(laid)
        ),
        unmoved,
        limit_minutes,
    )


def minutes_over(loads: Iterable[int], limit: int) -> int:
    """The minutes of all weeks that are over the limit."""
    return sum(max(load - limit, 0) for load in loads)


class _Reach(NamedTuple):
    """How far works that can wait may go, and how long they take: first, best and last week."""

    first: int
    best: int
    last: int
    minutes: int


class _Move(NamedTuple):
    """A possible move, the best first: most taken off what is over, nearest, longest, by id."""

    over: int
    weeks_away: int
    shorter: int
    id: str
    to: int
    reach: _Reach


# Of the works of a week that can wait: those alike, the first by id on top.
_Alike = dict[_Reach, list[tuple[str, Work]]]


def _even_out(laid: list[dict[str, Placed]], first: date, limit: int) -> None:
    """Move works, one at a time, each of the fullest week first, while that helps.

    Each move makes the minutes over the limit fewer, so it comes to an end. A week that gave more
    than it had to may take works of another then, so it is gone through again.
    """
    loads = [_load(week.values()) for week in laid]
    alike = [_alike(week.values(), first, len(laid)) for week in laid]
    # How far the works of each week may go, at the most.
    spans = [_span(works) for works in alike]
    # Weeks that no move can help, as long as none comes into them and no other within reach has
    # new room.
    stuck: set[int] = set()
    moved = True
    while moved:
        moved = False
        over = (n for n, load in enumerate(loads) if load > limit)
        for at in sorted(over, key=lambda n: (-loads[n], n)):
            if at in stuck:
                continue
            for move in _moves(alike[at], at, loads, limit):
                moved = True
                top = heappop(alike[at][move.reach])
                heappush(alike[move.to].setdefault(move.reach, []), top)
                ident, work = top
                del laid[at][ident]
                laid[move.to][ident] = Placed(work, _day_in(move.to, work, first))
                loads[at] -= work.minutes
                loads[move.to] += work.minutes
                stuck.discard(move.to)
                first_week, last_week = spans[move.to]
                spans[move.to] = (
                    min(first_week, move.reach.first), max(last_week, move.reach.last)
                )  # fmt: skip
            if loads[at] < limit:
                stuck = {n for n in stuck if not spans[n][0] <= at <= spans[n][1]}
            stuck.add(at)


def _moves(alike: _Alike, at: int, loads: Sequence[int], limit: int) -> Iterator[_Move]:
    """The moves out of a week, each the one that helps most when it is asked for.

    Who asks makes the move before asking on. The week grows lighter then and others grow fuller, so
    that no move gets better: one that was the best when it was last reckoned, and still is what it
    was, is the best.
    """
    moves = [
        move for reach, works in alike.items()
        if works and (move := _best_move(reach, works[0][0], loads[at], loads, limit)) is not None
    ]  # fmt: skip
    heapify(moves)
    while moves:
        move = heappop(moves)
        works = alike[move.reach]
        now = _best_move(move.reach, works[0][0], loads[at], loads, limit) if works else None
        if now == move:
            yield move
            # Of those alike the next one may be as good.
            now = _Move(*move[:3], "", *move[4:])
        if now is not None:
            heappush(moves, now)


def _span(alike: Iterable[_Reach]) -> tuple[int, int]:
    """The first and the last week that any of them may go to."""
    reaches = list(alike)
    first = min((reach.first for reach in reaches), default=WEEKS)
    return first, max((reach.last for reach in reaches), default=-1)


def _alike(week: Iterable[Placed], first: date, weeks: int) -> _Alike:
    found: _Alike = {}
    for work, _ in week:
        if work.can_wait and work.minutes > 0:
            reach = _Reach(
                max(_week(work.opens, first), 0),
                _week(work.best, first),
                min(_week(work.closes, first), weeks - 1),
                work.minutes,
            )
            found.setdefault(reach, []).append((work.id, work))
    for works in found.values():
        works.sort()
    return found


def _best_move(
    reach: _Reach, ident: str, load: int, loads: Sequence[int], limit: int
) -> _Move | None:
    """Where to a work of a week with that load had best go; None where that would not help."""
    relieves = min(reach.minutes, load - limit)
    best: _Move | None = None
    least = -1
    for to in range(reach.first, reach.last + 1):
        room = limit - loads[to]
        if room > 0:
            change = max(reach.minutes - room, 0) - relieves
            if change <= least:
                move = _Move(change, abs(to - reach.best), -reach.minutes, ident, to, reach)
                if best is None or move < best:
                    best, least = move, change
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
