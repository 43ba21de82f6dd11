"""Opens a calendar file of past work (RFC 5545): an entry a row, its properties as columns."""

from __future__ import annotations

from datetime import date, datetime
from typing import Any

from backbud.bring.sheet import BringError, ListSheet, SheetCell, SheetRows, in_plain_words

_MOST_BYTES = 16 << 20
# What counts as the day that something was done.
_DAYS = {"VEVENT": ("DTSTART",), "VTODO": ("COMPLETED",), "VJOURNAL": ("DTSTART",)}
# Said of each entry by the program that wrote it, and nothing of the work.
BOOKKEEPING = (
    "UID", "DTSTAMP", "SEQUENCE", "CREATED", "LAST-MODIFIED", "TRANSP", "CLASS", "PRIORITY",
    "PERCENT-COMPLETE", "REFRESH-INTERVAL", "COLOR", "STATUS",
)  # fmt: skip
# The words that head the columns.
_NOT_DONE = ("CANCELLED", "NEEDS-ACTION", "IN-PROCESS", "TENTATIVE")


def open_calendar(data: bytes) -> tuple[ListSheet, ...]:
    """Its entries. An entry that is repeated stands once, with its rule: nobody wrote that it was
    done each time."""
    from icalendar import Calendar

    if len(data) > _MOST_BYTES:
        raise BringError(f"a calendar of more than {_MOST_BYTES >> 20} MB is not read")
    try:
        calendars = Calendar.from_ical(data, multiple=True)
        found = [entry for one in calendars for entry in one.walk() if entry.name in _DAYS]
        rows = [_properties(entry) for entry in found]
    except Exception as error:
        raise BringError(f"this calendar cannot be read: {error}") from None
    names = list(dict.fromkeys(name for row in rows for name in row))
    gathered = SheetRows("it")
    gathered.add(1, [SheetCell(property_heading(name)) for name in names])
    for at, row in enumerate(rows, 2):
        gathered.add(at, [row.get(name, SheetCell("")) for name in names])
    return (ListSheet("", tuple(gathered.rows)),)


def property_heading(name: str) -> str:
    """What heads the column of a property."""
    return name.capitalize()


def _properties(entry: Any) -> dict[str, SheetCell]:
    out = {"DATE": _day(entry)}
    for name, values in entry.items():
        if name in _DAYS[entry.name] or (name == "DTEND" and _is_short(entry)):
            continue
        each = values if isinstance(values, list) else [values]
        told = ", ".join(_value(one) for one in each)
        out[name] = SheetCell(in_plain_words(told))
    status = str(entry.get("STATUS", "")).upper()
    if status in _NOT_DONE:
        out["DATE"] = SheetCell(out["DATE"].text, wrong=f"it says {status}, so it was not done")
    return out


def _day(entry: Any) -> SheetCell:
    for name in _DAYS[entry.name]:
        value = getattr(entry.get(name), "dt", None)
        if isinstance(value, datetime):
            return SheetCell(value.date().isoformat(), value.date().isoformat())
        if isinstance(value, date):
            return SheetCell(value.isoformat(), value.isoformat())
    missing = "nothing says when it was done" if entry.name == "VTODO" else "it has no day"
    return SheetCell("", wrong=missing)


def _is_short(entry: Any) -> bool:
    """Whether an entry ends on its day; that of a whole day ends as the next one begins."""
    first, last = (getattr(entry.get(name), "dt", None) for name in ("DTSTART", "DTEND"))
    if not isinstance(first, date) or not isinstance(last, date):
        return False
    return (date(*last.timetuple()[:3]) - date(*first.timetuple()[:3])).days <= 1


def _value(value: Any) -> str:
    moment = getattr(value, "dt", None)
    if isinstance(moment, date):
        return moment.isoformat()
    if hasattr(value, "to_ical") and not isinstance(value, str):
        told = value.to_ical()
        return told.decode(errors="replace") if isinstance(told, bytes) else str(told)
    return str(value)
