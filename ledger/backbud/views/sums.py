"""Makes the sums of heat and chill of a place as they are shown, beside those of other years."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import date, timedelta

from backbud.climate.air import DAY, PlaceAir
from backbud.climate.heat import Trace, heat_sums, heat_trace
from backbud.climate.outlook import Outlook
from backbud.climate.winter import BEFORE_NEW_YEAR, FEWEST_ON_RECORD, chill_trace
from backbud.views.sky import (
    Against,
    Sum,
    YearSum,
)
from backbud_grammar.dates import growing_year, growing_year_days

BASE_C = 5.0


WEEK = 7


# Where the average year adds less a day than this, days ahead or behind say nothing.
LEAST_A_DAY = 2.0


def heat_sum(outlook: Outlook, first: date, last: date) -> Sum:
    """Degree-days over 5 °C from the first day of the growing year."""
    air, shift = outlook.air, outlook.shift
    sums = heat_sums(air, shift, BASE_C)
    years = {
        growing_year(begins, outlook.southern): sums.trace(begins)
        for begins in air.complete_years(first)
    }
    return _sum(
        growing_year(first, outlook.southern),
        outlook.heat(first, BASE_C),
        heat_trace(_average_year(air), shift, first, BASE_C),
        years,
        (last - first).days + 1,
        air,
    )


def winter_of(outlook: Outlook, today: date) -> date:
    """The first day of the growing year whose winter is on, or was the last."""
    first, last = growing_year_days(today, outlook.southern)
    next_one = last + DAY
    return next_one if today >= next_one - BEFORE_NEW_YEAR else first


def chill_sum(outlook: Outlook, winter: date) -> Sum:
    """Chill portions of the winter round a day, against other winters."""
    air, this = outlook.air, outlook.chill(winter)
    years = {
        _winter_name(first): trace for first, trace in outlook.winters.on_record(winter).items()
    }
    average = chill_trace(_average_year(air), outlook.shift, winter, outlook.latitude)
    return _sum(_winter_name(winter), this, average, years, len(this.sums), air)


def _winter_name(first: date) -> str:
    """`2026/27` where a winter crosses New Year, `2026` where it does not."""
    begins = (first - BEFORE_NEW_YEAR).year
    return str(begins) if begins == first.year else f"{begins}/{first.year % 100:02}"


def _average_year(air: PlaceAir) -> PlaceAir:
    """The same place with nothing measured."""
    return PlaceAir({}, air.means, air.today, air.means_from)


def _sum(
    name: str, this: Trace, usual: Trace, years: Mapping[str, Trace], days: int, air: PlaceAir
) -> Sum:
    """`usual`: of the average year by the means, which stands where too few years are on record."""
    today = air.today
    among = list(years.values()) if len(years) >= FEWEST_ON_RECORD else []
    average = _average_of(this.first, among) if among else usual
    at = [*range(WEEK - 1, days - 1, WEEK), days - 1]
    now = min(max((today - this.first).days, -1), days - 1)
    sum_now = _at(this, now)
    measured = [day for day in days_from(this.first, now + 1) if air.of(day).measured]
    reached = average.reaches(sum_now) if sum_now > 0 else None
    come = 0 <= (today - this.first).days < days
    gains = average.at(today + WEEK * DAY) - average.at(today) >= LEAST_A_DAY * WEEK
    is_told = come and gains and bool(measured)
    return Sum(
        name,
        tuple(
            Against(
                this.first + n * DAY,
                round(_at(this, n), 1),
                round(_at(average, n), 1),
                *least_and_most([_at(year, n) for year in among]),
            )
            for n in at
        ),
        sum_now,
        _at(average, now),
        (reached - today).days if is_told and reached is not None else None,
        tuple(
            YearSum(year, _at(trace, now), _at(trace, days - 1))
            for year, trace in reversed(list(years.items()))
        ),
        len(among),
        now + 1,
        len(measured),
        max(measured, default=None),
    )


def _average_of(first: date, years: Sequence[Trace]) -> Trace:
    """The mean of the sums of some years, day by day."""
    days = zip(*(year.sums for year in years), strict=False)
    return Trace(first, tuple(sum(sums) / len(years) for sums in days))


def days_from(first: date, count: int) -> list[date]:
    return [first + n * DAY for n in range(count)]


def _at(trace: Trace, days: int) -> float:
    return trace.at(trace.first + timedelta(days=days))


def least_and_most(values: Sequence[float]) -> tuple[float | None, float | None]:
    return (round(min(values), 1), round(max(values), 1)) if values else (None, None)
