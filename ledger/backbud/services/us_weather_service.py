"""Asks the US National Weather Service for its forecast of a grid cell, and reads its JSON.

By its documentation (weather-gov.github.io/api/gridpoints): `/points/{lat},{lon}` names the cell's
forecast under `properties.forecastGridData`; there each layer, `minTemperature`, `maxTemperature`,
`quantitativePrecipitation`, `windSpeed`, `windGust`, has a `uom` and `values`, each with a value
for a `validTime`, an interval of ISO 8601. It covers the United States. It wants a User-Agent that
identifies its user.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from datetime import date, datetime, timedelta
from typing import Any

from backbud.climate.forecast import ForecastDay
from backbud.journal.weather.credits import US_WEATHER_SERVICE as NAME
from backbud.services.hours import sun_time
from backbud.services.service import Service, Told, changed, checked_figure, moment

_LASTS = re.compile(r"P(?:(\d+)D)?(?:T(?:(\d+)H)?(?:(\d+)M)?)?")
_TO_UNIT = {
    "wmoUnit:degC": 1.0,
    "wmoUnit:mm": 1.0,
    "wmoUnit:m_s-1": 1.0,
    "wmoUnit:km_h-1": 1 / 3.6,
}
_Value = tuple[datetime, timedelta, float]


def _url(address: str, latitude: str, longitude: str) -> str:
    # It redirects from zeros at the end to the same place without them.
    return f"{address}/points/{_short(latitude)},{_short(longitude)}"


def _short(degrees: str) -> str:
    return degrees.rstrip("0").rstrip(".") if "." in degrees else degrees


def _next_url(answer: Any) -> str:
    try:
        return str(answer["properties"]["forecastGridData"])
    except (KeyError, TypeError):
        raise changed("there is no properties.forecastGridData") from None


def read_grid(answer: Any, longitude: float) -> Told:
    """The forecast of a grid cell's answer."""
    try:
        layers = answer["properties"]
        updated = moment(layers["updateTime"])
    except (KeyError, TypeError):
        raise changed("there is no properties.updateTime") from None
    lows = _worst(layers, "minTemperature", -90, 57, longitude, min)
    highs = _worst(layers, "maxTemperature", -90, 57, longitude, max)
    winds = _worst(layers, "windSpeed", 0, 100, longitude, max)
    gusts = _worst(layers, "windGust", 0, 120, longitude, max)
    rain: dict[date, float] = {}
    for at, lasts, mm in _values(layers, "quantitativePrecipitation", 0, 1000):
        day = sun_time(at + lasts / 2, longitude).date()
        rain[day] = rain.get(day, 0.0) + mm
    days = {
        day: ForecastDay(
            day,
            lows.get(day),
            highs.get(day),
            round(rain[day], 1) if day in rain else None,
            winds.get(day),
            gusts.get(day),
        )
        for day in sorted({*lows, *highs})
    }
    return Told(updated, days)


def _worst(
    layers: Any, layer: str, least: float, most: float, longitude: float, of: Any
) -> dict[date, float]:
    """The lowest or highest of each day; a night belongs to the morning that it ends on."""
    found: dict[date, float] = {}
    for at, lasts, value in _values(layers, layer, least, most):
        # A low is told for the evening before until the morning; its end decides.
        when = at + lasts if layer == "minTemperature" else at + lasts / 2
        day = sun_time(when, longitude).date()
        found[day] = of(found.get(day, value), value)
    return {day: round(value, 1) for day, value in found.items()}


def _values(layers: Any, layer: str, least: float, most: float) -> Iterator[_Value]:
    told = layers.get(layer) if isinstance(layers, dict) else None
    if told is None:
        return
    try:
        unit, values = told.get("uom"), [(one["validTime"], one["value"]) for one in told["values"]]
    except (KeyError, TypeError, AttributeError):
        raise changed(f"{layer} has no values with their times") from None
    if values and unit not in _TO_UNIT:
        raise changed(f"{layer} is in “{unit}”")
    for valid, value in values:
        number = checked_figure(value, layer, -1000, 10000)
        if number is not None:
            begins, _, lasts = str(valid).partition("/")
            in_unit = checked_figure(number * _TO_UNIT[unit], layer, least, most)
            yield moment(begins), _duration(lasts), in_unit or 0.0


def _duration(text: str) -> timedelta:
    found = _LASTS.fullmatch(text)
    if found is None or not any(found.groups()):
        raise changed(f"“{text[:40]}” is no length of time")
    days, hours, minutes = (int(part or 0) for part in found.groups())
    return timedelta(days=days, hours=hours, minutes=minutes)


SERVICE = Service(
    "us-weather-service",
    NAME,
    "https://www.weather.gov/documentation/services-web-api",
    "the United States",
    "https://api.weather.gov",
    _url,
    read_grid,
    _next_url,
)
