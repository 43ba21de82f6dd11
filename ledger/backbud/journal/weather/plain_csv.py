"""Reads a plain table of days, whose first line names its columns.

`date, low, high, rain` and also humidity, wind and sun, in any order and case, with a unit in the
header or without (then °C, mm, %, m/s at 2 m, hours). Cells are parted by comma, semicolon or tab;
where they are not parted by commas, a comma is a decimal comma.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping, Sequence
from decimal import Decimal
from typing import NamedTuple

from backbud.journal.weather.cells import place_of_cell, split_row
from backbud.journal.weather.daily import DailyRows
from backbud.journal.weather.flaws import Flaws
from backbud.journal.weather.series import Series, Until, WeatherForm
from backbud_grammar.measures import convert
from backbud_grammar.problems import Flaw, did_you_mean

TITLE = "plain CSV"
SEPARATORS = (";", "\t", ",")

DAY_COLUMNS: dict[str, tuple[str, ...]] = {
    "date": ("date", "day"),
    "low_c": ("low", "min", "minimum", "lowest", "tmin", "temp min", "min temp", "low temp",
              "temperature min", "temperature low", "temperature 2m min"),
    "high_c": ("high", "max", "maximum", "highest", "tmax", "temp max", "max temp", "high temp",
               "temperature max", "temperature high", "temperature 2m max"),
    "rain_mm": ("rain", "rainfall", "precipitation", "precip", "prcp", "rain sum",
                "precipitation sum"),
    "humidity_percent": ("humidity", "relative humidity", "rh", "mean humidity"),
    "wind_m_per_s": ("wind", "wind speed", "mean wind"),
    "sun_hours": ("sun", "sunshine", "sunshine duration"),
}  # fmt: skip
_USUAL = ("date", "low", "high", "rain", "humidity", "wind", "sun")

Reading = Callable[[float], float]


def _as_it_is(value: float) -> float:
    return value


def _celsius(fahrenheit: float) -> float:
    """NIST SP 811, B.8."""
    return (fahrenheit - 32) / 1.8


def _times(factor: float) -> Reading:
    return lambda value: value * factor


def _per(unit: str, to: str) -> Reading:
    return _times(float(convert(Decimal(1), unit, to)))


_TEMPERATURE = {
    **dict.fromkeys(("", "c", "celsius", "deg c", "degc"), _as_it_is),
    **dict.fromkeys(("f", "fahrenheit", "deg f", "degf"), _celsius),
}
# In the header of a table `in` cannot be the word.
_UNITS: dict[str, dict[str, Reading]] = {
    "date": dict.fromkeys(("", "time", "utc", "local", "yyyy-mm-dd"), _as_it_is),
    "low_c": _TEMPERATURE,
    "high_c": _TEMPERATURE,
    "rain_mm": {
        **dict.fromkeys(("", "mm", "l/m2", "l/m²"), _as_it_is),
        "cm": _per("cm", "mm"),
        **dict.fromkeys(("inch", "inches", "in"), _per("inch", "mm")),
    },
    "humidity_percent": dict.fromkeys(("", "%", "percent"), _as_it_is),
    # Kilometre, mile and nautical mile an hour: NIST SP 811, B.8.
    "wind_m_per_s": {
        **dict.fromkeys(("", "m/s", "m per s"), _as_it_is),
        **dict.fromkeys(("km/h", "kmh", "kph", "km per h"), _times(1 / 3.6)),
        **dict.fromkeys(("mph", "mile/h"), _times(0.44704)),
        **dict.fromkeys(("kn", "kt", "knots", "knot"), _times(1852 / 3600)),
    },
    "sun_hours": {
        **dict.fromkeys(("", "h", "hours", "hour"), _as_it_is),
        **dict.fromkeys(("min", "minutes"), _per("min", "h")),
        **dict.fromkeys(("s", "seconds"), _per("s", "h")),
    },
}


# What a forecast has beside these.
_UNITS["gust_m_per_s"] = _UNITS["wind_m_per_s"]
_UNITS["made"] = dict.fromkeys(("", "utc"), _as_it_is)
_UNITS["source"] = {"": _as_it_is}


class Column(NamedTuple):
    """What a column holds, and its unit as written."""

    field: str
    unit: str


def readings_of(field: str) -> Mapping[str, Reading]:
    """How each unit of a column is read, "" where none is written."""
    return _UNITS[field]


def column_called(header: str, known: Mapping[str, tuple[str, ...]]) -> Column | None:
    """What a column holds; None where its header is not known. `known`: the names of each."""
    plain = re.sub(r"[\s_()\[\]°\N{REPLACEMENT CHARACTER}]+", " ", header.casefold()).strip()
    found = (
        (name, field)
        for field, names in known.items()
        for name in names
        if plain == name or plain.startswith(f"{name} ")
    )
    name, field = max(found, key=lambda pair: len(pair[0]), default=("", ""))
    return Column(field, plain[len(name) :].strip()) if field else None


def _column(header: str) -> Column | None:
    return column_called(header, DAY_COLUMNS)


def _header(lines: Sequence[str]) -> tuple[int, str] | None:
    """The line of the header and what parts its cells, if a column of it is known."""
    for number, line in enumerate(lines):
        if line.strip() and not line.lstrip().startswith("#"):
            for separator in SEPARATORS:
                if separator in line and any(map(_column, split_row(line, separator))):
                    return number, separator
            return None
    return None


def recognises(lines: Sequence[str]) -> bool:
    """Whether the first line of text names columns that are known here."""
    return _header(lines) is not None


def read_days(lines: Sequence[str], until: Until) -> Series:
    """Read the days."""
    flaws = Flaws()
    header = _header(lines)
    if header is None:
        return Series(TITLE)
    top, separator = header
    names = split_row(lines[top], separator)

    def place(line: int, cell: int) -> tuple[int, int]:
        return place_of_cell(lines[line], separator, cell)

    columns = _columns(names, top, place, flaws)
    if "date" not in columns or len(columns) == 1:
        missing = "date" if "date" not in columns else "low, high or rain"
        flaws.of_file(
            Flaw(
                "missing-column",
                top,
                1,
                len(lines[top]),
                f"there is no column for {missing}, so nothing of this file was read",
                f"The first line names the columns: {', '.join(_USUAL[:4])}.",
            )
        )
        return Series(TITLE, flaws=flaws.all())
    rows = DailyRows(flaws, until, place)
    date_cell = columns.pop("date")[0]
    for line in range(top + 1, len(lines)):
        text = lines[line]
        if not text.strip() or text.lstrip().startswith("#"):
            continue
        cells = split_row(text, separator)
        while len(cells) > len(names) and not cells[-1]:
            cells.pop()
        if len(cells) != len(names):
            note_width(line, text, len(cells), len(names), separator, flaws)
            continue
        day = rows.day(cells[date_cell], "", line, date_cell)
        if day is None:
            continue
        for field, (cell, to_unit) in columns.items():
            value = cells[cell]
            if separator != ",":
                value = value.replace(",", ".")
            if field == "rain_mm" and value.casefold() in ("t", "trace"):
                value = "0"
            rows.put(day, field, value, to_unit, line, cell)
    return Series(TITLE, rows.finish(), flaws=flaws.all())


def _columns(
    names: list[str], top: int, place: Callable[[int, int], tuple[int, int]], flaws: Flaws
) -> dict[str, tuple[int, Reading]]:
    """By what it holds: the place of each column, and how its unit is read."""
    columns: dict[str, tuple[int, Reading]] = {}
    for cell, name in enumerate(names):
        column = _column(name)
        if column is None:
            code, message = "unknown-column", f"nothing is known of a column “{name}”"
            hint = did_you_mean(name, _USUAL, f"Known: {', '.join(_USUAL)}.")
        elif column.unit not in _UNITS[column.field]:
            code, message = "unknown-unit", f"“{column.unit}” is no unit of such a column"
            hint = f"Known: {', '.join(filter(None, _UNITS[column.field]))}."
        elif column.field in columns:
            code, message = "repeated-column", f"“{name}” says the same as a column before it"
            hint = "The first was taken."
        else:
            columns[column.field] = (cell, _UNITS[column.field][column.unit])
            continue
        if name:
            message += ", so it was left out"
            flaws.of_file(Flaw(code, top, *place(top, cell), message, hint, "warning"))
    return columns


def note_width(
    line: int, text: str, found: int, expected: int, separator: str, flaws: Flaws
) -> None:
    """Note that a row has more or fewer cells than there are columns."""
    hint = "Is the row cut short? It was left out."
    if found > expected:
        hint = "It was left out."
        if separator == ",":
            hint = "If commas are decimal commas, put semicolons between the cells."
    flaws.of_row(
        line,
        (1, len(text)),
        "wrong-row",
        f"this row has {found} cells, and the first line names {expected} columns",
        hint,
    )


FORM = WeatherForm(TITLE, recognises, read_days)
