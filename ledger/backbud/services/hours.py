"""Hours of a forecast go in; days as a forecast file has them come out.

Days are those of the sun at the place's longitude, and a night belongs to the morning it ends on:
its low is the lowest from noon to noon.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from datetime import UTC, date, datetime, timedelta

from msgspec import Struct

from backbud.climate.forecast import ForecastDay

# A night is known where it is told of once at least between these hours, and a day likewise.
_NIGHT_HOURS, _DAY_HOURS = range(10), range(10, 18)
_NOON = timedelta(hours=12)


class Hour(Struct, frozen=True, gc=False):
    """What is told of a moment: °C and m/s, None where it is not."""

    at: datetime
    air_c: float | None = None
    wind_m_per_s: float | None = None
    gust_m_per_s: float | None = None


class Rain(Struct, frozen=True, gc=False):
    """What falls from a moment on for so long, in mm."""

    at: datetime
    lasts: timedelta
    mm: float


def sun_time(at: datetime, longitude: float) -> datetime:
    """A moment by the sun at a longitude, to the minute: 15 degrees are an hour."""
    return at.astimezone(UTC).replace(tzinfo=None) + timedelta(minutes=round(longitude * 4))


def days_of(
    hours: Iterable[Hour], rains: Iterable[Rain], longitude: float
) -> dict[date, ForecastDay]:
    """The days that the hours tell of, in order; of a day told in part only what is sure."""
    lows: dict[date, list[tuple[int, float]]] = {}
    highs: dict[date, list[tuple[int, float]]] = {}
    winds: dict[date, float] = {}
    gusts: dict[date, float] = {}
    for hour in hours:
        local = sun_time(hour.at, longitude)
        day, night = local.date(), (local + _NOON).date()
        if hour.air_c is not None:
            lows.setdefault(night, []).append((local.hour, hour.air_c))
            highs.setdefault(day, []).append((local.hour, hour.air_c))
        if hour.wind_m_per_s is not None:
            winds[day] = max(winds.get(day, 0.0), hour.wind_m_per_s)
        if hour.gust_m_per_s is not None:
            gusts[day] = max(gusts.get(day, 0.0), hour.gust_m_per_s)
    rain: dict[date, float] = {}
    for one in rains:
        # What falls over midnight counts for the day in which its middle lies.
        day = sun_time(one.at + one.lasts / 2, longitude).date()
        rain[day] = rain.get(day, 0.0) + one.mm
    return {
        day: ForecastDay(
            day,
            _known(lows.get(day, []), _NIGHT_HOURS, min),
            _known(highs.get(day, []), _DAY_HOURS, max),
            round(rain[day], 1) if day in rain else None,
            winds.get(day),
            gusts.get(day),
        )
        for day in sorted({*lows, *highs, *rain})
        if _known(lows.get(day, []), _NIGHT_HOURS, min) is not None
        or _known(highs.get(day, []), _DAY_HOURS, max) is not None
    }


def _known(
    told: list[tuple[int, float]], when: range, worst: Callable[[list[float]], float]
) -> float | None:
    if not any(hour in when for hour, _ in told):
        return None
    return worst([value for _, value in told])
