"""Draws the warmth of a year by week: the usual band, and this year's line in ink."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, timedelta

from backbud.pages.drawings.axes import Drawing, Key, Table, axes_for, band, drawing, line, tick
from backbud.tongue import phrase
from backbud.views.sky import AirWeek
from backbud.words import day, number


def draw(ident: str, title: str, weeks: Sequence[AirWeek], among: int, today: date) -> Drawing:
    """Draw the weeks; ValueError for none. `among`: of how many years the average is, 0 where it
    is of the monthly means."""
    end = weeks[-1].first + timedelta(days=weeks[-1].days)
    axes = axes_for(weeks[0].first, end, [value for one in weeks for value in _values(one)], "°C")
    least = [(_middle(one), one.least_c) for one in weeks if one.least_c is not None]
    most = [(_middle(one), one.most_c) for one in weeks if one.most_c is not None]
    known = [one for one in weeks if one.measured_days]
    come = [(_middle(one), one.mean_c) for one in known]
    ahead = [
        (_middle(one), one.mean_c) for one in weeks if not known or one.first > known[-1].first
    ]
    marks, keys = "", []
    if come:
        keys.append(Key("this", phrase("this year, the mean of each week")))
    if ahead:
        keys.append(Key("ahead", phrase("expected")))
    if least:
        marks += band(axes, most, least, "years") + line(axes, most, "edge")
        marks += line(axes, least, "edge")
        keys.append(
            Key(
                "edge",
                phrase("coldest and warmest of {years} on record", years=number(among, "year")),
            )
        )
    marks += line(axes, [(_middle(one), one.average_c) for one in weeks], "average")
    keys.append(Key("average", phrase("their average") if least else phrase("the average year")))
    marks += line(axes, come, "this") + line(axes, come[-1:] + ahead, "ahead")
    return Drawing(
        drawing(ident, title, _about(weeks), axes, marks, today),
        tuple(keys),
        _table(weeks, today),
    )


def _values(week: AirWeek) -> list[float]:
    some = (week.mean_c, week.average_c, week.least_c, week.most_c)
    return [value for value in some if value is not None]


def _middle(week: AirWeek) -> date:
    return week.first + timedelta(days=week.days // 2)


def _about(weeks: Sequence[AirWeek]) -> str:
    means = [one.mean_c for one in weeks]
    known = sum(one.measured for one in weeks)
    return phrase(
        "A line through the means of {weeks} weeks, {known} of them measured, "
        "between {tick} and {tick_2} °C.",
        weeks=len(weeks),
        known=known,
        tick=tick(min(means)),
        tick_2=tick(max(means)),
    )


def _table(weeks: Sequence[AirWeek], today: date) -> Table:
    heads = (
        phrase("Week from"),
        phrase("Mean °C"),
        phrase("Average"),
        phrase("Coldest on record"),
        phrase("Warmest on record"),
        phrase("Coldest night"),
        phrase("Warmest day"),
        phrase("Days measured"),
    )
    return Table(
        heads,
        tuple(
            (
                day(one.first, today.year),
                *(
                    "" if value is None else tick(value)
                    for value in (
                        one.mean_c, one.average_c, one.least_c, one.most_c,
                        one.lowest_c, one.highest_c,
                    )
                ),
                str(one.measured_days),
            )
            for one in weeks
        ),
    )  # fmt: skip
