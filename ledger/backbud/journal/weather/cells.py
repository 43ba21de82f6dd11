"""Parts a row of a weather table into cells, and reads a day or a number from one of them."""

from __future__ import annotations

import csv
import re
from contextlib import suppress
from datetime import date
from math import isfinite

from backbud_grammar.dates import check_reckoned
from backbud_grammar.problems import Misread

# As tables and their publishers write that nothing was measured.
MISSING = frozenset(("", "-", "--", "---", "na", "n/a", "nan", "null", "none"))


def split_row(line: str, separator: str) -> list[str]:
    """Return the cells of a row, without quotes and the blanks around them."""
    if '"' in line:
        # A quote that is never closed can run on beyond what one cell may hold.
        with suppress(csv.Error):
            return [cell.strip() for cell in next(csv.reader([line], delimiter=separator), [])]
    return [cell.strip() for cell in line.split(separator)]


def place_of_cell(line: str, separator: str, index: int) -> tuple[int, int]:
    """Return column (from 1) and length of a cell as it stands in its line."""
    mark = re.escape(separator)
    found = list(re.finditer(rf'(?:^|{mark})((?:"(?:[^"]|"")*"|[^"{mark}])*)', line))
    if index >= len(found):
        return len(line) + 1, 1
    cell = found[index][1]
    inner = cell.strip(' "\t')
    if not inner:
        return found[index].start(1) + 1, max(len(cell), 1)
    return found[index].start(1) + cell.index(inner) + 1, len(inner)


def read_day(text: str) -> date:
    """Return the day so written: `2027-03-06`, `2027/3/6`, `20270306`, midnight after it or not.

    Misread for anything else: a day first or a month first cannot be told from each other.
    """
    day = _day(text)
    check_reckoned(day, text)
    return day


def _day(text: str) -> date:
    try:
        return date.fromisoformat(text)
    except ValueError:
        found = _DAY.fullmatch(text)
    if found is None:
        raise Misread(
            "bad-date",
            f"“{text}” is no date" if text else "there is no date here",
            "Dates are written year first: 2027-03-06.",
        )
    try:
        return date(*map(int, found.group(1, 3, 4)))
    except ValueError:
        raise Misread(
            "no-such-date", f"there is no {text}", "Is a digit wrong? The row was left out."
        ) from None


_DAY = re.compile(
    r"(\d{4})([-/.]?)(\d\d?)\2(\d\d?)(?:[T ]00:00(?::00(?:\.0+)?)?(?:Z|[+-]\d\d:?\d\d)?)?"
)


def read_value(text: str) -> float:
    """Return a number; Misread for anything else."""
    try:
        value = float(text.replace("\N{MINUS SIGN}", "-"))
    except ValueError:
        value = float("nan")
    if not isfinite(value) or "_" in text:
        raise Misread(
            "bad-number", f"“{text}” is no number", "Write 4 or 4.5; leave unknown cells empty."
        )
    return value
