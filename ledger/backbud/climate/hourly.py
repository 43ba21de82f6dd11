"""The temperature at each hour, from the lows and highs of days: what sums of chill are made of.

Hours are of solar time: hour 0 is midnight, the sun is highest at 12. Temperatures are in °C.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from typing import NamedTuple

# Linvill's sine is at its highest two hours after noon; with less than four hours of light that
# falls into the night and the high is never reached. Nights are held to the same measure, since the
# logarithm cannot cool a short one smoothly. Both bounds: ours, no source.
_LEAST_DAYLIGHT_HOURS, _MOST_DAYLIGHT_HOURS = 4.0, 20.0
# Where the sun hardly rises or sets, the wave of Baskerville & Emin is laid through these hours:
# common practice, no source.
_LOW_AT_HOUR, _HIGH_AT_HOUR = 3.0, 15.0


class DayRange(NamedTuple):
    """A day's lowest and highest air temperature in °C, and its hours of daylight (0 to 24)."""

    low_c: float
    high_c: float
    daylight_hours: float


def hours_of_day_c(
    day: DayRange, before: DayRange | None = None, after: DayRange | None = None
) -> tuple[float, ...]:
    """Return the temperatures (°C) at the 24 hours of `day`, 0:00 first.

    Linvill 1990 (HortScience 25: 14-16). By day a sine from the low at sunrise to the high two
    hours after noon; by night a logarithmic fall to the low of the next morning. The time since
    sunset is counted from one hour, as libraries that apply the method do (xclim, chillR), so that
    nothing jumps at sunset. Hours before sunrise belong to the night of the day `before`, those
    after sunset lead to the low of the day `after`; a day not given is taken to be like this one.
    With less than four hours of light or of dark (polar day and night too), waves run from low to
    high to the next low instead.
    ValueError where a low is above its high, or daylight is not within 0 to 24 hours.
    """
    before, after = before or day, after or day
    for each in (before, day, after):
        _check(each)
    if _LEAST_DAYLIGHT_HOURS <= day.daylight_hours <= _MOST_DAYLIGHT_HOURS:
        return _linvill_c(before, day, after)
    return tuple(_wave_c(hour, before, day, after) for hour in range(24))


def hours_of_days_c(days: Sequence[DayRange]) -> Iterator[float]:
    """Yield the temperatures (°C) at each hour of days that follow one another, 24 a day.

    As `hours_of_day_c`; the first and the last day stand in for the neighbour they lack.
    """
    for position, day in enumerate(days):
        before = days[position - 1] if position > 0 else None
        after = days[position + 1] if position + 1 < len(days) else None
        yield from hours_of_day_c(day, before, after)


def _check(day: DayRange) -> None:
    # Written so that a NaN, which compares as False with everything, is refused as well.
    if not day.low_c <= day.high_c:
        raise ValueError(f"a day's low ({day.low_c} °C) cannot be above its high ({day.high_c} °C)")
    if not 0.0 <= day.daylight_hours <= 24.0:
        raise ValueError(f"a day has 0 to 24 hours of daylight, not {day.daylight_hours}")


def _linvill_c(before: DayRange, day: DayRange, after: DayRange) -> tuple[float, ...]:
    first_light, first_dark = math.ceil(_sunrise(day)), math.floor(_sunset(day)) + 1
    return (
        *_night_c(range(24, 24 + first_light), before, day),
        *(_daytime_c(hour - _sunrise(day), day) for hour in range(first_light, first_dark)),
        *_night_c(range(first_dark, 24), day, after),
    )


def _sunrise(day: DayRange) -> float:
    return 12 - day.daylight_hours / 2


def _sunset(day: DayRange) -> float:
    return 12 + day.daylight_hours / 2


def _daytime_c(hours_since_sunrise: float, day: DayRange) -> float:
    rise = math.sin(math.pi * hours_since_sunrise / (day.daylight_hours + 4))
    return day.low_c + (day.high_c - day.low_c) * rise


def _night_c(hours: range, evening: DayRange, morning: DayRange) -> Iterator[float]:
    """Return the temperatures of a night; `hours` count from the midnight before the evening."""
    sunset = _sunset(evening)
    at_sunset_c = _daytime_c(evening.daylight_hours, evening)
    night_hours = 24 + _sunrise(morning) - sunset
    fall_c = (at_sunset_c - morning.low_c) / math.log(night_hours + 1)
    return (at_sunset_c - fall_c * math.log(hour - sunset + 1) for hour in hours)


def _wave_c(hour: int, before: DayRange, day: DayRange, after: DayRange) -> float:
    if hour < _LOW_AT_HOUR:
        return _half_wave_c(hour, _HIGH_AT_HOUR - 24, before.high_c, day.low_c)
    if hour < _HIGH_AT_HOUR:
        return _half_wave_c(hour, _LOW_AT_HOUR, day.low_c, day.high_c)
    return _half_wave_c(hour, _HIGH_AT_HOUR, day.high_c, after.low_c)


def _half_wave_c(hour: float, from_hour: float, from_c: float, to_c: float) -> float:
    """Return the temperature on the half wave of twelve hours that begins at `from_hour`."""
    return from_c + (to_c - from_c) * (1 - math.cos(math.pi * (hour - from_hour) / 12)) / 2
