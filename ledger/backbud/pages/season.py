"""Lays out the year ahead by weeks, as the season page shows it."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date
from functools import partial

from msgspec import Struct

from backbud import words
from backbud.memo import NO_MEMO, Identical, Memo
from backbud.pages.drawings import week_hours, windows
from backbud.pages.drawings.axes import Drawing
from backbud.pages.links import anchor_of, link, tree_page
from backbud.views.nursery import Nursery
from backbud.views.year import LineView, NamedView, WeekView, YearView, year_view

# A work that the margin has no room for by its whole name.
SHORT = {"treat-deadwood": "deadwood"}


class NamedTree(Struct, frozen=True):
    """A tree in a week's line: name, link to why, how often, and the day it was moved from."""

    tree: str
    page: str
    times: int
    moved: str
    late: bool


class ActInWeek(Struct, frozen=True):
    """The works of one act in a week; `more`: those whose trees are not named."""

    act: str
    named: tuple[NamedTree, ...]
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


def sheet(view: Nursery, kept: Memo = NO_MEMO) -> SeasonSheet:
    """The open works of all trees as the season page shows them."""
    year, today = year_view(view, kept), view.today
    season = year.season
    bare = {placed.work.act: placed.work.bare for week in season.weeks for placed in week.works}
    rows = windows.rows_of(season, lambda act: _called(bare[act]), kept)
    return SeasonSheet(
        year.works,
        words.minutes(year.minutes),
        words.minutes(year.limit_minutes) if year.limit_minutes else "",
        year.full,
        tuple(_said(year)),
        week_hours.draw("hours-drawing", season, today) if year.works else None,
        windows.draw("windows-drawing", season, rows, today) if year.works else None,
        tuple(
            kept.once(
                ("week row", week.monday), (Identical(week), today), partial(_week, week, today)
            )
            for week in year.weeks
        ),
    )


def _said(year: YearView) -> Iterable[str]:
    """What was moved, and what that was good for."""
    if not year.limit_minutes:
        yield (
            "Nothing is moved: how many hours a week has is not written. In backbud.toml: "
            "hours_per_week = 10"
        )
        return
    if year.moved:
        over = year.over_minutes
        less = f"{words.minutes(over)} over" if over else "no hour over"
        yield (
            f"With every work on its best day, {words.number(year.unmoved_full, 'week')} would be "
            f"too full, {words.minutes(year.unmoved_over_minutes)} over in all. "
            f"{words.number(year.moved, 'work')} moved inside "
            f"{'its window' if year.moved == 1 else 'their windows'}: {less}."
        )
        yield "Only this sheet moves them: calendars keep every work on its best day."
    elif year.over_minutes:
        yield "What is in the weeks that are too full cannot wait, or has no lighter week to go to."
    else:
        yield "Every work stands on its best day."


def _called(bare: str) -> str:
    return SHORT.get(bare, bare).replace("-", " ")


def _week(week: WeekView, today: date) -> WeekRow:
    return WeekRow(
        words.day(week.monday, today.year),
        week.monday.isoformat(),
        tuple(_line(line, today) for line in week.lines),
        words.minutes(week.minutes),
        f"{words.minutes(week.over_minutes)} over" if week.over_minutes else "",
    )


def _line(line: LineView, today: date) -> ActInWeek:
    return ActInWeek(
        words.sentence(_called(line.bare)),
        tuple(_named(one, today) for one in line.named),
        words.number(line.more, "more tree") if line.more else "",
    )


def _named(one: NamedView, today: date) -> NamedTree:
    return NamedTree(
        one.tree_name,
        link(tree_page(one.tree), "", anchor_of(one.id)),
        one.times,
        f"from {words.day(one.moved_from, today.year)}" if one.moved_from else "",
        one.late,
    )
