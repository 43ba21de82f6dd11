"""Fetches past days of a GHCN-Daily station, and keeps those that the journal lacks.

NOAA publishes a file a station (www.ncei.noaa.gov, `access/STATION.csv`), in the public domain.
"""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date, datetime, timedelta
from typing import Any

from msgspec import Struct

from backbud.climate.days import WeatherDay
from backbud.journal.weather.arrived import PAST, arrived_file
from backbud.journal.weather.credits import GHCN_DAILY, credit_of
from backbud.journal.weather.ghcn_daily import read_wide, recognises_wide
from backbud.journal.weather.plain_csv import read_days as read_plain_days
from backbud.journal.weather.series import Until
from backbud.services.agreed import Agreed
from backbud.services.asking import get, origin_of
from backbud.services.errors import ServiceError
from backbud.services.fetch import user_agent
from backbud.services.files import put, text_of_file

ADDRESS = "https://www.ncei.noaa.gov/data/global-historical-climatology-network-daily/access"
# A century of a station with every element is some 15 MB.
MOST_BYTES = 48 * 1024 * 1024
# Gaps are filled so far back; ours, no source.
YEARS_BACK = 10
_HEAD = "date,low C,high C,rain mm"


class Filled(Struct, frozen=True):
    """How many days came of a station, and the last day that it has."""

    days: int
    last: date | None
    changed: bool
    file: str


def fill(
    journal: str, named: Agreed, known: Mapping[date, WeatherDay], now: datetime, **limits: Any
) -> Filled:
    """Fetch the station's file, and keep the days on which `known` lacks a low, a high or rain.
    What came before stays. ServiceError where nothing usable came."""
    url = f"{named.records or ADDRESS}/{named.station}.csv"
    headers = {"User-Agent": user_agent(named.contact)}
    answer = get(url, headers, **{"most_bytes": MOST_BYTES, **limits})
    origin = origin_of(answer.url)
    if answer.status == 404:
        raise ServiceError(f"{origin} has no station “{named.station}”")
    if answer.status != 200:
        raise ServiceError(f"{origin} answers {answer.status}")
    lines = answer.body.decode("utf-8", "replace").replace("\r\n", "\n").split("\n")
    if not recognises_wide(lines):
        raise ServiceError(f"the file of {origin} has changed its form")
    today = now.date()
    told = read_wide(lines, Until(today, True))
    if not told.days:
        raise ServiceError(f"the file of “{named.station}” has no days that can be used")
    name = arrived_file(named.place, PAST)
    first = today - timedelta(days=365 * YEARS_BACK)
    gaps = {
        day: seen
        for day, seen in told.days.items()
        if first <= day < today and _is_gap(known.get(day))
    }
    lines_before = (text_of_file(journal, name) or "").split("\n")
    before = read_plain_days(lines_before, Until(today, True)).days
    days = dict(sorted({**gaps, **before}.items()))
    changed = bool(days) and put(journal, name, _text(days))
    return Filled(len(days) - len(before), max(told.days), changed, name)


def _is_gap(seen: WeatherDay | None) -> bool:
    return seen is None or None in (seen.low_c, seen.high_c, seen.rain_mm)


def _text(days: Mapping[date, WeatherDay]) -> str:
    remark = f"# {credit_of(GHCN_DAILY)} Only for gaps: what you measured yourself counts first."
    return "\n".join((remark, _HEAD, *map(_row, days.values()))) + "\n"


def _row(day: WeatherDay) -> str:
    figures = (day.low_c, day.high_c, day.rain_mm)
    return ",".join((f"{day.day}", *("" if one is None else f"{one:z.1f}" for one in figures)))
