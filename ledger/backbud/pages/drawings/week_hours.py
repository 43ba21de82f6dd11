"""Draws the hours of work in each week, against the hours that a week has."""

from __future__ import annotations

from datetime import date

from backbud import words
from backbud.pages.drawings.axes import Drawing, Key, Table, axes_for, bar, drawing, line
from backbud.plan.season import WEEK, WeeksAhead

HOUR = 60
WIDE = 0.72


def draw(ident: str, season: WeeksAhead, today: date) -> Drawing:
    """Draw the hours of each week; ValueError for none."""
    first, end = season.weeks[0].monday, season.weeks[-1].monday + WEEK
    limit = season.limit / HOUR
    hours = [week.minutes / HOUR for week in season.weeks]
    before = [minutes / HOUR for minutes in season.unmoved]
    axes = axes_for(first, end, [*hours, *before, limit], "hours a week", 0.0)
    marks = []
    for week, now, was in zip(season.weeks, hours, before, strict=True):
        within = min(now, limit) if limit else now
        if was > now:
            marks.append(bar(axes, week.monday, WEEK.days, now, was, "was", WIDE))
        if within > 0:
            marks.append(bar(axes, week.monday, WEEK.days, 0.0, within, "seen", WIDE))
        if now > within:
            marks.append(bar(axes, week.monday, WEEK.days, within, now, "over", WIDE))
    if limit:
        marks.append(line(axes, [(first, limit), (end, limit)], "usual"))
    return Drawing(
        drawing(ident, "Hours of work by week", _about(season, today), axes, "".join(marks), today),
        tuple(_keys(season)),
        Table((), ()),
    )


def _keys(season: WeeksAhead) -> list[Key]:
    keys = [Key("seen", "hours of work")]
    if season.limit:
        if any(week.minutes > season.limit for week in season.weeks):
            keys.append(Key("over", "too much for the week"))
        if any(was > week.minutes for was, week in zip(season.unmoved, season.weeks, strict=True)):
            keys.append(Key("was", "moved to a lighter week"))
        keys.append(Key("usual", f"{words.minutes(season.limit)}, what a week has"))
    return keys


def _about(season: WeeksAhead, today: date) -> str:
    fullest = max(season.weeks, key=lambda week: (week.minutes, -week.monday.toordinal()))
    return (
        f"Bars for {len(season.weeks)} weeks; the fullest is the week of "
        f"{words.day(fullest.monday, today.year)} with {words.minutes(fullest.minutes)}."
    )
