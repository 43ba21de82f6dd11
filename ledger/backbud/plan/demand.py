"""Reckons how much water the weather asks of a canopy under the open sky of a place, day by day.

Measured days to today, then the climate: reference evapotranspiration by Penman-Monteith where a
day has humidity, wind and sun, else from its low and high (Hargreaves).
"""

from __future__ import annotations

from calendar import monthrange
from datetime import date
from typing import NamedTuple

from backbud.climate.air import DAY, OPEN_AIR, Air
from backbud.climate.days import WeatherDay
from backbud.climate.evapotranspiration import (
    Method,
    ReferenceEvapotranspiration,
    reference_evapotranspiration,
)
from backbud.climate.outlook import Outlook
from backbud.collection.places import cover_of, outward
from backbud.journal.things import Things
from backbud.journal.weather.records import Records
from backbud.plan.covers import cover_from
from backbud.plan.skies import Skies

# What the last days asked for tells more of today than the climate does; three is ours.
DAYS_NOW = 3


class Demand(NamedTuple):
    """One day's reference evapotranspiration and rain in mm; `measured`: its low and high were."""

    et0_mm: float
    rain_mm: float
    measured: bool
    method: Method


class OpenSky:
    """What the weather asks for under the open sky of a place, by day."""

    def __init__(self, outlook: Outlook, elevation_m: float | None) -> None:
        """`elevation_m`: taken to be the sea's where nobody says; only Penman-Monteith asks."""
        self.outlook, self.elevation_m = outlook, elevation_m or 0.0
        self._days: dict[date, Demand] = {}

    def on(self, day: date) -> Demand:
        """The demand of a day: as measured, else as the climate leads to expect."""
        if day not in self._days:
            self._days[day] = self._demand(day)
        return self._days[day]

    def _demand(self, day: date) -> Demand:
        air = self.outlook.air
        seen = air.measured.get(day)
        found = self._of(seen) if seen is not None else None
        et0 = found or self._of(_as_day(day, air.of(day)))
        assert et0 is not None
        rain = seen.rain_mm if seen is not None else None
        usual = self._usual_rain_mm(day) if rain is None else rain
        return Demand(et0.et0_mm, usual, found is not None, et0.method)

    def now(self) -> Demand:
        """What the last three days asked for, as far as they were measured; else the climate's."""
        today = self.outlook.air.today
        last = [self.on(today - n * DAY) for n in range(DAYS_NOW)]
        measured = [one for one in last if one.measured]
        if not measured:
            return last[0]
        et0_mm = sum(one.et0_mm for one in measured) / len(measured)
        return Demand(et0_mm, last[0].rain_mm, True, measured[0].method)

    def _usual_rain_mm(self, day: date) -> float:
        """A day's part of its month's mean rain; 0 where none is known."""
        rain = self.outlook.air.means.rain_mm
        return rain[day.month - 1] / monthrange(day.year, day.month)[1] if rain else 0.0

    def _of(self, weather: WeatherDay) -> ReferenceEvapotranspiration | None:
        return reference_evapotranspiration(weather, self.outlook.latitude, self.elevation_m)


def _as_day(day: date, air: Air) -> WeatherDay:
    return WeatherDay(day, air.low_c, air.high_c)


class OpenSkies:
    """The open sky over each place; places that share one share its sums."""

    def __init__(self, skies: Skies, weather: Records, things: Things) -> None:
        self._skies, self._weather, self._things = skies, weather, things
        self._found: dict[int, OpenSky] = {}

    def over(self, place: str) -> OpenSky | None:
        """The open sky over a place ("" is the home place); None where its months are not known.

        A thermometer under a cover knows nothing of the air outside, so the days of a covered
        place are those of what it is within, or of the home place.
        """
        at = self._in_the_open(place)
        outlook = self._skies.over(at, "")
        if outlook is None:
            return None
        if id(outlook) not in self._found:
            elevation_m = self._weather.record_of(at).elevation_m
            self._found[id(outlook)] = OpenSky(outlook, elevation_m)
        return self._found[id(outlook)]

    def _in_the_open(self, place: str) -> str:
        card = self._things.find(place) if place else None
        for at in outward(card, self._things):
            cover = cover_from(cover_of(at, self._things), self._skies.figures)
            if cover.shift == OPEN_AIR or not self._weather.record_of(at.handle).own_days:
                return at.handle
        return ""
