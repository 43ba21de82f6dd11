"""Reads NOAA's daily station files (Global Historical Climatology Network, daily).

Two published shapes: a column an element and a row a day (the `access` files by station), and a row
an element (`ID,YYYYMMDD,ELEMENT,VALUE,MFLAG,QFLAG,SFLAG,OBS-TIME`, by year or by station). Both are
in tenths of °C, mm and m/s (NOAA's readme of GHCN-Daily). A value with a quality flag failed
NOAA's own checks and is left out.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence

from backbud.climate.evapotranspiration import wind_at_two_metres_m_per_s
from backbud.journal.weather.cells import place_of_cell, read_value, split_row
from backbud.journal.weather.daily import DailyRows
from backbud.journal.weather.flaws import Flaws
from backbud.journal.weather.series import Series, Station, Until, WeatherForm, station_at
from backbud_grammar.problems import Flaw, Misread

WIDE_TITLE, LONG_TITLE = "GHCN-Daily, a row a day", "GHCN-Daily, a row an element"
_MISSING = ("", "-9999")
# Stations measure the wind at 10 m.
_WIND_HEIGHT_M = 10.0


def _tenths(value: float) -> float:
    return value / 10


def _wind(tenths: float) -> float:
    return wind_at_two_metres_m_per_s(tenths / 10, _WIND_HEIGHT_M)


def _hours(minutes: float) -> float:
    return minutes / 60


def _percent(value: float) -> float:
    return value


# TSUN in minutes and RHAV in percent: from memory of NOAA's readme.
_ELEMENTS: dict[str, tuple[str, Callable[[float], float]]] = {
    "TMIN": ("low_c", _tenths),
    "TMAX": ("high_c", _tenths),
    "PRCP": ("rain_mm", _tenths),
    "RHAV": ("humidity_percent", _percent),
    "AWND": ("wind_m_per_s", _wind),
    "TSUN": ("sun_hours", _hours),
}
_MAIN = ("TMIN", "TMAX", "PRCP")
_ROW = re.compile(r'"?[A-Z]{2}[A-Z0-9_-]{9}"?,"?\d{4}-?\d\d-?\d\d"?,"?[A-Z0-9]{4}"?,')


class _GhcnReader:
    """What both shapes share: the rows, the stations that occur, and what was left out."""

    def __init__(self, lines: Sequence[str], until: Until) -> None:
        self.lines, self.flaws = lines, Flaws()
        self.rows = DailyRows(self.flaws, until, self.place)
        self.station = ""
        self.flagged = 0
        self._others: set[str] = set()
        self._first_other = 0

    def place(self, line: int, cell: int) -> tuple[int, int]:
        return place_of_cell(self.lines[line], ",", cell)

    def is_of_station(self, name: str, line: int) -> bool:
        """Whether the row is of the first station in the file."""
        self.station = self.station or name
        if name == self.station:
            return True
        if not self._others:
            self._first_other = line
        self._others.add(name)
        return False

    def finish(self, title: str, station: Station) -> Series:
        if self._others:
            count = len(self._others)
            self.flaws.of_file(
                Flaw(
                    "several-stations",
                    self._first_other,
                    *self.place(self._first_other, 0),
                    f"{count} other {'station stands' if count == 1 else 'stations stand'} in this "
                    f"file; only {self.station}, the first, was read",
                    "Keep a file for each station, and name the one that is nearest.",
                    "warning",
                )
            )
        days = self.rows.finish()
        return Series(
            title, days, station=station, flagged_values=self.flagged, flaws=self.flaws.all()
        )


# ------------------------------------------------------------------ a row a day


def recognises_wide(lines: Sequence[str]) -> bool:
    """Whether the first line names a station, a date and one of NOAA's elements."""
    names = split_row(lines[0].upper(), ",") if lines else []
    return "STATION" in names and "DATE" in names and any(name in names for name in _MAIN)


