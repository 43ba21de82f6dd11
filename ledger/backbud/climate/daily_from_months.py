"""A value for each day of a year, so that the mean of each month is the one that is known.

The curve is a sum of a constant, five yearly harmonics and half of the sixth: twelve unknowns for
twelve months, so that the mean of each month's days is the given mean. A line drawn between the
middles of months does not do that: it cuts off the top of summer and the bottom of winter. After
E. S. Epstein 1991, On obtaining daily climatological values from monthly means, Journal of Climate
4:365-368 (from memory of it); here the sums run over the days of each month as it is, not over
twelve equal months.
"""

from __future__ import annotations

import calendar
from collections.abc import Sequence
from datetime import date
from functools import lru_cache
from itertools import accumulate
from math import cos, isfinite, pi, sin
from operator import mul
from typing import NamedTuple

_Row = tuple[float, ...]


def daily_means(monthly_means: Sequence[float], year: int) -> tuple[float, ...]:
    """Return the mean expected on each of the 365 or 366 days of `year`, in the unit given.

    `monthly_means`: twelve means, January first. The mean over the days of each month is the one
    given. Values can leave the range of the twelve: for what is never negative see
    `daily_rain_mm`. ValueError where there are not twelve finite numbers.
    """
    return _daily_means(_twelve(monthly_means), calendar.isleap(year))


def mean_on(monthly_means: Sequence[float], day: date) -> float:
    """Return the mean expected on one day; else as `daily_means`."""
    return daily_means(monthly_means, day.year)[_place_in_year(day)]


def daily_rain_mm(monthly_totals_mm: Sequence[float], year: int) -> tuple[float, ...]:
    """Return the mean rain (mm) on each of the 365 or 366 days of `year`, never negative.

    `monthly_totals_mm`: twelve totals, January first; each month's days add up to its total. Where
    the fit to a month's mean daily rain dips below nothing, those days are set to nothing and the
    month's other days are lowered, all by one factor, until the total is right again. ValueError
    where there are not twelve finite totals of nothing or more.
    """
    totals = _twelve(monthly_totals_mm)
    if min(totals) < 0:
        raise ValueError(f"rain cannot be negative: {min(totals)} mm")
    return _daily_rain_mm(totals, calendar.isleap(year))


def rain_on_mm(monthly_totals_mm: Sequence[float], day: date) -> float:
    """Return the mean rain (mm) of one day; else as `daily_rain_mm`."""
    return daily_rain_mm(monthly_totals_mm, day.year)[_place_in_year(day)]


def _twelve(values: Sequence[float]) -> _Row:
    if len(values) != 12:
        raise ValueError(f"twelve monthly values are needed, not {len(values)}")
    if not all(map(isfinite, values)):
        raise ValueError("a monthly value is not a finite number")
    return tuple(values)


def _place_in_year(day: date) -> int:
    return day.timetuple().tm_yday - 1


# One journal has few places, and each place low, high and mean.
@lru_cache(maxsize=256)
def _daily_means(means: _Row, leap: bool) -> _Row:
    fit = _fit(leap)
    coefficients = [_dot(row, means) for row in fit.coefficients_from_means]
    return tuple(_dot(row, coefficients) for row in fit.harmonics_of_day)


@lru_cache(maxsize=256)
def _daily_rain_mm(totals: _Row, leap: bool) -> _Row:
    months = _months(leap)
    means = tuple(
        total / (month.stop - month.start) for total, month in zip(totals, months, strict=True)
    )
    fitted = _daily_means(means, leap)
    rain: list[float] = []
    for total, month in zip(totals, months, strict=True):
        rain += _not_negative(fitted[month], total)
    return tuple(rain)


def _not_negative(fitted: _Row, total: float) -> list[float]:
    if total == 0:
        return [0.0] * len(fitted)
    if min(fitted) >= 0:
        return list(fitted)
    kept = [max(value, 0.0) for value in fitted]
    factor = total / sum(kept)
    return [value * factor for value in kept]


class _Fit(NamedTuple):
    """For one calendar: the twelve harmonics on each day; the matrix from means to coefficients."""

    harmonics_of_day: tuple[_Row, ...]
    coefficients_from_means: tuple[_Row, ...]


@lru_cache(maxsize=2)
def _fit(leap: bool) -> _Fit:
    length = 366 if leap else 365
    days = tuple(_harmonics(2 * pi * (n + 0.5) / length) for n in range(length))
    means = []
    for month in _months(leap):
        rows = days[month]
        means.append([sum(column) / len(rows) for column in zip(*rows, strict=True)])
    return _Fit(days, _inverse(means))


def _harmonics(angle: float) -> _Row:
    # Of the sixth harmonic only the sine: the cosine is about nothing in the middle of each month,
    # and so cannot be told from twelve means.
    waves = [wave(order * angle) for order in range(1, 6) for wave in (cos, sin)]
    return (1.0, *waves, sin(6 * angle))


def _months(leap: bool) -> tuple[slice, ...]:
    year = 2024 if leap else 2023
    ends = list(accumulate(calendar.monthrange(year, month)[1] for month in range(1, 13)))
    return tuple(slice(*ends_) for ends_ in zip([0, *ends], ends, strict=False))


def _dot(left: Sequence[float], right: Sequence[float]) -> float:
    total: float = sum(map(mul, left, right))
    return total


def _inverse(matrix: list[list[float]]) -> tuple[_Row, ...]:
    """Gauss and Jordan, with the largest pivot of each column."""
    size = len(matrix)
    rows = [
        [*row, *(float(column == place) for column in range(size))]
        for place, row in enumerate(matrix)
    ]
    for column in range(size):
        largest = max(range(column, size), key=lambda place: abs(rows[place][column]))
        rows[column], rows[largest] = rows[largest], rows[column]
        pivot = [value / rows[column][column] for value in rows[column]]
        rows = [
            pivot
            if place == column
            else [value - row[column] * one for value, one in zip(row, pivot, strict=True)]
            for place, row in enumerate(rows)
        ]
    return tuple(tuple(row[size:]) for row in rows)
