"""The days ahead as a forecast has them, and whether they ask for more water than usual, by place.

Relative terms alone: canopies shed rain, and a finger in the soil decides.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from datetime import date, timedelta
from typing import Literal

from msgspec import Struct

from backbud.climate.evapotranspiration import hargreaves_mm
from backbud.climate.forecast import Forecast
from backbud.climate.outlook import Outlook
from backbud.climate.radiation import extraterrestrial_radiation_mj_per_m2
from backbud.collection.places import cover_of
from backbud.collection.state import Tree
from backbud.journal.things import Things
from backbud.journal.weather.credits import credit_of
from backbud.journal.weather.records import Records
from backbud.plan.covers import cover_from
from backbud.plan.skies import Skies

WaterSays = Literal["more", "as usual", "less"]
# So many days ahead water is told of: further on a forecast of warmth is too weak. Ours, no source.
WATER_DAYS = 5
# So far over or under the usual demand it is told of; ours, no source.
MORE_FROM, LESS_FROM = 1.2, 0.8
# Less rain on a day than this stays in the canopy; common practice, no source.
RAIN_COUNTS_MM = 5.0


class DayAhead(Struct, frozen=True, gc=False):
    """A day as foretold, °C, mm and m/s; None where the forecast does not say. `low_c`: of the
    night that ends on its morning. `wind_m_per_s`, `gust_m_per_s`: the strongest."""

    day: date
    low_c: float | None
    high_c: float | None
    rain_mm: float | None
    wind_m_per_s: float | None
    gust_m_per_s: float | None


class ForecastView(Struct, frozen=True):
    """A forecast: for which place, by whom, made when (`made_at` where the time is known), how many
    days ago. `days`: those ahead that it is used for; none where it is too old."""

    place: str
    source: str
    credit: str
    made: date
    made_at: str
    age_days: int
    days: tuple[DayAhead, ...]


class WaterAhead(Struct, frozen=True, gc=False):
    """What the next days ask for at a place beside the same days of the average year, as a share of
    it in percent; and the rain that counts there, in mm, with its days."""

    place: str
    first: date
    last: date
    says: WaterSays
    percent: int
    rain_mm: float
    rain_days: tuple[date, ...]


class Ahead(Struct, frozen=True):
    """Every forecast, and the water of each place where trees stand."""

    forecasts: tuple[ForecastView, ...] = ()
    water: tuple[WaterAhead, ...] = ()

    @property
    def credit(self) -> str:
        """Whose data are used, in one sentence or two."""
        used = (one.credit for one in self.forecasts if one.days and one.credit)
        return " ".join(dict.fromkeys(used))


def ahead_of(
    trees: Iterable[Tree], things: Things, records: Records, skies: Skies, today: date
) -> Ahead:
    """What the forecasts say, and what they mean for the water."""
    found = {
        place: record.forecast
        for place in records
        if (record := records.record_of(place)).forecast is not None
        and record.forecast.place == place
    }
    standing = {tree.place for tree in trees if tree.here and not tree.planted_out}
    return Ahead(
        tuple(_forecast(one, today) for one in found.values() if one is not None),
        tuple(_water(sorted(standing), things, skies, today)),
    )


def _forecast(one: Forecast, today: date) -> ForecastView:
    return ForecastView(
        one.place,
        one.source,
        credit_of(one.source),
        one.made,
        one.made_at,
        one.age_days(today),
        tuple(
            DayAhead(
                day,
                said.low_c,
                said.high_c,
                said.rain_mm,
                said.wind_m_per_s,
                said.gust_m_per_s,
            )
            for day, said in one.ahead(today).items()
        ),
    )


def _water(
    places: Iterable[str], things: Things, skies: Skies, today: date
) -> Iterator[WaterAhead]:
    for place in places:
        card = things.find(place) if place else None
        cover = cover_of(card, things)
        outlook = skies.over(place, cover)
        if outlook is not None and outlook.air.forecast is not None:
            rain_reaches = cover_from(cover, skies.figures).water.rain_share > 0
            said = water_ahead(place, outlook, today, rain_reaches=rain_reaches)
            if said is not None:
                yield said


def water_ahead(
    place: str, outlook: Outlook, today: date, *, rain_reaches: bool
) -> WaterAhead | None:
    """What the next five days ask for under a cover beside the same days of the average year, by
    Hargreaves; None where the forecast lacks a low or a high of one of them."""
    air = outlook.air
    days = [today + timedelta(days=n) for n in range(1, WATER_DAYS + 1)]
    said = [air.foretold.get(day) for day in days]
    if any(one is None or one.low_c is None or one.high_c is None for one in said):
        return None
    lost = sum(_et0_mm(outlook, day, usual=False) for day in days)
    usual = sum(_et0_mm(outlook, day, usual=True) for day in days)
    if usual <= 0:
        return None
    share = lost / usual
    says: WaterSays = "more" if share >= MORE_FROM else "less" if share <= LESS_FROM else "as usual"
    rain = {
        one.day: one.rain_mm
        for one in said
        if rain_reaches and one is not None and (one.rain_mm or 0.0) >= RAIN_COUNTS_MM
    }
    total = sum(mm for mm in rain.values() if mm is not None)
    return WaterAhead(
        place, days[0], days[-1], says, round(100 * share), round(total, 1), tuple(rain)
    )


def _et0_mm(outlook: Outlook, day: date, *, usual: bool) -> float:
    air = outlook.air.expected(day) if usual else outlook.air.of(day)
    under = outlook.shift.under(air)
    light = extraterrestrial_radiation_mj_per_m2(outlook.latitude, day)
    return max(hargreaves_mm(under.low_c, under.high_c, light), 0.0)
