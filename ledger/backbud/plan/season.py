"""Lays the open works out over the weeks ahead, and evens out those that are too full.

Each work stands on its best day; a week that is then over the hours a person has gives works to
weeks with room inside their windows, one at a time. Only the day on this sheet moves: never a
window, and never what stands in a calendar. A work moves only where that makes the hours over the
limit fewer; then the week it goes to stays lighter than the one it left was, so that the largest
week cannot grow either.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right, insort
from collections.abc import Iterable, Iterator, Mapping, Sequence
from datetime import date, timedelta
from functools import partial
from heapq import heapify, heappop, heappush
from typing import NamedTuple

from msgspec import Struct

from backbud.memo import NO_MEMO, Identical, Memo
from backbud.plan.followups import OPEN, FollowUp, sort_of_work
from backbud.words import monday_of

WEEKS = 52
WEEK = timedelta(days=7)


class Work(Struct, frozen=True, gc=False):
    """A work with the days it may still be done on, all included, and the best of them.

    `act`: in its past form; `called`: what it is called, a look by what is looked at. `can_wait`:
    it may be moved. `late`: its window is over. `since`: the first day of its window where that is
    past. `at_bench`: it stands at the bench today, else it is still to come.
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
    since: date | None = None
    called: str = ""
    at_bench: bool = False

    @property
    def window(self) -> tuple[date, date]:
        """The first and the last day of its window; of what is late only the day it has to be."""
        return self.since or self.opens, self.closes


class PlacedWork(NamedTuple):
    """A work and the day on which it stands."""

    work: Work
    day: date

    @property
    def moved(self) -> bool:
        return self.day != self.work.best


class Week(Struct, frozen=True):
    """A week from its Monday; the works in it in the order of their days, and their minutes.

    `moved`: how many of them do not stand on their best day.
    """

    monday: date
    works: tuple[PlacedWork, ...]
    minutes: int
    moved: int


class WeeksAhead(Struct, frozen=True):
    """The weeks from this one on. `unmoved`: the minutes of each with every work on its best day.

    `limit`: minutes that a week has room for, 0 where nobody said.
    """

    weeks: tuple[Week, ...]
    unmoved: tuple[int, ...]
    limit: int


def open_works(follow_ups: Iterable[FollowUp], today: date) -> Iterator[Work]:
    """The open works: what is past its best day is best today, and late is what has to be now."""
    for one in follow_ups:
        state, window = one.stand_on(today)
        if state in OPEN:
            heading = one.heading_as(state, window, today)
            late = heading in ("overdue", "promised")
            opens = today if late else max(window.opens, today)
            yield Work(
                one.id,
                one.tree,
                one.act,
                one.title,
                one.minutes,
                opens,
                today if late else max(window.best, today),
                today if late else window.closes,
                "keeps_day" not in one.row.traits and not late,
                late,
                window.opens if not late and window.opens < today else None,
                sort_of_work(one)[1],
                heading != "coming",
            )


class Best(NamedTuple):
    """A work, sorted by its best day."""

    day: date
    id: str
    work: Work


def by_best(works: Iterable[Work]) -> list[Best]:
    """Works in the order of their best days."""
    return sorted(Best(work.best, work.id, work) for work in works)


def season_of(
    ordered: Sequence[Best],
    today: date,
    limit_minutes: int,
    weeks: int = WEEKS,
    kept: Memo = NO_MEMO,
) -> WeeksAhead:
    """Lay out the works whose best day lies in the weeks from this one on, and even these out.

    A limit of 0 moves nothing. `kept`: what an earlier run of this process left of each week.
    """
    laid = _laid_out(ordered, monday_of(today), weeks, kept)
    moves = _Moves([{} for _ in laid], [set() for _ in laid])
    if limit_minutes > 0:
        _even_out(laid, moves, limit_minutes)
    return WeeksAhead(
        tuple(
            kept.once(
                ("evened", one.monday),
                (Identical(one.week), come, gone),
                partial(_evened, one.week, come, gone),
            )
            for one, come, gone in zip(laid, *moves, strict=True)
        ),
        tuple(one.week.minutes for one in laid),
        limit_minutes,
    )


def _laid_out(ordered: Sequence[Best], first: date, weeks: int, kept: Memo) -> list[_Laid]:
    """Each week with the works whose best day it holds."""
    laid: list[_Laid] = []
    begins = bisect_left(ordered, (first,))
    for n in range(weeks):
        ends = bisect_left(ordered, (first + (n + 1) * WEEK,))
        works = [best.work for best in ordered[begins:ends]]
        inputs = (works, first, weeks)
        laid.append(kept.once(("laid", n), inputs, partial(_laid, n, works, first, weeks)))
        begins = ends
    return laid


def _laid(n: int, works: Iterable[Work], first: date, weeks: int) -> _Laid:
    alike = _alike(works, first, weeks)
    placed = tuple(PlacedWork(work, work.best) for work in works)
    return _Laid(first + n * WEEK, _week_of(first + n * WEEK, placed), alike, _span(alike))


