"""The second service, of quite another shape: layers of values, each for an interval of time."""

from __future__ import annotations

import copy
import json
from datetime import UTC, date, datetime

import pytest
from msgspec.structs import replace

from backbud.climate.forecast import ForecastDay
from backbud.services.errors import ServiceError
from backbud.services.fetch import fetch
from backbud.services.known import SERVICES

US = SERVICES["us-weather-service"]
NOW = datetime(2027, 3, 6, 23, 0, tzinfo=UTC)
GRID = "/gridpoints/SEW/124,67"
# Seattle lies at 122.33 W: the sun is 8 h 9 min behind UTC there. A low is told from the evening
# (1:00 UTC) to the morning (16:00 UTC), a high from 15:00 to 4:00 UTC.
CELL = {
    "updateTime": "2027-03-06T21:30:00+00:00",
    "minTemperature": {
        "uom": "wmoUnit:degC",
        "values": [
            {"validTime": "2027-03-07T01:00:00+00:00/PT15H", "value": -1.6666},
            {"validTime": "2027-03-08T01:00:00+00:00/PT15H", "value": 2},
        ],
    },
    "maxTemperature": {
        "uom": "wmoUnit:degC",
        "values": [
            {"validTime": "2027-03-07T15:00:00+00:00/PT13H", "value": 9},
            {"validTime": "2027-03-08T15:00:00+00:00/PT13H", "value": 11},
        ],
    },
    "quantitativePrecipitation": {
        "uom": "wmoUnit:mm",
        "values": [
            {"validTime": "2027-03-07T12:00:00+00:00/PT6H", "value": 1.25},
            {"validTime": "2027-03-07T18:00:00+00:00/PT6H", "value": 4},
            {"validTime": "2027-03-08T18:00:00+00:00/P1DT6H", "value": None},
        ],
    },
    "windSpeed": {
        "uom": "wmoUnit:km_h-1",
        "values": [{"validTime": "2027-03-07T20:00:00+00:00/PT2H", "value": 36}],
    },
    "windGust": {
        "uom": "wmoUnit:km_h-1",
        "values": [{"validTime": "2027-03-07T20:00:00+00:00/PT2H", "value": 72}],
    },
}


@pytest.fixture
def seattle(met, named):
    met.answers("/points/47.6,-122.33", {"properties": {"forecastGridData": met.url + GRID}})
    met.answers(GRID, {"properties": CELL})
    return replace(named, service="us-weather-service", latitude="47.60", longitude="-122.33")


def test_its_cell_is_looked_up_and_read(met, seattle, journal):
    came = fetch(str(journal), seattle, US, NOW)
    assert came.made == "2027-03-06 21:30 UTC"
    assert [path for path, _ in met.asked] == ["/points/47.6,-122.33", GRID]
    told = US.read({"properties": CELL}, -122.33)
    assert told.days == {
        date(2027, 3, 7): ForecastDay(date(2027, 3, 7), -1.7, 9.0, 5.2, 10.0, 20.0),
        date(2027, 3, 8): ForecastDay(date(2027, 3, 8), 2.0, 11.0),
    }


def test_the_cell_may_not_lie_with_somebody_else(met, seattle, journal):
    met.answers(
        "/points/47.6,-122.33",
        {"properties": {"forecastGridData": "https://elsewhere.example/grid"}},
    )
    with pytest.raises(ServiceError, match=r"another server, https://elsewhere\.example"):
        fetch(str(journal), seattle, US, NOW)


@pytest.mark.parametrize(
    ("layer", "change", "said"),
    [
        ("minTemperature", {"uom": "wmoUnit:degF"}, "minTemperature is in “wmoUnit:degF”"),
        ("minTemperature", {"values": 3}, "minTemperature has no values"),
        (
            "windGust",
            {"values": [{"validTime": "2027-03-07T20:00:00+00:00", "value": 1}]},
            "length",
        ),
        ("maxTemperature", {"values": [{"validTime": "x/PT1H", "value": 1}]}, "is no time"),
        (
            "maxTemperature",
            {"values": [{"validTime": "2027-03-07T20:00:00+00:00/PT1H", "value": 99}]},
            "cannot be",
        ),
    ],
)
def test_another_form_is_told(layer, change, said):
    cell = copy.deepcopy(CELL)
    cell[layer].update(change)
    with pytest.raises(ServiceError, match=said):
        US.read(json.loads(json.dumps({"properties": cell})), -122.33)
