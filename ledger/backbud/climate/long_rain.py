"""Finds the days by which it had rained so long that a pot may stand wet."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date, timedelta
from typing import NamedTuple

from backbud.climate.days import WeatherDay
from backbud.climate.forecast import ForecastDay

# Rain on eight of ten days and 80 mm in all, and not again within three weeks: ours, no source.
DAYS, WET_DAYS, TOTAL_MM = 10, 8, 80.0
WET_FROM_MM = 1.0
_AGAIN_AFTER = timedelta(days=21)


class WetSpell(NamedTuple):
    """The day by which it had rained so long, and the rain of the days up to it in mm."""

    day: date
    rain_mm: float


def wet_spells(
    days: Mapping[date, WeatherDay | ForecastDay], first: date, last: date
) -> list[WetSpell]:
    """The first day of each such spell between two days, as measured or foretold."""
    found: list[WetSpell] = []
    rain = {day: seen.rain_mm for day, seen in days.items() if seen.rain_mm is not None}
    for day in sorted(day for day in rain if first <= day <= last):
        lately = [rain.get(day - timedelta(days=n), 0.0) for n in range(DAYS)]
        long_enough = sum(mm >= WET_FROM_MM for mm in lately) >= WET_DAYS
        if not long_enough or sum(lately) < TOTAL_MM:
            continue
        if not found or day - found[-1].day >= _AGAIN_AFTER:
            found.append(WetSpell(day, sum(lately)))
    return found
