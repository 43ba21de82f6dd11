"""What a weather file says, whatever its form: days or months, its station, what was wrong."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from datetime import date
from typing import NamedTuple

from msgspec import Struct

from backbud.climate.days import WeatherDay
from backbud.climate.radiation import is_elevation
from backbud_grammar.problems import Flaw


class MonthWeather(Struct, frozen=True, gc=False):
    """One month: means of the daily low and high in °C, all rain in mm, all sunshine in hours."""

    year: int
    month: int
    low_c: float | None = None
    high_c: float | None = None
    rain_mm: float | None = None
    sun_hours: float | None = None


class Station(Struct, frozen=True, gc=False):
    """Where a file says that it was measured: degrees, north and east positive, and metres."""

    name: str = ""
    latitude: float | None = None
    longitude: float | None = None
    elevation_m: float | None = None


def station_at(
    name: str, latitude: float | None, longitude: float | None, elevation_m: float | None
) -> Station:
    """Return a station; a latitude or longitude that is none on Earth puts it nowhere, and an
    elevation that no land has is not known (files write -999.9)."""
    if latitude is None or longitude is None or abs(latitude) > 90 or abs(longitude) > 180:
        return Station(name)
    if elevation_m is not None and not is_elevation(elevation_m):
        elevation_m = None
    return Station(name, latitude, longitude, elevation_m)


class Series(Struct, frozen=True):
    """A weather file as read.

    `flagged_values`: left out because the publisher's own checks doubt them. `estimated_values`:
    used, though the publisher marks them as estimates. `flaws`: lines count from 0.
    """

    form: str = ""
    days: Mapping[date, WeatherDay] = {}
    months: Mapping[tuple[int, int], MonthWeather] = {}
    station: Station = Station()
    flagged_values: int = 0
    estimated_values: int = 0
    flaws: tuple[Flaw, ...] = ()


class Until(NamedTuple):
    """The last day that has come; `leave_out`: later rows are left out without a word."""

    today: date
    leave_out: bool = False


class WeatherForm(NamedTuple):
    """A form of weather file: what it is called, how it is known, and how it is read."""

    title: str
    recognises: Callable[[Sequence[str]], bool]
    read: Callable[[Sequence[str], Until], Series]
