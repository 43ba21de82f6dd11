"""What is known of the weather of one place, and which of several sources counts for a day.

Within one place, for each day and field: a thermometer in the diary (the day line of the place)
before a file, and of several files the one that stands first on the card. A value that would put
the low above the high of a source that counts more is left out. Of a month the first station text
that has it counts.

Around a place: its own before that of the place it is within, and so on outward, and then the home
place and what that is within. Gaps in the weather file of a site are not mended with days of a home
place elsewhere. What a place has of its own is also kept apart.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import date
from typing import TYPE_CHECKING, Literal, TypeAlias

from msgspec import Struct

from backbud.climate.days import WeatherDay

if TYPE_CHECKING:
    # Most of a journal's commands reckon nothing of the weather.
    from backbud.climate.coldest_night import SaidCold
    from backbud.climate.days import MonthlyMeans
    from backbud.climate.forecast import Forecast
    from backbud.journal.weather.series import MonthWeather

MeansFrom = Literal["", "card", "station months", "daily series"]
PositionFrom = Literal["", "card", "town", "weather file"]

Days: TypeAlias = "Mapping[date, WeatherDay]"
Months: TypeAlias = "Mapping[tuple[int, int], MonthWeather]"


class Source(Struct, frozen=True, gc=False):
    """A weather file that was used: its form, its station, its first and last day, and counts."""

    file: str
    form: str
    station: str
    first: date
    last: date
    days: int
    months: int
    flagged_values: int
    estimated_values: int


_TROPIC_DEGREES = 23.4


class Position(Struct, frozen=True, gc=False):
    """Where a place is: degrees, north and east positive; metres above the sea.

    `known_from`: the place's card, its town, or the station of its weather file. `place`: whose
    position it is, where it was taken over from the place around or the home place.
    """

    latitude: float | None = None
    longitude: float | None = None
    elevation_m: float | None = None
    known_from: PositionFrom = ""
    place: str = ""

    @property
    def in_tropics(self) -> bool:
        """Whether it lies between the tropics, where the sun stands overhead once a year."""
        return self.latitude is not None and abs(self.latitude) < _TROPIC_DEGREES


class WeatherRecord(Struct, frozen=True):
    """What is known of the weather of a place.

    `days`: all that is known, by date in order: its own, and where it is silent, what is known
    around it, from the places `days_from`, the nearest first. `own_days`: from its own day lines
    and files only, so a thermometer under glass is here, and only here. `words`: frost, snow and
    hail as its own day lines have it. `months`: of station texts, its own or else the nearest
    place's. `means`: twelve, from `means_from` of the place `means_place`. `coldest`: how
    cold its winters get, as the nearest card says that does. `sources`: its own files. `forecast`:
    its own, or else the nearest place's, however old; nothing of it is among the `days`.
    """

    place: str
    days: Days = {}
    own_days: Days = {}
    days_from: tuple[str, ...] = ()
    words: Mapping[date, frozenset[str]] = {}
    months: Months = {}
    means: MonthlyMeans | None = None
    means_from: MeansFrom = ""
    means_place: str = ""
    coldest: SaidCold | None = None
    position: Position = Position()
    sources: tuple[Source, ...] = ()
    forecast: Forecast | None = None

    @property
    def latitude(self) -> float | None:
        """Degrees, north positive; None if unknown."""
        return self.position.latitude

    @property
    def tells_no_season(self) -> bool:
        """Whether neither its weather nor the months say when what is due: between the tropics,
        where nothing is known of its air."""
        known = self.means is not None or self.coldest is not None
        return not known and self.position.in_tropics

    @property
    def longitude(self) -> float | None:
        """Degrees, east positive; None if unknown."""
        return self.position.longitude

    @property
    def elevation_m(self) -> float | None:
        """Metres above the sea; None if unknown."""
        return self.position.elevation_m


def merged_days(sources: Sequence[Days]) -> Days:
    """Return the days of several sources, field by field; the first source counts most."""
    known = [source for source in sources if source]
    if len(known) <= 1:
        return known[0] if known else {}
    out: dict[date, WeatherDay] = dict(known[0])
    for source in known[1:]:
        for day, found in source.items():
            out[day] = _filled(out[day], found) if day in out else found
    return dict(sorted(out.items()))


def _filled(first: WeatherDay, other: WeatherDay) -> WeatherDay:
    """A day with what another source knows of it, where the first is silent."""
    low = other.low_c if first.low_c is None else first.low_c
    high = other.high_c if first.high_c is None else first.high_c
    if low is not None and high is not None and low > high:
        low, high = first.low_c, first.high_c
    return WeatherDay(
        first.day,
        low,
        high,
        *(
            there if here is None else here
            for here, there in (
                (first.rain_mm, other.rain_mm),
                (first.humidity_percent, other.humidity_percent),
                (first.wind_m_per_s, other.wind_m_per_s),
                (first.sun_hours, other.sun_hours),
            )
        ),
    )


def merged_months(sources: Sequence[Months]) -> Months:
    """Return the months of several texts; a month is taken whole from the first that has it."""
    out: dict[tuple[int, int], MonthWeather] = {}
    for source in reversed(sources):
        out.update(source)
    return dict(sorted(out.items()))
