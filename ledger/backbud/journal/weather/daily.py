"""Gathers the days of a weather file, and leaves out what cannot have been so.

The form of the file only finds the cells; what makes a day sound is decided here.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from datetime import date, timedelta
from itertools import pairwise

from backbud.climate.days import WeatherDay
from backbud.journal.weather.cells import MISSING, read_day, read_value
from backbud.journal.weather.flaws import Flaws
from backbud.journal.weather.limits import OF_A_DAY, impossible
from backbud.journal.weather.series import Until
from backbud.words import number
from backbud_grammar.problems import Flaw, Misread

Place = Callable[[int, int], tuple[int, int]]


class DailyRows:
    """Gathers the values of days. `place`: column and length of a cell, by line and index."""

    def __init__(self, flaws: Flaws, until: Until, place: Place) -> None:
        self._flaws, self._until, self._place = flaws, until, place
        self._values: dict[date, dict[str, float]] = {}
        # By day and element: the line on which it stands first.
        self._lines: dict[tuple[date, str], int] = {}
        # Where the low or high of a day stands.
        self._temperatures: dict[date, tuple[int, int]] = {}

    def day(self, text: str, element: str, line: int, cell: int) -> date | None:
        """Return the row's day; None where it cannot be used. `element`: what the row is about."""
        try:
            day = read_day(text)
        except Misread as wrong:
            self.note(line, cell, wrong.code, wrong.message, wrong.hint)
            return None
        if day > self._until.today:
            if not self._until.leave_out:
                self.note(
                    line,
                    cell,
                    "future-date",
                    f"{day} has not come yet (today is {self._until.today})",
                    "Only what was measured belongs here; the row was left out. What is foretold "
                    "stands in weather/PLACE-forecast.csv.",
                )
            return None
        first = self._lines.setdefault((day, element), line)
        if first != line:
            self.note(
                line,
                cell,
                "repeated-day",
                f"{day} stands in line {first + 1} and again in line {line + 1}",
                f"Line {first + 1} was kept; take one of the two out.",
            )
            return None
        return day

    def put(
        self,
        day: date,
        field: str,
        text: str,
        to_unit: Callable[[float], float],
        line: int,
        cell: int,
    ) -> None:
        """Read and keep one value, or note why not; a missing one is no flaw."""
        if text.casefold() in MISSING:
            return
        try:
            value = to_unit(read_value(text))
        except Misread as wrong:
            self.note(line, cell, wrong.code, wrong.message, wrong.hint)
            return
        why = impossible(field, value, OF_A_DAY)
        if why:
            hint = "Is the unit of the column right? The value was left out."
            self.note(line, cell, "impossible-value", why, hint)
            return
        self._values.setdefault(day, {})[field] = value
        if field == "low_c" or field == "high_c":
            self._temperatures[day] = (line, cell)

    def note(self, line: int, cell: int, code: str, message: str, hint: str) -> None:
        """Note what is wrong with a cell."""
        self._flaws.of_row(line, self._place(line, cell), code, message, hint)

    def finish(self) -> Mapping[date, WeatherDay]:
        """Return the days in their order."""
        days: dict[date, WeatherDay] = {}
        for day in sorted(self._values):
            values = self._values[day]
            if "low_c" in values and "high_c" in values and values["low_c"] > values["high_c"]:
                line, cell = self._temperatures[day]
                self.note(
                    line,
                    cell,
                    "contradiction",
                    f"the low of {day}, {values.pop('low_c'):g} °C, is above the high, "
                    f"{values.pop('high_c'):g} °C",
                    "Are the two swapped? Both were left out.",
                )
            if values:
                days[day] = WeatherDay(day, **values)
        self._note_gaps(days)
        return days

    def _note_gaps(self, days: Mapping[date, WeatherDay]) -> None:
        if not days:
            return
        order = list(days)
        missing = (order[-1] - order[0]).days + 1 - len(order)
        if not missing:
            return
        before, after = max(pairwise(order), key=lambda pair: (pair[1] - pair[0]).days)
        longest = (after - before).days - 1
        line = min(line for (day, _), line in self._lines.items() if day == after)
        self._flaws.of_file(
            Flaw(
                "missing-days",
                line,
                *self._place(line, 0),
                f"{number(missing, 'day')} missing between {order[0]} and {order[-1]}, "
                f"the longest gap {number(longest, 'day')} from {before + timedelta(days=1)}",
                "The days around are used as they are.",
                "warning",
            )
        )
