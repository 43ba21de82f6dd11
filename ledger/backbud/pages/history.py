"""The history of a tree comes in; years of days of entries come out, the newest year first."""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache
from itertools import groupby

from msgspec import Struct

from backbud import words
from backbud.collection.state import Entry
from backbud.journal.events import Event
from backbud_grammar.dates import WrittenDate

# How many of the latest years stand open on a page.
YEARS_OPEN = 2


class Was(Struct, frozen=True):
    """How a corrected line first read, and the line that changed it."""

    text: str
    at: str
    corrected: str
    corrected_at: str
    remark: str
    undone: bool


class Line(Struct, frozen=True):
    """One entry as shown: the act, its details, the remark, and where it stands.

    `held`: it is held back, and changes nothing.
    """

    act: str
    text: str
    remark: str
    at: str
    shared: str
    private: bool
    held: bool
    was: Was | None


class Day(Struct, frozen=True):
    """The entries of one date, in the order they were written."""

    when: str
    iso: str
    lines: tuple[Line, ...]


class Year(Struct, frozen=True):
    """One year's days, the newest first; `open`: shown without a click."""

    name: str
    count: str
    open: bool
    days: tuple[Day, ...]


def years_of(history: Sequence[Entry]) -> tuple[Year, ...]:
    """Group a history, oldest first, by year and day; both come out newest first."""
    by_date = [
        (when, tuple(entries))
        for when, entries in groupby(history, key=lambda entry: entry.event.when)
    ]
    years = []
    for at, (year, dates) in enumerate(groupby(reversed(by_date), key=lambda d: d[0].first.year)):
        days = tuple(_day(when, entries, year) for when, entries in dates)
        count = words.number(sum(len(day.lines) for day in days), "entry", "entries")
        years.append(Year(str(year), count, at < YEARS_OPEN, days))
    return tuple(years)


def _day(when: WrittenDate, entries: tuple[Entry, ...], year: int) -> Day:
    shown, iso = _written(when, year)
    return Day(shown, iso, tuple(_line(entry, year) for entry in entries))


@cache
def _written(when: WrittenDate, year: int) -> tuple[str, str]:
    # Thousands of trees share the same dates.
    return words.written(when, year), when.first.isoformat() if when.exact else ""


def _line(entry: Entry, year: int) -> Line:
    event = entry.event
    return Line(
        event.said,
        _details(event),
        event.remark,
        str(event.origin),
        f"shared among {words.number(entry.among, 'tree')}" if entry.among > 1 else "",
        event.is_for_keeper,
        bool(event.held),
        _was(entry, year) if entry.corrected_by else None,
    )


def _was(entry: Entry, year: int) -> Was:
    by, first = entry.corrected_by, entry.as_written or entry.event
    assert by is not None
    return Was(
        f"{first.act} {_details(first)}".rstrip(),
        str(first.origin),
        words.written(by.when, year),
        str(by.origin),
        by.remark,
        by.has("not done"),
    )


def _details(event: Event) -> str:
    """The details as written, with the act they speak of in front where it is not among them."""
    if not event.named:
        return event.text
    act, head = event.named_row, event.text.partition(" ")[0].rstrip(",").casefold()
    if head in (act.word, act.bare, *act.also):
        return event.text
    return f"{event.named} {event.text}".rstrip()