def read_wide(lines: Sequence[str], until: Until) -> Series:
    """Read a file with a column an element."""
    names = [name.upper() for name in split_row(lines[0], ",")]
    at = {name: cell for cell, name in reversed(list(enumerate(names)))}
    reader = _GhcnReader(lines, until)
    elements = [
        (element, at[element], at.get(f"{element}_ATTRIBUTES"))
        for element in _ELEMENTS
        if element in at
    ]
    whole = _whole_units(lines, elements)
    if whole is not None:
        reader.flaws.of_file(whole)
        return reader.finish(WIDE_TITLE, Station())
    station = Station()
    for line in range(1, len(lines)):
        if not lines[line].strip():
            continue
        cells = split_row(lines[line], ",")
        if len(cells) != len(names):
            reader.flaws.of_row(
                line,
                (1, len(lines[line])),
                "wrong-row",
                f"this row has {len(cells)} cells, and the first line names {len(names)} columns",
                "Is the row cut short? It was left out.",
            )
            continue
        if not reader.is_of_station(cells[at["STATION"]], line):
            continue
        station = station if station.name else _station(cells, at)
        day = reader.rows.day(cells[at["DATE"]], "", line, at["DATE"])
        if day is None:
            continue
        for element, cell, attributes in elements:
            if cells[cell] in _MISSING:
                continue
            # Measurement, quality and source flag, and for rain the time.
            flags = cells[attributes].split(",") if attributes is not None else []
            if len(flags) > 1 and flags[1].strip():
                reader.flagged += 1
                continue
            field, to_unit = _ELEMENTS[element]
            reader.rows.put(day, field, cells[cell], to_unit, line, cell)
    return reader.finish(WIDE_TITLE, station)


def _whole_units(
    lines: Sequence[str], elements: Sequence[tuple[str, int, int | None]]
) -> Flaw | None:
    """A flaw if numbers have a decimal point: then they are not tenths, and the unit is unknown."""
    for line in range(1, len(lines)):
        if "." not in lines[line]:
            continue
        cells = split_row(lines[line], ",")
        for element, cell, _ in elements:
            if element in _MAIN and cell < len(cells) and "." in cells[cell]:
                return Flaw(
                    "not-tenths",
                    line,
                    *place_of_cell(lines[line], ",", cell),
                    f"{element} has a decimal point, but GHCN-Daily is in whole tenths of °C and "
                    "mm, so nothing of this file was read",
                    "Take the station's file from NOAA's access folder; or name the columns "
                    "date, low C, high C, rain mm (or low F, high F, rain inch).",
                )
    return None


def _station(cells: Sequence[str], at: dict[str, int]) -> Station:
    def number(column: str) -> float | None:
        try:
            return read_value(cells[at[column]]) if column in at else None
        except Misread:
            return None

    name = cells[at["NAME"]] if "NAME" in at else cells[at["STATION"]]
    return station_at(name, number("LATITUDE"), number("LONGITUDE"), number("ELEVATION"))


# ------------------------------------------------------------------ a row an element


def recognises_long(lines: Sequence[str]) -> bool:
    """Whether the rows begin with a station, a date and an element."""
    return any(_ROW.match(line) for line in lines[:2])


def read_long(lines: Sequence[str], until: Until) -> Series:
    """Read a file with a row an element."""
    reader = _GhcnReader(lines, until)
    for line, text in enumerate(lines):
        if not text.strip():
            continue
        cells = split_row(text, ",")
        if line == 0 and cells[0] == "ID":
            continue
        if len(cells) < 4:
            reader.flaws.of_row(
                line,
                (1, len(text)),
                "wrong-row",
                f"this row has {len(cells)} cells, and at least four were expected",
                "A row is: station, date, element, value, and then the flags. It was left out.",
            )
            continue
        if not reader.is_of_station(cells[0], line) or cells[2] not in _ELEMENTS:
            continue
        if cells[3] in _MISSING:
            continue
        if len(cells) > 5 and cells[5]:
            reader.flagged += 1
            continue
        day = reader.rows.day(cells[1], cells[2], line, 1)
        if day is not None:
            field, to_unit = _ELEMENTS[cells[2]]
            reader.rows.put(day, field, cells[3], to_unit, line, 3)
    return reader.finish(LONG_TITLE, Station(reader.station))


WIDE = WeatherForm(WIDE_TITLE, recognises_wide, read_wide)
LONG = WeatherForm(LONG_TITLE, recognises_long, read_long)
