"""Draws how many litres all trees together lose in each week."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, timedelta

from backbud.pages.drawings.axes import Drawing, Key, Table, axes_for, drawing, line, tick
from backbud.plan.water import WEEK_DAYS, WaterWeek
from backbud.tongue import phrase
from backbud.words import day

MIDDLE = timedelta(days=WEEK_DAYS // 2)


def draw(ident: str, title: str, weeks: Sequence[WaterWeek], today: date) -> Drawing:
    """Draw the weeks; ValueError for none."""
    end = weeks[-1].first + timedelta(days=WEEK_DAYS)
    litres = [round(week.litres, 1) for week in weeks]
    axes = axes_for(weeks[0].first, end, litres, phrase("litres a week"), 0.0)
    points = [(week.first + MIDDLE, lost) for week, lost in zip(weeks, litres, strict=True)]
    known = max((n for n, week in enumerate(weeks) if _is_measured(week)), default=-1)
    marks = line(axes, points[: known + 1], "this") + line(axes, points[max(known, 0) :], "ahead")
    keys = (
        Key("this", phrase("litres lost in a week, by measured weather")),
        Key("ahead", phrase("by the climate")),
    )
    most = max(range(len(weeks)), key=litres.__getitem__)
    about = phrase(
        "A line through {weeks} weeks; the most is {tick} litres in the week from {day}.",
        weeks=len(weeks),
        tick=tick(litres[most]),
        day=day(weeks[most].first, today.year),
    )
    table = Table(
        (
            phrase("Week from"),
            phrase("Litres lost"),
            phrase("Litres of rain caught"),
            phrase("Days measured"),
        ),
        tuple(
            (
                day(week.first, today.year),
                tick(lost),
                tick(round(week.rain_litres, 1)),
                str(week.measured_days),
            )
            for week, lost in zip(weeks, litres, strict=True)
        ),
    )
    return Drawing(
        drawing(ident, title, about, axes, marks, today), keys if known > 0 else keys[1:], table
    )


def _is_measured(week: WaterWeek) -> bool:
    return 2 * week.measured_days > WEEK_DAYS
