"""Finds the hot times of a place's year: two where a cooler time or the rains part them."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date, timedelta
from itertools import pairwise

from backbud.climate.days import MonthlyMeans

# In a month of so much rain (mm) whose days stay so far (K) under the hottest month's, cloud takes
# the sun off a bench: India's monsoon. Ours, no source.
RAINS_MM, RAINS_COOL_K = 150.0, 3.0
# Shorter is no season of its own, be it hot or cooler; ours, no source.
_HOT_FOR, _COOLER_FOR = timedelta(days=21), timedelta(days=28)
_DAY = timedelta(days=1)

_Run = tuple[date, date]


def rainy_months(means: MonthlyMeans) -> frozenset[int]:
    """The months (January is 1) whose rain breaks the heat; none where the rain is not known."""
    cool = max(means.high_c) - RAINS_COOL_K
    return frozenset(
        n + 1
        for n, rain in enumerate(means.rain_mm)
        if rain >= RAINS_MM and means.high_c[n] <= cool
    )


def hot_spells(hot: Sequence[date], rainy: frozenset[int]) -> tuple[_Run, ...]:
    """The first and the last day of each hot time. `hot`: the hot days of a growing year, in their
    order; `rainy`: months whose rain breaks the heat, where days are hot before and after."""
    if not hot:
        return ()
    runs = list(_runs([day for day in hot if day.month not in rainy] or hot))
    # Rain before the first of them, or after the last, ends nothing.
    runs[0] = (hot[0], runs[0][1])
    runs[-1] = (runs[-1][0], hot[-1])
    parted = [runs[0]]
    for first, last in runs[1:]:
        opened, closed = parted[-1]
        long_apart = first - closed > _COOLER_FOR
        if long_apart and closed - opened >= _HOT_FOR and last - first >= _HOT_FOR:
            parted.append((first, last))
        else:
            parted[-1] = (opened, last)
    return tuple(parted)


def _runs(days: Sequence[date]) -> Iterator[_Run]:
    """Days in a row."""
    first = days[0]
    for one, other in pairwise(days):
        if other - one > _DAY:
            yield first, one
            first = other
    yield first, days[-1]
