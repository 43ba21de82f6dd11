"""Draws the temperature of a year by week, what was measured apart from what is expected."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, timedelta

from backbud.pages.drawings.axes import (
    Drawing,
    Key,
    Table,
    axes_for,
    bar,
    drawing,
    line,
    tick,
    upright,
)
from backbud.views.sky import AirWeek
from backbud.words import day

KEYS = (
    Key("seen", "measured: mean low to mean high of the week"),
    Key("extreme", "its coldest night and warmest day"),
    Key("expected", "expected by the climate"),
    Key("usual", "the average year"),
)


def draw(ident: str, title: str, weeks: Sequence[AirWeek], today: date) -> Drawing:
    """Draw the weeks; ValueError for none."""
    end = weeks[-1].first + timedelta(days=weeks[-1].days)
    values = [value for week in weeks for value in _values(week)]
    axes = axes_for(weeks[0].first, end, values, "°C")
    marks = []
    for week in weeks:
        if week.lowest_c is not None and week.highest_c is not None:
            marks.append(
                upright(axes, week.first, week.days, week.lowest_c, week.highest_c, "extreme")
            )
        mark, wide = ("seen", 0.8) if week.measured else ("expected", 0.45)
        marks.append(bar(axes, week.first, week.days, week.low_c, week.high_c, mark, wide))
    for usual in (
        [(_middle(week), week.usual_low_c) for week in weeks],
        [(_middle(week), week.usual_high_c) for week in weeks],
    ):
        marks.append(line(axes, usual, "usual"))
    known = sum(week.measured for week in weeks)
    about = (
        f"Bars for {len(weeks)} weeks, {known} of them measured, each from its mean low to its "
        f"mean high, between {tick(min(values))} and {tick(max(values))} °C."
    )
    absent = (
        ({"seen"} if not known else set())
        | ({"expected"} if known == len(weeks) else set())
        | ({"extreme"} if not any(week.measured_days for week in weeks) else set())
    )
    return Drawing(
        drawing(ident, title, about, axes, "".join(marks), today),
        tuple(key for key in KEYS if key.mark not in absent),
        _table(weeks, today),
    )


def _values(week: AirWeek) -> list[float]:
    both = (week.lowest_c, week.highest_c)
    shown = [week.low_c, week.high_c, week.usual_low_c, week.usual_high_c]
    return shown + [value for value in both if value is not None]


def _middle(week: AirWeek) -> date:
    return week.first + timedelta(days=week.days // 2)


def _table(weeks: Sequence[AirWeek], today: date) -> Table:
    return Table(
        (
            "Week from",
            "Low °C",
            "High °C",
            "Least",
            "Most",
            "Usual low",
            "Usual high",
            "Days seen",
        ),
        tuple(
            (
                day(week.first, today.year),
                *(
                    "" if value is None else tick(value)
                    for value in (
                        week.low_c,
                        week.high_c,
                        week.lowest_c,
                        week.highest_c,
                        week.usual_low_c,
                        week.usual_high_c,
                    )
                ),
                str(week.measured_days),
            )
            for week in weeks
        ),
    )
