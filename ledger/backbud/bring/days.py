"""Reads the dates of a column, and in which order their numbers stand; never guessed.

A column is clear where one order alone reads all of its dates, or where it makes no difference.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence
from datetime import date, timedelta

from msgspec import Struct

from backbud.bring.sheet import SheetCell
from backbud_grammar.dates import WrittenDate, check_reckoned, dates_meant, read_date
from backbud_grammar.problems import Misread

ORDERS = ("day-first", "month-first", "year-first")
SERIALS = {"1900": "serial-1900", "1904": "serial-1904"}
DATE_ANSWERS = (*ORDERS, *SERIALS.values())
_TIME = re.compile(
    r"[T ]+\d{1,2}:\d{2}(?::\d{2}(?:[.,]\d+)?)?(?: ?[AaPp][Mm])?(?:Z|[+-]\d{2}:?\d{2})?$"
)
_NUMBERS = re.compile(r"(\d{1,4}) *[./\- ] *(\d{1,2}) *[./\- ] *(\d{1,4})\.?")
_SERIAL = re.compile(r"\d{5}(?:\.\d+)?")
# Day 1 of a workbook is 1 January 1900, and its calendar has a 29 February 1900; so until then
# nobody knows what is meant. The other counts from day 0, 1 January 1904 (ECMA-376, 18.17.4.1).
_FIRST_DAYS = {"serial-1900": date(1899, 12, 30), "serial-1904": date(1904, 1, 1)}


class DayOrder(Struct, frozen=True):
    """How the dates of a column are read. `order`, `serial`: of ORDERS and SERIALS, "" where
    nothing hangs on it. `asks`: what nobody but the keeper can tell, "" where all is clear.
    `is_shown`: whether the order was said, or the dates show it: any other would do as well here,
    but not for the next list."""

    order: str = ""
    serial: str = ""
    asks: str = ""
    answer: str = ""
    is_shown: bool = True


def readings(text: str, today: date) -> Mapping[str, str]:
    """The dates that a text may mean: by "" where it is but one, else by the order of its numbers
    or by what a number of days counts from. Of a year of two figures the latest until today."""
    text = _TIME.sub("", text.strip())
    if found := _NUMBERS.fullmatch(text):
        return _of_numbers((found[1], found[2], found[3]), today)
    if _SERIAL.fullmatch(text):
        number = int(float(text))
        days = {name: first + timedelta(days=number) for name, first in _FIRST_DAYS.items()}
        return {name: day.isoformat() for name, day in days.items()}
    if len(text) > 60:
        return {}
    meant = dates_meant(text)
    return {"": meant[0]} if len(meant) == 1 and _read(meant[0]) else {}


def _of_numbers(numbers: tuple[str, str, str], today: date) -> Mapping[str, str]:
    one, two, three = numbers
    if len(one) == 4:
        return _only({"": (one, two, three)}, today)
    if len(three) == 4:
        return _only({"day-first": (three, two, one), "month-first": (three, one, two)}, today)
    if max(map(len, numbers)) > 2:
        return {}
    orders = {
        "day-first": (three, two, one),
        "month-first": (three, one, two),
        "year-first": (one, two, three),
    }
    return _only(orders, today)


def _only(orders: Mapping[str, tuple[str, str, str]], today: date) -> Mapping[str, str]:
    """The days that there are."""
    out: dict[str, str] = {}
    for order, (year, month, day) in orders.items():
        century = today.year // 100 * 100
        whole = int(year) if len(year) == 4 else century + int(year)
        if len(year) == 2 and whole > today.year:
            whole -= 100
        written = f"{whole:04}-{int(month):02}-{int(day):02}"
        if len(year) in (2, 4) and _read(written):
            out[order] = written
    return out


def _read(text: str) -> WrittenDate | None:
    try:
        when = read_date(text)
        check_reckoned(when.first, text)
    except Misread:
        return None
    return when


def order_of(
    cells: Iterable[tuple[int, SheetCell]], order: str, serial: str, today: date
) -> DayOrder:
    """How the dates of some columns are read. `cells`: each with its row's number. `order`,
    `serial`: what the keeper said, "" where nothing."""
    found = [(n, cell.text, readings(cell.text, today)) for n, cell in cells if not cell.day]
    told = [one for one in found if one[2] and "" not in one[2]]
    numbers = [one for one in told if not _is_serial(one)]
    asks, answer, is_shown = "", "", True
    if not order and numbers:
        fitting = [o for o in ORDERS if all(o in reads for _, _, reads in numbers)]
        differ = [one for one in numbers if len({one[2][o] for o in fitting}) > 1]
        if not fitting:
            asks = _against(numbers)
            answer = "--dates day-first (those that do not read so are told and left out)"
        elif differ:
            row, text, reads = differ[0]
            each = " or ".join(f"{reads[o]} ({o})" for o in fitting)
            asks, answer = f"row {row}: “{text}” is {each}", f"--dates {fitting[0]}"
        else:
            order, is_shown = fitting[0], len(fitting) == 1
    serials = [one for one in told if _is_serial(one)]
    if not serial and serials and not asks:
        row, text, reads = serials[0]
        each = " or ".join(f"{reads[name]} (counted from {year})" for year, name in SERIALS.items())
        asks, answer = f"row {row}: “{text}” is {each}", "--dates serial-1900"
    return DayOrder(order, serial, asks, answer, is_shown)


def _is_serial(one: tuple[int, str, Mapping[str, str]]) -> bool:
    return "serial-1900" in one[2]


def _against(numbers: Sequence[tuple[int, str, Mapping[str, str]]]) -> str:
    """Names rows that no single order reads."""
    only = {o: next((one for one in numbers if {*one[2]} == {o}), None) for o in ORDERS}
    named = [f"row {one[0]}: “{one[1]}” is {o}" for o, one in only.items() if one is not None]
    return f"no one order reads all of its dates ({'; '.join(named)})"


def day_of_cell(cell: SheetCell, by: DayOrder, today: date) -> str:
    """The date of a cell (ISO 8601, EDTF where it is rough); "" where none can be read."""
    if cell.day:
        return cell.day if _read(cell.day) else ""
    reads = readings(cell.text, today)
    return reads.get("") or reads.get(by.order, "") or reads.get(SERIALS.get(by.serial, ""), "")
