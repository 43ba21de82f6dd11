"""The plan of a collection comes in; its year by weeks comes out, as the season page shows it."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from datetime import date
from functools import partial

from msgspec import Struct

from backbud import words
from backbud.kept import KEEP_NOTHING, Is, Kept
from backbud.pages.drawings import week_hours, windows
from backbud.pages.drawings.axes import Drawing
from backbud.pages.links import anchor_of, link, tree_page
from backbud.pages.view import Nursery
from backbud.plan.in_order import kept_in_order
from backbud.plan.season import (
    Best,
    PlacedWork,
    Week,
    WeeksAhead,
    Work,
    by_best,
    minutes_over,
    season_of,
    works_of,
)

# So many trees of one kind of work are named in a week; the rest are counted.
MOST_NAMED = 12
# A work that the margin has no room for by its whole name.
SHORT = {"treat-deadwood": "deadwood"}


class Named(Struct, frozen=True):
    """A tree in a week's line: name, link to why, how often, and the day it was moved from."""

    tree: str
    page: str
    times: int
    moved: str
    late: bool


class ActInWeek(Struct, frozen=True):
    """The works of one act in a week; `more`: those whose trees are not named."""

    act: str
    named: tuple[Named, ...]
    more: str


class WeekRow(Struct, frozen=True):
    """A week that has work: its Monday, what is in it, its hours, and how far these are over."""

    monday: str
    iso: str
    lines: tuple[ActInWeek, ...]
    hours: str
    over: str


class SeasonSheet(Struct, frozen=True):
    """All that the season page shows.

    `total`, `limit`: hours as words; `full`: weeks over the limit. `said`: what was moved.
    """

    works: int
    total: str
    limit: str
    full: int
    said: tuple[str, ...]
    hours: Drawing | None
    windows: Drawing | None
    weeks: tuple[WeekRow, ...]


def sheet(view: Nursery, kept: Kept = KEEP_NOTHING) -> SeasonSheet:
    """Lay out the open works of all trees over the weeks from the view's day on."""
    limit = round(view.hours_per_week * 60)
    called = {tree.handle: tree.title for tree in view.trees}
    titles = kept.once("titles", (called,), lambda: called)
    works = {handle: _works(view, handle, kept) for handle in titles}
    ordered = kept_in_order(kept, "season works", works)
    season = season_of(ordered, view.today, limit, kept=kept)
    count = sum(len(week.works) for week in season.weeks)
    by_act = {placed.work.act: placed.work for week in season.weeks for placed in week.works}
    rows = windows.rows_of(season, lambda act: _bare(by_act[act]), kept)
    return SeasonSheet(
        count,
        words.minutes(sum(week.minutes for week in season.weeks)),
        words.minutes(limit) if limit else "",
        sum(1 for week in season.weeks if limit and week.minutes > limit),
        tuple(_said(season)),
        week_hours.draw("hours-drawing", season, view.today) if count else None,
        windows.draw("windows-drawing", season, rows, view.today) if count else None,
        tuple(
            kept.once(
                ("season week", week.monday),
                (Is(week), limit, Is(titles), view.today),
                partial(_week, week, limit, titles, view.today, kept),
            )
            for week in season.weeks
            if week.works
        ),
    )


def _works(view: Nursery, handle: str, kept: Kept) -> list[Best]:
    """The open works of a tree."""
    plans = view.plans.get(handle, ())
    return kept.once(
        ("works", handle), (Is(plans), view.today), lambda: by_best(works_of(plans, view.today))
    )


def _said(season: WeeksAhead) -> Iterable[str]:
    """What was moved, and what that was good for."""
    limit = season.limit
    if not limit:
        yield (
            "Nothing is moved: how many hours a week has is not written. In backbud.toml: "
            "hours_per_week = 10"
        )
        return
    moved = sum(week.moved for week in season.weeks)
    over = minutes_over((week.minutes for week in season.weeks), limit)
    was = minutes_over(season.unmoved, limit)
    if moved:
        full = sum(minutes > limit for minutes in season.unmoved)
        less = f"{words.minutes(over)} over" if over else "no hour over"
        yield (
            f"With every work on its best day, {words.number(full, 'week')} would be too full, "
            f"{words.minutes(was)} over in all. {words.number(moved, 'work')} moved inside "
            f"{'its window' if moved == 1 else 'their windows'}: {less}."
        )
        yield "Only this sheet moves them: calendars keep every work on its best day."
    elif over:
        yield "What is in the weeks that are too full cannot wait, or has no lighter week to go to."
    else:
        yield "Every work stands on its best day."


def _bare(work: Work) -> str:
    return SHORT.get(work.bare, work.bare).replace("-", " ")


def _week(week: Week, limit: int, titles: Mapping[str, str], today: date, kept: Kept) -> WeekRow:
    by_act: dict[str, list[PlacedWork]] = {}
    for placed in week.works:
        by_act.setdefault(placed.work.act, []).append(placed)
    heaviest = sorted(
        by_act.items(), key=lambda item: (-sum(p.work.minutes for p in item[1]), item[0])
    )
    over = week.minutes - limit if limit else 0
    return WeekRow(
        words.day(week.monday, today.year),
        week.monday.isoformat(),
        tuple(
            kept.once(
                ("season line", week.monday, act),
                (placed, Is(titles), today),
                partial(_line, placed, titles, today),
            )
            for act, placed in heaviest
        ),
        words.minutes(week.minutes),
        f"{words.minutes(over)} over" if over > 0 else "",
    )


def _line(placed: Sequence[PlacedWork], titles: Mapping[str, str], today: date) -> ActInWeek:
    """The works of one act; moved and late ones are always named."""
    told: dict[tuple[str, str, bool], list[PlacedWork]] = {}
    for one in sorted(placed, key=lambda p: (titles[p.work.tree], p.work.id)):
        moved = one.work.best.isoformat() if one.moved else ""
        told.setdefault((one.work.tree, moved, one.work.late), []).append(one)
    by_need = sorted(told.values(), key=lambda same: not _is_telling(same[0]))
    telling = sum(1 for same in by_need if _is_telling(same[0]))
    shown = by_need[: max(MOST_NAMED, telling)]
    more = len(by_need) - len(shown)
    return ActInWeek(
        words.sentence(_bare(placed[0].work)),
        tuple(_named(same, titles[same[0].work.tree], today) for same in shown),
        words.number(more, "more tree") if more else "",
    )


def _is_telling(placed: PlacedWork) -> bool:
    return placed.moved or placed.work.late


def _named(same: Sequence[PlacedWork], title: str, today: date) -> Named:
    placed, work = same[0], same[0].work
    return Named(
        title,
        link(tree_page(work.tree), "", anchor_of(work.id)),
        len(same),
        f"from {words.day(work.best, today.year)}" if placed.moved else "",
        work.late,
    )
