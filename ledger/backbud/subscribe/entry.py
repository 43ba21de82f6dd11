"""Reading one event or task that a server holds, or saying what is odd about it.

Whoever may write there may write anything. An entry that says a thing twice, or what cannot be
read, is left as it is, with a line of message, and all others are handled.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from datetime import date, datetime
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from icalendar import Component

HIGHEST_SEQUENCE = 2**31 - 1  # of an INTEGER (RFC 5545 §3.3.8)
# What may stand once in an event or task (§3.6.1, §3.6.2), of what is read here.
_ONCE = (
    "UID", "SUMMARY", "DESCRIPTION", "LOCATION", "URL", "STATUS", "SEQUENCE", "DTSTART", "DTEND",
    "DUE", "COMPLETED", "PERCENT-COMPLETE", "LAST-MODIFIED",
)  # fmt: skip
_DAYS = ("DTSTART", "DTEND", "DUE", "COMPLETED", "LAST-MODIFIED")
# One tick of a task that comes again and again says nothing of the others.
_REPEATING = ("RRULE", "RDATE", "EXDATE", "RECURRENCE-ID")
# More than any entry of ours, and the notes in it.
_MOST_CHARACTERS = 1_000_000
# No clock of a server or a telephone shows another year.
_YEARS = range(1970, 9999)
_UID = re.compile(r"^UID(?:;[^:\r\n]*)?:([^\r\n]*)", re.MULTILINE | re.IGNORECASE)
_FOLD = re.compile(r"\r?\n[ \t]")


class Odd(Exception):
    """An entry cannot be understood; the words say what is odd about it ("it has no UID")."""


def entry_in(data: str) -> Component:
    """Return the one event or task of what a server stores. Odd where it is not one, or says what
    no entry may say."""
    from icalendar import Calendar

    if len(data) > _MOST_CHARACTERS:
        raise Odd("it is larger than any entry")
    try:
        calendars = Calendar.from_ical(data, multiple=True)
    except Exception:
        # The library trips over it in many ways.
        raise Odd("it cannot be read") from None
    found = [
        one
        for calendar in calendars
        for one in calendar.subcomponents
        if one.name in ("VEVENT", "VTODO")
    ]
    if len(found) != 1:
        raise Odd("it holds more than one entry" if found else "it holds no event or task")
    for why in _oddities(found[0]):
        raise Odd(why)
    return found[0]


def uids_in(data: str) -> frozenset[str]:
    """Every UID that stands in a text, whatever else does."""
    return frozenset(uid.strip() for uid in _UID.findall(_FOLD.sub("", data)))


def day_of_property(entry: Component, name: str) -> date | None:
    """The day here of a property; None where there is none."""
    when: Any = getattr(entry.get(name), "dt", None)
    if isinstance(when, datetime):
        return (when.astimezone() if when.tzinfo is not None else when).date()
    return when if isinstance(when, date) else None


def _oddities(entry: Component) -> Iterator[str]:
    if not str(entry.get("UID", "")).strip():
        yield "it has no UID"
    for name in _ONCE:
        if isinstance(entry.get(name), list):
            yield f"{name} stands in it more than once"
    for name in _REPEATING:
        if name in entry:
            yield "it repeats"
    for name in _DAYS:
        if name in entry and not _is_day(entry, name):
            yield f"its {name} is no day"
    sequence = entry.get("SEQUENCE", 0)
    if not isinstance(sequence, int) or not 0 <= sequence < HIGHEST_SEQUENCE:
        yield "its SEQUENCE is no number of a revision"
    for alarm in entry.subcomponents:
        trigger = alarm.get("TRIGGER")
        if trigger is not None and not hasattr(trigger, "dt"):
            yield "its TRIGGER is no time"


def _is_day(entry: Component, name: str) -> bool:
    try:
        day = day_of_property(entry, name)
    except (ValueError, OverflowError, OSError):  # beyond what the system can tell
        return False
    return day is not None and day.year in _YEARS
