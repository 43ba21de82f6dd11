"""The year ahead as it is shown: the works of each week, its hours, and what was moved and why."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from datetime import date
from functools import partial
from itertools import chain

from msgspec import Struct

from backbud.memo import NO_MEMO, Identical, Memo
from backbud.plan.season import (
    Best,
    PlacedWork,
    Week,
    WeeksAhead,
    by_best,
    minutes_over,
    season_of,
    works_of,
)
from backbud.views.nursery import Nursery

# So many trees of one kind of work are named in a week; the rest are counted.
MOST_NAMED = 12


class NamedView(Struct, frozen=True):
    """A tree in a week: its handle and what people call it, the id of its work, and how many works
    of this kind it has there. `moved_from`: the best day of a work that was moved into this week,
    None of one that was not. `late`: its window is over."""

    tree: str
    tree_name: str
    id: str
    times: int
    moved_from: date | None
    late: bool


class LineView(Struct, frozen=True):
    """The works of one act in a week. `act`: in its past form; `bare`: what it is called. `more`:
    how many trees are not named."""

    act: str
    bare: str
    named: tuple[NamedView, ...]
    more: int


class WeekView(Struct, frozen=True):
    """A week that has work: its Monday, its works by act, those that take longest first, and the
    minutes of all, and by how many these are over what the week has room for."""

    monday: date
    lines: tuple[LineView, ...]
    minutes: int
    over_minutes: int


class YearView(Struct, frozen=True):
    """The works of the weeks ahead.

    `works`: how many there are, and the `minutes` of all. `limit_minutes`: what a week has room
    for, 0 where nobody said: then none is moved, and no week is over it. `full`: how many weeks
    are over it, and by how many minutes in all (`over_minutes`); `unmoved_full`,
    `unmoved_over_minutes`: the same with every work on its best day. `moved`: how many works are
    not on their best day. `weeks`: those that have work. `season`: the weeks as they were laid
    out, for drawings.
    """

    works: int
    minutes: int
    limit_minutes: int
    full: int
    over_minutes: int
    unmoved_full: int
    unmoved_over_minutes: int
    moved: int
    weeks: tuple[WeekView, ...]
    season: WeeksAhead


def year_view(view: Nursery, kept: Memo = NO_MEMO) -> YearView:
    """Lay out the open works of all trees over the weeks from the view's day on.

    `kept`: what an earlier run of this process left.
    """
    limit = round(view.hours_per_week * 60)
    called = {tree.handle: tree.title for tree in view.trees}
    names = kept.same("titles", called)
    works = {handle: _works(view, handle, kept) for handle in names}
    ordered = sorted(chain.from_iterable(works.values()))
    season = season_of(ordered, view.today, limit, kept=kept)
    minutes = [week.minutes for week in season.weeks]
    return YearView(
        sum(len(week.works) for week in season.weeks),
        sum(minutes),
        limit,
        *_over(minutes, limit),
        *_over(season.unmoved, limit),
        sum(week.moved for week in season.weeks),
        tuple(
            kept.once(
                ("season week", week.monday),
                (Identical(week), limit, Identical(names)),
                partial(_week, week, limit, names),
            )
            for week in season.weeks
            if week.works
        ),
        season,
    )


def _over(minutes: Sequence[int], limit: int) -> tuple[int, int]:
    """How many weeks are over the limit, and by how many minutes in all."""
    if not limit:
        return 0, 0
    return sum(some > limit for some in minutes), minutes_over(minutes, limit)


def _works(view: Nursery, handle: str, kept: Memo) -> list[Best]:
    """The open works of a tree."""
    plans = view.plans.get(handle, ())
    return kept.once(
        ("works", handle),
        (Identical(plans), view.today),
        lambda: by_best(works_of(plans, view.today)),
    )


def _week(week: Week, limit: int, names: Mapping[str, str]) -> WeekView:
    by_act: dict[str, list[PlacedWork]] = {}
    for placed in week.works:
        by_act.setdefault(placed.work.act, []).append(placed)
    heaviest = sorted(
        by_act.items(), key=lambda item: (-sum(p.work.minutes for p in item[1]), item[0])
    )
    lines = tuple(_line(placed, names) for _, placed in heaviest)
    return WeekView(week.monday, lines, week.minutes, max(week.minutes - limit, 0) if limit else 0)


def _line(placed: Sequence[PlacedWork], names: Mapping[str, str]) -> LineView:
    """The works of one act; moved and late ones are always named."""
    told = list(_told(placed, names))
    by_need = sorted(told, key=lambda one: not _is_telling(one))
    shown = by_need[: max(MOST_NAMED, sum(map(_is_telling, told)))]
    work = placed[0].work
    return LineView(work.act, work.bare, tuple(shown), len(by_need) - len(shown))


def _told(placed: Sequence[PlacedWork], names: Mapping[str, str]) -> Iterator[NamedView]:
    """Each tree once, by name, for what is told alike of it."""
    alike: dict[tuple[str, date | None, bool], list[PlacedWork]] = {}
    for one in sorted(placed, key=lambda p: (names[p.work.tree], p.work.id)):
        moved = one.work.best if one.moved else None
        alike.setdefault((one.work.tree, moved, one.work.late), []).append(one)
    for (tree, moved, late), those in alike.items():
        yield NamedView(tree, names[tree], those[0].work.id, len(those), moved, late)


def _is_telling(one: NamedView) -> bool:
    return one.moved_from is not None or one.late
