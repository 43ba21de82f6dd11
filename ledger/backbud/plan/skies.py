"""Gathers what is known of the air at a place under its cover: its record, its means, its nights.

Places under the same sky and cover share one outlook, so each sum is reckoned once.
"""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date

from backbud.climate.ahead import SkyAhead
from backbud.climate.air import OPEN_AIR, PlaceAir, Shift
from backbud.climate.cold_region import region_of
from backbud.climate.coldest_night import ColdestNight, said_alone
from backbud.climate.outlook import Outlook
from backbud.journal.weather.record import MeansFrom, WeatherRecord
from backbud.journal.weather.records import Records
from backbud.plan.covers import cover_from
from backbud.tongue import phrase

# Where nobody says, day length is taken to be that of so many degrees.
LATITUDE_UNKNOWN = 45.0
# So many nights under a cover must have been measured before they tell how mild it is there.
NIGHTS_COMPARED = 30
MEANS_FROM: Mapping[MeansFrom, str] = {
    "card": "the place's monthly means",
    "station months": "the months of its station",
    "daily series": "the average of the days on record",
}


class Skies:
    """What is known of the air at each place, at the end of a day."""

    def __init__(
        self, weather: Records, figures: Mapping[str, float], southern: bool, today: date
    ) -> None:
        self.weather, self.figures = weather, figures
        self.southern, self.today = southern, today
        around = (southern, today, tuple(figures.items()))
        self._outlooks: dict[tuple[object, ...], Outlook] = weather.reckoned(
            ("outlooks", *around), dict
        )
        self._airs: dict[tuple[object, ...], PlaceAir] = weather.reckoned(("airs", *around), dict)

    def over(self, place: str, cover: str) -> Outlook | None:
        """What is known under a cover at a place ("" is the home place); None where its months
        are not known."""
        record = self.weather.record_of(place)
        if record.means is None:
            return None
        shift = cover_from(cover, self.figures).shift
        # A thermometer under a cover feels what it does.
        felt = frozenset(record.own_days) if shift != OPEN_AIR else frozenset[date]()
        foretold = record.forecast.place if record.forecast is not None else None
        sky = (
            place if record.own_days else record.days_from,
            record.means_place,
            felt,
            foretold,
        )
        key = (*sky, record.position, record.coldest, shift)
        if key not in self._outlooks:
            if sky not in self._airs:
                self._airs[sky] = PlaceAir(
                    record.days,
                    record.means,
                    self.today,
                    phrase(MEANS_FROM[record.means_from]),
                    felt,
                    record.forecast,
                )
            self._outlooks[key] = self._outlook(self._airs[sky], record, shift)
        return self._outlooks[key]

    def ahead(self, place: str, cover: str) -> SkyAhead | None:
        """The days ahead under a cover at a place; None where no forecast is young enough."""
        record = self.weather.record_of(place)
        if record.forecast is None or not record.forecast.is_usable(self.today):
            return None
        shift = cover_from(cover, self.figures).shift
        felt = shift != OPEN_AIR and bool(record.own_days)
        milder_c = self._milder_nights(record) if felt else 0.0
        return SkyAhead(record.forecast, self.today, shift, milder_c)

    def coldest_said(self, place: str) -> ColdestNight | None:
        """The coldest night at a place of which nothing is known but what its card says of it."""
        record = self.weather.record_of(place)
        if record.means is not None or record.coldest is None:
            return None
        return said_alone(record.coldest)

    def _outlook(self, air: PlaceAir, record: WeatherRecord, shift: Shift) -> Outlook:
        latitude = record.latitude
        if latitude is None:
            latitude = -LATITUDE_UNKNOWN if self.southern else LATITUDE_UNKNOWN
        return Outlook(
            air,
            shift,
            latitude=latitude,
            southern=self.southern,
            region=region_of(record.latitude, record.longitude),
            said=record.coldest,
            night_shift_c=self._milder_nights(record) if air.felt else 0.0,
        )

    def _milder_nights(self, record: WeatherRecord) -> float:
        """By how many °C nights under a cover are milder than at home, as a thermometer found.

        The tenth of the differences: nine of ten nights were milder still. 0 where too few nights
        were measured in both places.
        """
        home = self.weather.record_of("").own_days
        found = sorted(
            seen.low_c - outside.low_c
            for day, seen in record.own_days.items()
            if seen.low_c is not None
            and (outside := home.get(day)) is not None
            and outside.low_c is not None
        )
        return max(0.0, found[len(found) // 10]) if len(found) >= NIGHTS_COMPARED else 0.0