def _week_of(monday: date, placed: tuple[PlacedWork, ...]) -> Week:
    minutes = sum(one.work.minutes for one in placed)
    return Week(monday, placed, minutes, sum(one.moved for one in placed))


def _evened(week: Week, come: Mapping[str, PlacedWork], gone: set[str]) -> Week:
    """The week with what moved into it and without what moved away."""
    if not come and not gone:
        return week
    works = [placed for placed in week.works if placed.work.id not in gone]
    for placed in come.values():
        insort(works, placed, key=_by_day)
    return _week_of(week.monday, tuple(works))


def _by_day(placed: PlacedWork) -> tuple[date, str]:
    return placed.day, placed.work.id


def minutes_over(loads: Iterable[int], limit: int) -> int:
    """The minutes of all weeks that are over the limit."""
    return sum(max(load - limit, 0) for load in loads)


class _Reach(NamedTuple):
    """How far works that can wait may go, and how long they take: first, best and last week."""

    first: int
    best: int
    last: int
    minutes: int


class _WeekMove(NamedTuple):
    """A possible move, the best first: most taken off what is over, nearest, longest, by id."""

    over: int
    weeks_away: int
    shorter: int
    id: str
    to: int
    reach: _Reach


# Of the works of a week that can wait: those alike, the first by id on top.
_Alike = dict[_Reach, list[tuple[str, Work]]]


class _Laid(NamedTuple):
    """A week with every work on its best day; of those that can wait what is alike, and the first
    and the last week that any of them may go to."""

    monday: date
    week: Week
    alike: _Alike
    span: tuple[int, int]


class _Moves(NamedTuple):
    """For each week what came into it, and what went away of the works whose best week it is."""

    come: list[dict[str, PlacedWork]]
    gone: list[set[str]]

    def move(self, work: Work, at: int, to: int, day: date) -> None:
        if self.come[at].pop(work.id, None) is None:
            self.gone[at].add(work.id)
        self.come[to][work.id] = PlacedWork(work, day)


def _even_out(laid: Sequence[_Laid], moves: _Moves, limit: int) -> None:
    """Move works, one at a time, each of the fullest week first, while that helps.

    Each move makes the minutes over the limit fewer, so it comes to an end. A week that gave more
    than it had to may take works of another then, so it is gone through again.
    """
    first = laid[0].monday
    loads = [one.week.minutes for one in laid]
    alike = [{reach: list(works) for reach, works in one.alike.items()} for one in laid]
    # How far the works of each week may go, at the most.
    spans = [one.span for one in laid]
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
                work = top[1]
                moves.move(work, at, move.to, _day_in(move.to, work, first))
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


def _moves(alike: _Alike, at: int, loads: Sequence[int], limit: int) -> Iterator[_WeekMove]:
    """The moves out of a week, each the one that helps most when it is asked for.

    Who asks makes the move before asking on. The week grows lighter then and others grow fuller, so
    that no move gets better: one that was the best when it was last reckoned, and still is what it
    was, is the best.
    """
    # No other week gets room while works move out of this one.
    roomy = [n for n, load in enumerate(loads) if load < limit]
    next_roomy = _next_of(roomy, len(loads))
    moves = [
        move for reach, works in alike.items()
        if works and next_roomy[reach.first] <= reach.last
        and (move := _best_move(reach, works[0][0], at, loads, limit, roomy)) is not None
    ]  # fmt: skip
    heapify(moves)
    while moves:
        move = heappop(moves)
        works = alike[move.reach]
        now = _best_move(move.reach, works[0][0], at, loads, limit, roomy) if works else None
        if now == move:
            yield move
            # Of those alike the next one may be as good.
            now = _WeekMove(*move[:3], "", *move[4:])
        if now is not None:
            heappush(moves, now)


def _next_of(roomy: Iterable[int], weeks: int) -> list[int]:
    """For each week the first one from it on that has room; for none, one behind the last."""
    found: list[int] = []
    for n in roomy:
        found += [n] * (n + 1 - len(found))
    return found + [weeks] * (weeks - len(found))


def _span(alike: Iterable[_Reach]) -> tuple[int, int]:
    """The first and the last week that any of them may go to."""
    reaches = list(alike)
    first = min((reach.first for reach in reaches), default=WEEKS)
    return first, max((reach.last for reach in reaches), default=-1)


def _alike(week: Iterable[Work], first: date, weeks: int) -> _Alike:
    found: _Alike = {}
    for work in week:
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
    reach: _Reach, ident: str, at: int, loads: Sequence[int], limit: int, roomy: Sequence[int]
) -> _WeekMove | None:
    """Where to a work of a week had best go; None where no move would help.

    `roomy`: every week that may have room, in order.
    """
    relieves = min(reach.minutes, loads[at] - limit)
    best: _WeekMove | None = None
    least = -1
    for to in roomy[bisect_left(roomy, reach.first) : bisect_right(roomy, reach.last)]:
        room = limit - loads[to]
        if room > 0:
            change = max(reach.minutes - room, 0) - relieves
            if change <= least:
                move = _WeekMove(change, abs(to - reach.best), -reach.minutes, ident, to, reach)
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
