"""Draws the hours of the weeks ahead as one bough, the thicker the more work a week holds.

Two thin lines are the bark: what a week has room for. Where the bough bursts it, the wood beyond is
ink, and a diamond stands over that week.
"""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from html import escape

from backbud import words
from backbud.pages.drawings.axes import Key
from backbud.pages.drawings.year_line import (
    ACROSS,
    month_letters,
    month_marks,
    stretched,
    swelling,
)
from backbud.plan.season import WEEK
from backbud.tongue import phrase
from backbud.views.year import WeekView, YearView

HEIGHT, CENTRE, LETTERS = 110.0, 54.0, 107.0
# Half as thick as what a week has; never thicker than fits.
ROOM, THICKEST, THINNEST = 20.0, 36.0, 0.5


def draw(year: YearView, today: date) -> tuple[str, tuple[Key, ...]]:
    """The drawing, and what its marks stand for."""
    weeks = year.weeks
    first, end = weeks[0].monday, weeks[-1].monday + WEEK
    full = max(year.limit_minutes, 1) if year.limit_minutes else _most(year)
    step = ACROSS / len(weeks)
    halves = [min(max(ROOM * one.minutes / full, THINNEST), THICKEST) for one in weeks]
    points = [(0.0, halves[0]), *(((n + 0.5) * step, half) for n, half in enumerate(halves))]
    points.append((ACROSS, halves[-1]))
    outline = swelling(points, CENTRE)
    bark = ""
    if year.limit_minutes:
        within = swelling([(x, min(half, ROOM)) for x, half in points], CENTRE)
        bark = (
            f'<path class="beyond" d="{outline}"/>'
            f'<path class="room" d="M0 {CENTRE - ROOM}h{ACROSS:.0f}m0 {2 * ROOM}H0"/>'
        )
        outline = within
    drawn = stretched(
        HEIGHT,
        f'{month_marks(first, end, HEIGHT - 14)}{bark}<path class="wooden" d="{outline}"/>',
    )
    return (
        '<svg class="bough" role="img" aria-labelledby="bough-title" '
        f'aria-describedby="bough-about" width="100%" height="{HEIGHT:.0f}">'
        f'<title id="bough-title">{escape(phrase("Hours of work in each week ahead"))}</title>'
        f'<desc id="bough-about">{escape(_about(year, today))}</desc>'
        f'<rect class="stem" x="0" y="{CENTRE - min(halves[0], ROOM):.1f}" width="2" '
        f'height="{2 * min(halves[0], ROOM):.1f}"/>'
        f"{drawn}{''.join(_marks(year))}{month_letters(first, end, LETTERS)}</svg>",
        tuple(_keys(year)),
    )


def _most(year: YearView) -> int:
    return max(max(one.minutes for one in year.weeks), 1)


def fullest(year: YearView) -> WeekView:
    """The week with most hours, the first of those alike."""
    return max(year.weeks, key=lambda week: (week.minutes, -week.monday.toordinal()))


def _marks(year: YearView) -> Iterator[str]:
    """How many hours the fullest week has, and a diamond over each that is over its room."""
    most = fullest(year)
    for n, week in enumerate(year.weeks):
        x = 100 * (n + 0.5) / len(year.weeks)
        if week.over_minutes:
            yield f'<use class="burst" href="#diamond" x="{x:.1f}%" y="12"/>'
        elif week is most:
            side = "start" if x < 12 else "end" if x > 88 else "middle"
            yield (f'<text class="{side}" x="{x:.1f}%" y="14">{words.minutes(week.minutes)}</text>')


def _keys(year: YearView) -> Iterator[Key]:
    yield Key("wooden", phrase("hours of work in a week"))
    if year.limit_minutes:
        yield Key(
            "room", phrase("{minutes}, what a week has", minutes=words.minutes(year.limit_minutes))
        )
    if year.full:
        yield Key("beyond", phrase("more than it has"))


def _about(year: YearView, today: date) -> str:
    most = fullest(year)
    return phrase(
        "{weeks} weeks; the fullest is the week of {day} with {minutes}.",
        weeks=len(year.weeks),
        day=words.day(most.monday, today.year),
        minutes=words.minutes(most.minutes),
    )
