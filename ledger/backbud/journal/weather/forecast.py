"""Reads a forecast from its file: a plain table of days to come, as a keeper writes it too.

    date, low, high, rain, gust, made, source
    2027-03-07, -4, 6, 0, 8, 2027-03-06 16:00, a met service

Columns, units and separators are those of a plain weather table (plain_csv.py). `made` and
`source` hold until another row says otherwise; where nobody says when it was made, it counts as
made on its first day.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping, Sequence
from datetime import date, datetime
from typing import NamedTuple

from msgspec import Struct

from backbud.climate.forecast import Forecast, ForecastDay
from backbud.journal.weather.cells import MISSING, place_of_cell, read_day, read_value, split_row
from backbud.journal.weather.flaws import Flaws
from backbud.journal.weather.limits import OF_A_FORECAST, impossible
from backbud.journal.weather.plain_csv import (
    DAY_COLUMNS,
    SEPARATORS,
    Column,
    Reading,
    column_called,
    note_width,
    readings_of,
)
from backbud_grammar.problems import Flaw, Misread, did_you_mean

MOST_LINES, LONGEST_LINE = 400, 2_000
_WORDS = ("made", "source")
_KNOWN = ("date", "low", "high", "rain", "wind", "gust", *_WORDS)
# In a forecast the wind is the strongest of the day, at 10 m.
_NAMES: Mapping[str, tuple[str, ...]] = {
    "date": DAY_COLUMNS["date"],
    "low_c": DAY_COLUMNS["low_c"],
    "high_c": DAY_COLUMNS["high_c"],
    "rain_mm": DAY_COLUMNS["rain_mm"],
    "wind_m_per_s": ("wind", "wind speed", "max wind", "wind max", "wind speed 10m max"),
    "gust_m_per_s": ("gust", "gusts", "wind gust", "wind gusts", "max gust", "wind gusts 10m max"),
    "made": ("made", "issued", "updated"),
    "source": ("source", "from", "by"),
}
_FIGURES = ("low_c", "high_c", "rain_mm", "wind_m_per_s", "gust_m_per_s")
_MADE = re.compile(
    r"(\d{4}-\d\d-\d\d)(?:[T ](\d\d:\d\d)(?::\d\d)?(?:\.\d+)? ?(Z|UTC|[+-]\d\d:?\d\d)?)?"
)


class ReadForecast(Struct, frozen=True):
    """A forecast as read, None where nothing could be used; `flaws`: lines count from 0."""

    forecast: Forecast | None = None
    flaws: tuple[Flaw, ...] = ()


class _Table(NamedTuple):
    top: int
    separator: str
    names: list[str]
    columns: dict[str, tuple[int, Reading]]


def read_forecast(text: str, name: str, place: str) -> ReadForecast:
    """Read a forecast file. Whatever is wrong with a row leaves that row or cell out."""
    lines = text.split("\n")
    flaws = Flaws()
    if len(lines) > MOST_LINES:
        said = f"a forecast has no {len(lines)} lines, so nothing of this file was read"
        hint = f"No more than {MOST_LINES}: a row for each day to come."
        return ReadForecast(None, (Flaw("large-file", 0, 1, 1, said, hint),))
    long = next((at for at, line in enumerate(lines) if len(line) > LONGEST_LINE), None)
    if long is not None:
        said = f"a line of {len(lines[long])} characters, so nothing of this file was read"
        hint = f"No row of a forecast is longer than {LONGEST_LINE}. Are its line ends gone?"
        return ReadForecast(None, (Flaw("long-line", long, 1, 1, said, hint),))
    table = _table(lines, flaws)
    if table is None:
        return ReadForecast(None, flaws.all())
    days: dict[date, ForecastDay] = {}
    made, source = "", ""
    for line in range(table.top + 1, len(lines)):
        row = lines[line]
        if not row.strip() or row.lstrip().startswith("#"):
            continue
        cells = split_row(row, table.separator)
        while len(cells) > len(table.names) and not cells[-1]:
            cells.pop()
        if len(cells) != len(table.names):
            note_width(line, row, len(cells), len(table.names), table.separator, flaws)
            continue
        made = _made(cells, table, line, row, flaws) or made
        source = _text(cells, table, "source") or source
        found = _day(cells, table, line, row, days, flaws)
        if found is not None:
            days[found.day] = found
    if not days:
        if not flaws.all():
            flaws.of_file(
                Flaw("empty-file", 0, 1, 1, "this forecast has no days", "Nothing was read of it.")
            )
        return ReadForecast(None, flaws.all())
    first = min(days)
    on = min(date.fromisoformat(made[:10]), first) if made else first
    days = dict(sorted(days.items()))
    return ReadForecast(Forecast(on, days, made, source, place, name), flaws.all())


# ------------------------------------------------------------------ the columns


def _table(lines: Sequence[str], flaws: Flaws) -> _Table | None:
    top = next(
        (at for at, line in enumerate(lines) if line.strip() and not line.lstrip().startswith("#")),
        None,
    )
    if top is None:
        flaws.of_file(
            Flaw("empty-file", 0, 1, 1, "this forecast is empty", "Nothing was read of it.")
        )
        return None
    for separator in SEPARATORS:
        if separator in lines[top]:
            break
    names = split_row(lines[top], separator)
    columns: dict[str, tuple[int, Reading]] = {}
    for cell, written in enumerate(names):
        column = column_called(written, _NAMES)
        why = _wrong(written, column, columns)
        if why is not None:
            if written:
                at = place_of_cell(lines[top], separator, cell)
                code, message, hint = why
                flaws.of_file(
                    Flaw(code, top, *at, f"{message}, so it was left out", hint, "warning")
                )
        elif column is not None:
            columns[column.field] = (cell, readings_of(column.field)[column.unit])
    if "date" in columns and any(field in columns for field in _FIGURES):
        return _Table(top, separator, names, columns)
    missing = "low, high or rain" if "date" in columns else "date"
    flaws.of_file(
        Flaw(
            "missing-column",
            top,
            1,
            max(len(lines[top]), 1),
            f"there is no column for {missing}, so nothing of this forecast was read",
            f"The first line names the columns: {', '.join(_KNOWN)}.",
        )
    )
    return None


def _wrong(
    written: str, column: Column | None, columns: Mapping[str, object]
) -> tuple[str, str, str] | None:
    if column is None:
        hint = did_you_mean(written, _KNOWN, f"Known: {', '.join(_KNOWN)}.")
        return "unknown-column", f"nothing is known of a column “{written}”", hint
    if column.unit not in readings_of(column.field):
        known = ", ".join(filter(None, readings_of(column.field)))
        return "unknown-unit", f"“{column.unit}” is no unit of such a column", f"Known: {known}."
    if column.field in columns:
        return (
            "repeated-column",
            f"“{written}” says the same as a column before it",
            ("The first was taken."),
        )
    return None


# ------------------------------------------------------------------ the rows


def _text(cells: Sequence[str], table: _Table, field: str) -> str:
    at = table.columns.get(field)
    return cells[at[0]] if at is not None else ""


def _made(cells: Sequence[str], table: _Table, line: int, row: str, flaws: Flaws) -> str:
    """When it was made, as a day and, where it is told, a time of UTC; "" where nothing says."""
    written = _text(cells, table, "made")
    if not written:
        return ""
    found = _MADE.fullmatch(written)
    try:
        if found is None:
            raise ValueError
        day, time, zone = found.groups()
        if not time:
            return date.fromisoformat(day).isoformat()
        at = datetime.fromisoformat(f"{day}T{time}{_offset(zone)}")
        return f"{(at - (at.utcoffset() or at - at)).strftime('%Y-%m-%d %H:%M')} UTC"
    except (ValueError, OverflowError):
        cell = place_of_cell(row, table.separator, table.columns["made"][0])
        hint = "A day, or a day and a time of UTC: 2027-03-06 16:00."
        flaws.of_row(line, cell, "bad-date", f"“{written}” is no time", hint)
        return ""


def _offset(zone: str | None) -> str:
    return "+00:00" if zone in (None, "", "Z", "UTC") else str(zone)


def _day(
    cells: Sequence[str],
    table: _Table,
    line: int,
    row: str,
    days: Mapping[date, ForecastDay],
    flaws: Flaws,
) -> ForecastDay | None:
    def note(cell: int, code: str, message: str, hint: str) -> None:
        flaws.of_row(line, place_of_cell(row, table.separator, cell), code, message, hint)

    at = table.columns["date"][0]
    try:
        day = read_day(cells[at])
    except Misread as wrong:
        note(at, wrong.code, wrong.message, wrong.hint)
        return None
    if day in days:
        note(at, "repeated-day", f"{day} stands here twice", "The first was kept.")
        return None
    values: dict[str, float] = {}
    for field in _FIGURES:
        if field not in table.columns:
            continue
        cell, to_unit = table.columns[field]
        _put(values, field, cells[cell], to_unit, table.separator, lambda *said: note(cell, *said))  # noqa: B023
    low, high = values.get("low_c"), values.get("high_c")
    if low is not None and high is not None and low > high:
        message = f"the low of {day}, {low:g} °C, is above the high, {high:g} °C"
        note(at, "contradiction", message, "Are the two swapped? Both were left out.")
        del values["low_c"], values["high_c"]
    return ForecastDay(day, **values) if values else None


def _put(
    values: dict[str, float],
    field: str,
    written: str,
    to_unit: Reading,
    separator: str,
    note: Callable[[str, str, str], None],
) -> None:
    if written.casefold() in MISSING:
        return
    try:
        value = to_unit(read_value(written if separator == "," else written.replace(",", ".")))
    except Misread as wrong:
        note(wrong.code, wrong.message, wrong.hint)
        return
    why = impossible(field, value, OF_A_FORECAST)
    if why:
        note("impossible-value", why, "Is the unit of the column right? The value was left out.")
        return
    values[field] = value
