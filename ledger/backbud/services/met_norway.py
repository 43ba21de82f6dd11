"""Asks MET Norway's Locationforecast 2.0, compact, and reads its JSON.

By its documentation (api.met.no/doc: ForecastJSON, locationforecast/HowTO, TermsOfService): an
object with `properties.meta.updated_at`, `properties.meta.units`, and `properties.timeseries`, each
with `time`, `data.instant.details` and what falls in `next_1_hours` or `next_6_hours`. It covers
the whole world for about nine days. Its terms want an identifying User-Agent with a way to reach
its user, `If-Modified-Since`, no request before `Expires`, and no more than four decimals.
"""

from __future__ import annotations

from datetime import timedelta
from typing import Any
from urllib.parse import urlencode

from backbud.journal.weather.credits import MET_NORWAY as NAME
from backbud.services.hours import Hour, Rain, days_of
from backbud.services.service import Service, Told, changed, checked_figure, moment

_UNITS = {"air_temperature": "celsius", "wind_speed": "m/s", "precipitation_amount": "mm"}


def _url(address: str, latitude: str, longitude: str) -> str:
    query = urlencode({"lat": latitude, "lon": longitude})
    return f"{address}/weatherapi/locationforecast/2.0/compact?{query}"


def read_answer(answer: Any, longitude: float) -> Told:
    """The forecast of an answer."""
    try:
        meta, series = answer["properties"]["meta"], answer["properties"]["timeseries"]
        units, updated = meta["units"], meta["updated_at"]
        steps = [(moment(one["time"]), one["data"]) for one in series]
    except (KeyError, TypeError):
        raise changed("there is no properties.timeseries with times and data") from None
    for what, unit in _UNITS.items():
        if not isinstance(units, dict) or units.get(what, unit) != unit:
            raise changed(f"{what} is no longer in {unit}")
    hours: list[Hour] = []
    rains: list[Rain] = []
    try:
        for at, data in steps:
            details = data["instant"]["details"]
            hours.append(
                Hour(
                    at,
                    checked_figure(details.get("air_temperature"), "air_temperature", -90, 57),
                    checked_figure(details.get("wind_speed"), "wind_speed", 0, 100),
                    checked_figure(details.get("wind_speed_of_gust"), "wind_speed_of_gust", 0, 120),
                )
            )
            # Later steps are six hours apart and tell of six hours alone.
            for name, lasts in (("next_1_hours", 1), ("next_6_hours", 6)):
                fallen = data.get(name, {}).get("details", {}).get("precipitation_amount")
                if fallen is not None:
                    mm = checked_figure(fallen, "precipitation_amount", 0, 1000)
                    rains.append(Rain(at, timedelta(hours=lasts), mm or 0.0))
                    break
    except (KeyError, TypeError, AttributeError):
        raise changed("a step has no data.instant.details") from None
    return Told(moment(updated), days_of(hours, rains, longitude))


SERVICE = Service(
    "met-norway",
    NAME,
    "https://api.met.no/doc/TermsOfService",
    "the whole world",
    "https://api.met.no",
    _url,
    read_answer,
)
