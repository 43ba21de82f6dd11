"""The weather of single days goes in; the days on which slugs are about come out."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date, timedelta
from typing import NamedTuple

from backbud.climate.days import WeatherDay
from backbud.climate.forecast import ForecastDay

# Slugs feed on damp mild nights. So much rain within a week, and no night of its last three under
# so many °C; ours, no source.
DAYS, TOTAL_MM = 7, 10.0
NIGHTS, NIGHT_OVER_C = 3, 4.0

Days = Mapping[date, WeatherDay | ForecastDay]


class SlugNights(NamedTuple):
    """The first day of a damp mild spell, and the rain of the week up to it in mm."""

    day: date
    rain_mm: float


def slug_nights(days: Days, first: date, last: date) -> SlugNights | None:
    """The first day between two days after which slugs are about, as measured or foretold; None
    where none is."""
    day = first
    while day <= last:
        rain_mm = sum(_rain(days, day - timedelta(days=n)) for n in range(DAYS))
        if rain_mm >= TOTAL_MM and _is_mild(days, day):
            return SlugNights(day, rain_mm)
        day += timedelta(days=1)
    return None


def tells_rain(days: Days, first: date, last: date) -> bool:
    """Whether the rain of any day between two days is known, were it none."""
    every = (first + timedelta(days=n) for n in range((last - first).days + 1))
    return any((seen := days.get(day)) is not None and seen.rain_mm is not None for day in every)


def _rain(days: Days, day: date) -> float:
    seen = days.get(day)
    return 0.0 if seen is None or seen.rain_mm is None else seen.rain_mm


def _is_mild(days: Days, day: date) -> bool:
    """Whether every night of the last days is known and was mild."""
    lows = [days.get(day - timedelta(days=n)) for n in range(NIGHTS)]
    return all(
        seen is not None and seen.low_c is not None and seen.low_c >= NIGHT_OVER_C for seen in lows
    )
