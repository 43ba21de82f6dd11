"""The year ahead as it is shown: its hours week by week, what comes first, then month by month.

What stands at the bench today is counted in the hours of this week, and told there; here stands
what is still to come. Works of several kinds of tree are never told as one.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from datetime import date, timedelta
from functools import partial
from itertools import chain

from msgspec import Struct

from backbud.collection.state import Tree
from backbud.memo import NO_MEMO, Identical, Memo
from backbud.plan.season import (
    Best,
    PlacedWork,
    Week,
    WeeksAhead,
    by_best,
    minutes_over,
    open_works,
    season_of,
)
from backbud.views.nursery import Nursery
from backbud.views.twigs import SprigView, sprigs_of
from backbud.words import monday_of

# A row names so many trees; the rest are counted.
MOST_NAMED = 6
# So many rows stand in the weeks that come first; the rest go by kind.
MOST_ROWS = 30
# Where less of the month is left than this, the next one belongs to what comes first.
_LEAST_LEFT = timedelta(days=10)


class NamedView(Struct, frozen=True):
    """A tree of a row: its handle and what people call it, the id of its work, and how many works
    it has there. `moved_from`: the best day of a work that was moved here, None of one that was
    not."""

    tree: str
    tree_name: str
    id: str
    times: int
    moved_from: date | None


class RowView(Struct, frozen=True):
    """The same work on trees of one kind, in a week or a month.

    `work`: what it is called. `first`, `last`: of the days on which it stands. `more`: how many
    trees are not named.
    """

    kind: str
    work: str
    first: date
    last: date
    minutes: int
    named: tuple[NamedView, ...]
    more: int


class RestView(Struct, frozen=True):
    """What has no row, of a kind: how many works, and their minutes."""

    kind: str
    works: int
    minutes: int


class WeekView(Struct, frozen=True):
    """A week by its Monday: the minutes of all its works, and by how many they are over what the
    week has room for. `unmoved`: the minutes with every work on its best day."""

    monday: date
    minutes: int
    over_minutes: int
    unmoved: int


class NearWeekView(Struct, frozen=True):
    """A week of those that come first: what comes in it, the rows that take longest first, and
    what has no row. `at_bench`: how many of its works stand at the bench."""

    week: WeekView
    at_bench: int
    rows: tuple[RowView, ...]
    rest: tuple[RestView, ...]


class MonthView(Struct, frozen=True):
    """A month further on by its first day: how many works come in it, their minutes, and its rows
    by kind; `full`: the Mondays of its weeks that are over what a week has."""

    first: date
    works: int
    minutes: int
    full: tuple[date, ...]
    rows: tuple[RowView, ...]


class YearView(Struct, frozen=True):
    """The works of the weeks ahead.

    `works`: how many there are, and the `minutes` of all. `limit_minutes`: what a week has room
    for, 0 where nobody said: then none is moved, and no week is over it. `full`: how many weeks
    are over it, and by how many minutes in all (`over_minutes`); `unmoved_full`,
    `unmoved_over_minutes`: the same with every work on its best day. `moved`: how many works are
    not on their best day. `until`: the last day of what comes first. `weeks`: all; `near`: those
    that come first and have work; `months`: those after, likewise. `sprigs`: a twig for each work
    of each kind.
    """

    works: int
    minutes: int
    limit_minutes: int
    full: int
    over_minutes: int
    unmoved_full: int
    unmoved_over_minutes: int
    moved: int
    until: date
    weeks: tuple[WeekView, ...]
    near: tuple[NearWeekView, ...]
    months: tuple[MonthView, ...]
    sprigs: tuple[SprigView, ...]


def year_view(view: Nursery, kept: Memo = NO_MEMO) -> YearView:
    """Lay out the open works of all trees over the weeks from the view's day on.

    `kept`: what an earlier run of this process left.
    """
    limit = round(view.hours_per_week * 60)
    trees = {tree.handle: tree for tree in view.trees}
    ordered = sorted(chain.from_iterable(best_works(view, handle, kept) for handle in trees))
    season = season_of(ordered, view.today, limit, kept=kept)
    minutes = [week.minutes for week in season.weeks]
    until = first_until(view.today)
    weeks = tuple(_weeks(season, limit))
    return YearView(
        sum(len(week.works) for week in season.weeks),
        sum(minutes),
        limit,
        *_over(minutes, limit),
        *_over(season.unmoved, limit),
        sum(week.moved for week in season.weeks),
        until,
        weeks,
        _near(zip(weeks, season.weeks, strict=True), trees, until),
        tuple(_months(season, weeks, trees, until, kept)),
        sprigs_of(season, {handle: tree.kind for handle, tree in trees.items()}, view.today, kept),
    )


def first_until(today: date) -> date:
    """The last day of what comes first: the week in which this month ends, or the next one where
    little of it is left."""
    after = _month_after(today)
    if after - today < _LEAST_LEFT:
        after = _month_after(after)
    return monday_of(after - timedelta(days=1)) + timedelta(days=6)


def _month_after(day: date) -> date:
    return (day.replace(day=1) + timedelta(days=31)).replace(day=1)


def _over(minutes: Sequence[int], limit: int) -> tuple[int, int]:
    """How many weeks are over the limit, and by how many minutes in all."""
    if not limit:
        return 0, 0
    return sum(some > limit for some in minutes), minutes_over(minutes, limit)


def best_works(view: Nursery, handle: str, kept: Memo) -> list[Best]:
    """The open works of a tree, by their best days."""
    plans = view.plans.get(handle, ())
    return kept.once(
        ("works", handle),
        (Identical(plans), view.today),
        lambda: by_best(open_works(plans, view.today)),
    )


def _weeks(season: WeeksAhead, limit: int) -> Iterator[WeekView]:
    for week, unmoved in zip(season.weeks, season.unmoved, strict=True):
        over = max(week.minutes - limit, 0) if limit else 0
        yield WeekView(week.monday, week.minutes, over, unmoved)


# ------------------------------------------------------------------ what comes first


def _near(
    weeks: Iterable[tuple[WeekView, Week]], trees: Mapping[str, Tree], until: date
) -> tuple[NearWeekView, ...]:
    """The weeks of what comes first; the rows that take longest stand, whatever their week."""
    found = []
    for shown, week in weeks:
        if shown.monday > until:
            break
        coming = [one for one in week.works if one.day <= until and not _at_bench(one)]
        at_bench = sum(map(_at_bench, week.works))
        if coming or at_bench:
            found.append((shown, at_bench, _rows(coming, trees)))
    ordered = sorted((row for *_, rows in found for row in rows), key=lambda row: -row.minutes)
    stand = set(map(id, ordered[:MOST_ROWS]))
    return tuple(
        NearWeekView(
            shown,
            at_bench,
            tuple(row for row in rows if id(row) in stand),
            _rest(row for row in rows if id(row) not in stand),
        )
        for shown, at_bench, rows in found
    )


def _at_bench(placed: PlacedWork) -> bool:
    """Whether it stands at the bench, and nowhere else."""
    return placed.work.at_bench and not placed.moved


def _rest(rows: Iterable[RowView]) -> tuple[RestView, ...]:
    by_kind: dict[str, list[RowView]] = {}
    for row in rows:
        by_kind.setdefault(row.kind, []).append(row)
    return tuple(
        RestView(
            kind,
            sum(row.more + sum(one.times for one in row.named) for row in those),
            sum(row.minutes for row in those),
        )
        for kind, those in sorted(by_kind.items())
    )


# ------------------------------------------------------------------ the months after


def _months(
    season: WeeksAhead,
    weeks: Sequence[WeekView],
    trees: Mapping[str, Tree],
    until: date,
    kept: Memo,
) -> Iterator[MonthView]:
    # What a row shows of a tree.
    called = Identical(
        kept.same("kinds and names", [(one.handle, one.kind, one.title) for one in trees.values()])
    )

    def row(kind: str, work: str, those: Sequence[PlacedWork]) -> RowView:
        made = partial(_row, kind, work, those, trees)
        return kept.once(("row ahead", first, kind, work), (called, those), made)

    def in_order() -> tuple[RowView, ...]:
        rows = [row(*alike) for alike in _alike(works, trees)]
        return tuple(sorted(rows, key=lambda row: (row.kind, row.first, row.work)))

    by_month: dict[date, list[PlacedWork]] = {}
    months: dict[date, list[PlacedWork]] = {}
    for placed in chain.from_iterable(week.works for week in season.weeks):
        if (day := placed.day) > until:
            if day not in months:
                months[day] = by_month.setdefault(day.replace(day=1), [])
            months[day].append(placed)
    for first, works in sorted(by_month.items()):
        full = (one.monday for one in weeks if one.over_minutes)
        yield MonthView(
            first,
            len(works),
            sum(one.work.minutes for one in works),
            tuple(monday for monday in full if monday.replace(day=1) == first),
            kept.once(("month ahead", first), (called, works), in_order),
        )


# ------------------------------------------------------------------ rows


def _rows(works: Iterable[PlacedWork], trees: Mapping[str, Tree]) -> list[RowView]:
    """A row for each work of each kind, what takes longest first."""
    rows = [_row(*alike, trees) for alike in _alike(works, trees)]
    return sorted(rows, key=lambda row: (-row.minutes, row.work, row.kind))


def _alike(
    works: Iterable[PlacedWork], trees: Mapping[str, Tree]
) -> Iterator[tuple[str, str, list[PlacedWork]]]:
    """The works of each kind that are called the same."""
    alike: dict[tuple[str, str], list[PlacedWork]] = {}
    for one in works:
        alike.setdefault((trees[one.work.tree].kind, one.work.called), []).append(one)
    return ((kind, called, those) for (kind, called), those in alike.items())


def _row(kind: str, called: str, works: Sequence[PlacedWork], trees: Mapping[str, Tree]) -> RowView:
    """Trees of which a work was moved are named first."""
    told = list(_named(works, trees))
    shown = sorted(told, key=lambda one: one.moved_from is None)[:MOST_NAMED]
    return RowView(
        kind,
        called,
        min(one.day for one in works),
        max(one.day for one in works),
        sum(one.work.minutes for one in works),
        tuple(shown),
        len(told) - len(shown),
    )


def _named(works: Iterable[PlacedWork], trees: Mapping[str, Tree]) -> Iterator[NamedView]:
    """Each tree once, by name, for what is told alike of it."""
    alike: dict[tuple[str, date | None], list[PlacedWork]] = {}
    for one in sorted(works, key=lambda p: (trees[p.work.tree].title, p.work.id)):
        moved = one.work.best if one.moved else None
        alike.setdefault((one.work.tree, moved), []).append(one)
    for (tree, moved), those in alike.items():
        yield NamedView(tree, trees[tree].title, those[0].work.id, len(those), moved)
