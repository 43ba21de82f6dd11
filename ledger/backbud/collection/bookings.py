"""Finds what was billed, credited and paid: of each tree, and of each person.

A total that several trees share is parted to the last minor unit, so that the parts add up to it.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from datetime import date
from decimal import Decimal
from typing import Literal

from msgspec import Struct

from backbud.bench.money import equal_part, rounded
from backbud.collection.state import Entry
from backbud.journal.events import Event, Origin
from backbud_grammar.act_words import ActWord
from backbud_grammar.syntax import Detail

BookingSort = Literal["bill", "credit", "payment"]
_SORTS: Mapping[ActWord, BookingSort] = {"billed": "bill", "credited": "credit", "paid": "payment"}
MONEY_ACTS = frozenset(_SORTS)
# What money of several trees may be written of at once.
_SHARED: frozenset[ActWord] = frozenset({*_SORTS, "agreed"})
# A line by where it stands.
MoneyLine = tuple[str, int, int]


class Booked(Struct, frozen=True):
    """A bill, a credit or a payment.

    `number`: of the bill or the credit, "" where none is written; of a payment, that of the bill it
    is for. `of_bill`: of a credit, the number of the bill that it takes from. `amount`: None for a
    bill that does not say it, below 0 of a credit. `how`: as written: cash, deposit, by transfer.
    `first`: the amount that first stood there, where a later line, `corrected_at`, changed it.
    """

    sort: BookingSort
    day: date
    number: str
    of_bill: str
    amount: Decimal | None
    currency: str
    what: str
    tree: str
    how: str
    origin: Origin
    event: Event
    first: Decimal | None = None
    corrected_at: Origin | None = None


class Sharing:
    """Which trees share a line about money, each in its place."""

    def __init__(self, lines: Iterable[tuple[str, Sequence[MoneyLine]]]) -> None:
        """`lines`: those that each tree shares, tree by tree in the order of the journal."""
        self._trees: dict[MoneyLine, list[str]] = {}
        for handle, those in lines:
            for line in those:
                self._trees.setdefault(line, []).append(handle)

    def those_of(self, lines: Iterable[MoneyLine]) -> tuple[tuple[str, ...], ...]:
        """Which trees share each of these lines."""
        return tuple(tuple(self._trees.get(line, ())) for line in lines)

    def part(self, entry: Entry, detail: Detail, tree: str, currency: str) -> Decimal:
        """A tree's part of an amount."""
        assert detail.measure is not None
        among = entry.divided_by(detail)
        sharing = self._trees.get(_line(entry.event), [])
        at = sharing.index(tree) if tree in sharing else 0
        return equal_part(detail.measure.number, among, at, currency)


def shared_lines(entries: Iterable[Entry]) -> tuple[MoneyLine, ...]:
    """The lines about money that a tree shares with others."""
    return tuple(_line(one.event) for one in entries if one.among > 1 and one.event.act in _SHARED)


def counted(entries: Sequence[Entry]) -> Iterator[Entry]:
    """The entries that count: neither taken back nor held back."""
    return (entry for entry in entries if not entry.undone and not entry.event.held)


def bookings(
    entries: Sequence[Entry], tree: str, sharing: Sharing, currency: str
) -> tuple[Booked, ...]:
    """What was billed, credited and paid among the lines of a tree. `currency`: of amounts that
    name none."""
    return tuple(
        _booked(entry, tree, _part(entry, entry.event, tree, sharing, currency), sharing, currency)
        for entry in counted(entries)
        if entry.event.act in _SORTS
    )


def bookings_of_person(
    events: Iterable[tuple[Event, int, int]], currency: str
) -> tuple[Booked, ...]:
    """The same among the lines about a person, each with how many people share it, and the place of
    this one among them, from 0."""
    found = []
    for event, among, at in events:
        if event.act in _SORTS and not event.held:
            entry = Entry(event, among, totals=True)
            detail = event.first("amount")
            amount = None
            if detail is not None and detail.measure is not None:
                code = detail.measure.unit or currency
                amount = equal_part(detail.measure.number, entry.divided_by(detail), at, code)
            found.append(_booked(entry, "", amount, None, currency))
    return tuple(found)


def _booked(
    entry: Entry, tree: str, amount: Decimal | None, sharing: Sharing | None, currency: str
) -> Booked:
    event, by = entry.event, entry.corrected_by
    measure = event.measure("amount")
    code = (measure.unit if measure is not None else "") or currency
    sort = _SORTS[event.act]
    first = None
    if by is not None and entry.as_written is not None and sharing is not None:
        first = _part(entry, entry.as_written, tree, sharing, currency)
    return Booked(
        sort,
        event.day,
        _words(event.first("number")),
        _words(event.first("bill")),
        -amount if amount is not None and sort == "credit" else amount,
        code,
        ", ".join(d.words for d in event.all("for") if d.words),
        tree,
        ", ".join(d.words for d in event.all("how") if d.words),
        event.origin,
        event,
        first if first != amount else None,
        by.origin if by is not None else None,
    )


def _part(entry: Entry, event: Event, tree: str, sharing: Sharing, currency: str) -> Decimal | None:
    detail = event.first("amount")
    if detail is None or detail.measure is None:
        return None
    code = detail.measure.unit or currency
    if entry.divided_by(detail) == 1:
        return rounded(detail.measure.number, code)
    return sharing.part(entry, detail, tree, code)


def _words(detail: Detail | None) -> str:
    """A bill's number: words, or a number as written."""
    if detail is None:
        return ""
    return detail.words or str(detail.measure or "")


def _line(event: Event) -> MoneyLine:
    return event.file, event.line, event.column
