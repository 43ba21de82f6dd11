"""Reads a met office's monthly text of one station.

Some lines about the station, then columns `yyyy mm tmax tmin af rain sun` (°C, days, mm, hours) and
their units below; `---` is missing, `*` after a value an estimate, `#` after the sunshine another
sensor, and a word such as Provisional may end a row.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from itertools import pairwise

from backbud.journal.weather.cells import MISSING, read_value
from backbud.journal.weather.flaws import Flaws
from backbud.journal.weather.limits import OF_A_MONTH, impossible
from backbud.journal.weather.series import (
    MonthWeather,
    Series,
    Station,
    Until,
    WeatherForm,
    station_at,
)
from backbud.words import number
from backbud_grammar.dates import FIRST_RECKONED
from backbud_grammar.problems import Flaw, Misread

TITLE = "monthly station text"
_FIELDS = {"tmin": "low_c", "tmax": "high_c", "rain": "rain_mm", "sun": "sun_hours"}
_ESTIMATE, _OTHER_SENSOR = "*", "#"
_HEAD_LINES = 60
_POSITION = re.compile(
    r"Lat\s*(-?\d+(?:\.\d+)?)\s*,?\s*Lon\s*(-?\d+(?:\.\d+)?)(?:\s*,?\s*(-?\d+(?:\.\d+)?)\s*m)?",
    re.I,
)
_WORD = re.compile(r"\S+")

_Month = tuple[int, int]


def _header(lines: Sequence[str]) -> int | None:
    """The line that names the columns."""
    for line, text in enumerate(lines[:_HEAD_LINES]):
        names = text.casefold().split()
        if names[:2] == ["yyyy", "mm"] and ("tmax" in names or "tmin" in names):
            return line
    return None


def recognises(lines: Sequence[str]) -> bool:
    """Whether a line names the columns `yyyy mm` and a temperature."""
    return _header(lines) is not None


def read_months(lines: Sequence[str], until: Until) -> Series:
    """Read the months."""
    top = _header(lines)
    if top is None:
        return Series(TITLE)
    reader = _StationReader(lines[top].casefold().split(), until)
    for line in range(top + 1, len(lines)):
        words = list(_WORD.finditer(lines[line]))
        # Below the columns stand their units, and at the end perhaps a remark.
        if words and words[0][0][0].isdecimal():
            reader.row(line, words)
    return reader.finish(_station(lines[:top]))


def _station(head: Sequence[str]) -> Station:
    """The station's name, and where it stands now: it may have moved, and the last place counts."""
    name = next((text.strip() for text in head if text.strip()), "")
    found = [match for text in head for match in _POSITION.finditer(text)]
    if not found:
        return Station(name)
    latitude, longitude, elevation = found[-1].groups()
    return station_at(
        name, float(latitude), float(longitude), float(elevation) if elevation else None
    )


class _StationReader:
    def __init__(self, columns: Sequence[str], until: Until) -> None:
        self._columns, self._until = columns, until
        self._flaws = Flaws()
        self._months: dict[_Month, MonthWeather] = {}
        self._lines: dict[_Month, int] = {}
        self._estimated = 0

    def row(self, line: int, words: Sequence[re.Match[str]]) -> None:
        """Read one row."""
        month = self._month(line, words)
        if month is None:
            return
        values: dict[str, float] = {}
        for word, column in zip(words, self._columns, strict=False):
            field = _FIELDS.get(column)
            if field is not None and word[0].isalpha():
                # A word in the place of a value: the row is short, and a remark ends it.
                break
            text = word[0].rstrip(_ESTIMATE + _OTHER_SENSOR)
            if field is None or text in MISSING:
                continue
            try:
                value = read_value(text)
            except Misread as wrong:
                self._note(line, word, wrong.code, wrong.message, "The value was left out.")
                continue
            why = impossible(field, value, OF_A_MONTH)
            if why:
                self._note(line, word, "impossible-value", why, "The value was left out.")
                continue
            values[field] = value
            self._estimated += _ESTIMATE in word[0]
        if "low_c" in values and "high_c" in values and values["low_c"] > values["high_c"]:
            self._note(
                line,
                words[self._columns.index("tmin")],
                "contradiction",
                f"tmin of {values.pop('low_c'):g} is above tmax of {values.pop('high_c'):g}",
                "Are the two swapped? Both were left out.",
            )
        if values:
            self._months[month] = MonthWeather(month[0], month[1], **values)

    def _month(self, line: int, words: Sequence[re.Match[str]]) -> _Month | None:
        """The row's month, if it can be used."""
        year, month = words[0][0], words[1][0] if len(words) > 1 else ""
        if not (len(year) == 4 and 1 <= len(month) <= 2 and (year + month).isdecimal()):
            self._note(
                line,
                words[0],
                "bad-date",
                "this row does not begin with a year and a month",
                "A row begins: 1959  1. It was left out.",
            )
            return None
        found = (int(year), int(month))
        if found[0] < FIRST_RECKONED.year:
            self._note(
                line,
                words[0],
                "far-date",
                f"{year} is no year of a record",
                "The row was left out.",
            )
            return None
        if not 1 <= found[1] <= 12:
            self._note(
                line,
                words[1],
                "no-such-date",
                f"there is no month {month}",
                "The row was left out.",
            )
            return None
        today = self._until.today
        if found > (today.year, today.month):
            if not self._until.leave_out:
                self._note(
                    line,
                    words[0],
                    "future-date",
                    f"{year}-{found[1]:02} has not come yet (today is {today})",
                    "Only what was measured belongs here; the row was left out.",
                )
            return None
        first = self._lines.setdefault(found, line)
        if first != line:
            self._note(
                line,
                words[0],
                "repeated-month",
                f"{year}-{found[1]:02} stands in line {first + 1} and again in line {line + 1}",
                f"Line {first + 1} was kept; take one of the two out.",
            )
            return None
        return found

    def _note(self, line: int, word: re.Match[str], code: str, message: str, hint: str) -> None:
        self._flaws.of_row(line, (word.start() + 1, len(word[0])), code, message, hint)

    def finish(self, station: Station) -> Series:
        """Return the months in their order."""
        months = dict(sorted(self._months.items()))
        self._note_gaps(list(months))
        return Series(
            TITLE,
            months=months,
            station=station,
            estimated_values=self._estimated,
            flaws=self._flaws.all(),
        )

    def _note_gaps(self, months: Sequence[_Month]) -> None:
        numbers = [12 * year + month - 1 for year, month in months]
        missing = numbers[-1] - numbers[0] + 1 - len(numbers) if numbers else 0
        if not missing:
            return
        before, after = max(pairwise(numbers), key=lambda pair: pair[1] - pair[0])
        first, last, gap = (
            f"{n // 12}-{n % 12 + 1:02}" for n in (numbers[0], numbers[-1], before + 1)
        )
        self._flaws.of_file(
            Flaw(
                "missing-months",
                self._lines[after // 12, after % 12 + 1],
                1,
                1,
                f"{number(missing, 'month')} missing between {first} and {last}, the longest gap "
                f"{number(after - before - 1, 'month')} from {gap}",
                "The months around are used as they are.",
                "warning",
            )
        )


FORM = WeatherForm(TITLE, recognises, read_months)
