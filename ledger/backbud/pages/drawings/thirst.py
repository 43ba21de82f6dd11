"""Draws how many litres all trees together lose in each week."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, timedelta

from backbud.pages.drawings.axes import Drawing, Key, Table, axes_for, bar, drawing, tick
from backbud.plan.water import WEEK_DAYS, WaterWeek
from backbud.words import day

KEYS = (
    Key("seen", "litres lost in a week, by measured weather"),
    Key("expected", "by the climate"),
)


def draw(ident: str, title: str, weeks: Sequence[WaterWeek], today: date) -> Drawing:
    """Draw the weeks; ValueError for none."""
    end = weeks[-1].first + timedelta(days=WEEK_DAYS)
    litres = [round(week.litres, 1) for week in weeks]
    axes = axes_for(weeks[0].first, end, litres, "litres a week", 0.0)
    marks = "".join(
        bar(axes, week.first, WEEK_DAYS, 0.0, lost, *_mark(week))
        for week, lost in zip(weeks, litres, strict=True)
    )
    most = max(range(len(weeks)), key=litres.__getitem__)
    about = (
        f"Bars for {len(weeks)} weeks; the most is {tick(litres[most])} litres in the week from "
        f"{day(weeks[most].first, today.year)}."
    )
    table = Table(
        ("Week from", "Litres lost", "Litres of rain caught", "Days measured"),
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
    measured = any(_mark(week)[0] == "seen" for week in weeks)
    return Drawing(
        drawing(ident, title, about, axes, marks, today), KEYS if measured else KEYS[1:], table
    )


def _mark(week: WaterWeek) -> tuple[str, float]:
    return ("seen", 0.8) if 2 * week.measured_days > WEEK_DAYS else ("expected", 0.45)
