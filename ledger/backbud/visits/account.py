"""Adds up what a person owes: what their visits come to, what was billed, and what was paid.

What was billed is what is owed; what a visit comes to says what is still to bill. Each currency
stands for itself: nothing is ever changed into another.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from datetime import date
from decimal import Decimal

from msgspec import Struct

from backbud.collection.state import Entry
from backbud.journal.events import Event, Origin
from backbud.visits.charges import Charge, Terms, cents, counted
from backbud.visits.visit import Visit

ZERO = Decimal("0.00")


class Booked(Struct, frozen=True):
    """A bill or a payment. `number`: of the bill, "" where none is written. `amount`: None for a
    bill that does not say it. `how`: as written: cash, deposit, by transfer."""

    day: date
    number: str
    amount: Decimal | None
    currency: str
    what: str
    tree: str
    how: str
    origin: Origin


class VisitAccount(Struct, frozen=True):
    """A visit with what it comes to, what was billed for it and paid."""

    visit: Visit
    terms: Terms
    charges: tuple[Charge, ...]
    bills: tuple[Booked, ...]
    payments: tuple[Booked, ...]

    def comes_to(self, currency: str) -> Decimal:
        """The sum of its lines whose price is known."""
        known = (one.amount for one in self.charges if one.currency == currency)
        return sum((amount for amount in known if amount is not None), ZERO)

    def to_bill(self, currency: str) -> Decimal:
        """What is still to bill of it: all it comes to before its first bill; then what is left of
        a price for the whole while the tree is here, else what came after the last bill."""
        bills = [one for one in self.bills if one.currency == currency]
        if not bills:
            return self.comes_to(currency)
        if self.terms.is_fixed:
            billed = sum((one.amount or ZERO for one in bills), ZERO)
            left = self.comes_to(currency) - billed
            return max(left, ZERO) if self.visit.is_here else ZERO
        last = max(one.day for one in bills)
        later = (one for one in self.charges if one.day > last and one.currency == currency)
        return sum((one.amount or ZERO for one in later), ZERO)

    @property
    def unpriced(self) -> tuple[Charge, ...]:
        """The lines that no price is known of, though they are no part of a price for the whole."""
        return tuple(one for one in self.charges if one.amount is None and not one.within)


class OpenSums(Struct, frozen=True):
    """What stands open in one currency.

    `comes_to`: what all visits come to, as far as prices are known. `billed`, `paid`: as written.
    `open`: billed and not paid, below 0 where more was paid than billed. `to_bill`: what is still
    to bill of the visits.
    """

    currency: str
    comes_to: Decimal
    billed: Decimal
    paid: Decimal
    open: Decimal
    to_bill: Decimal


class Account(Struct, frozen=True):
    """A person's account until a day. `bills`, `payments`: those written of the person, and of no
    tree."""

    person: str
    visits: tuple[VisitAccount, ...]
    bills: tuple[Booked, ...]
    payments: tuple[Booked, ...]
    balances: tuple[OpenSums, ...]

    @property
    def all_bills(self) -> tuple[Booked, ...]:
        """Every bill, by its day."""
        return _in_order(self.bills, (one.bills for one in self.visits))

    @property
    def all_payments(self) -> tuple[Booked, ...]:
        """Every payment, by its day."""
        return _in_order(self.payments, (one.payments for one in self.visits))


def bookings(entries: Iterable[Entry], act: str, tree: str, currency: str) -> tuple[Booked, ...]:
    """The bills (`billed`) or the payments (`paid`) among the lines of a tree; its part of a total
    that several trees share."""
    return tuple(
        _booked(entry.event, tree, currency, entry)
        for entry in counted(tuple(entries))
        if entry.event.act == act
    )


def bookings_of_person(
    events: Iterable[tuple[Event, int]], act: str, currency: str
) -> tuple[Booked, ...]:
    """The same among the lines about a person, each with how many people share it."""
    return tuple(
        _booked(event, "", currency, Entry(event, among, totals=True))
        for event, among in events
        if event.act == act and not event.held
    )


def account_of(
    person: str,
    visits: Sequence[VisitAccount],
    bills: tuple[Booked, ...],
    payments: tuple[Booked, ...],
) -> Account:
    """A person's account, added up by currency."""
    plain = Account(person, tuple(visits), bills, payments, ())
    return Account(person, plain.visits, bills, payments, tuple(_balances(plain)))


def balances_of(visit: VisitAccount) -> tuple[OpenSums, ...]:
    """What stands open of one visit alone."""
    return account_of(visit.visit.owner, (visit,), (), ()).balances


def _balances(account: Account) -> Iterator[OpenSums]:
    visits = account.visits
    bills, payments = account.all_bills, account.all_payments
    names = [line.currency for one in visits for line in one.charges if line.amount is not None]
    names += [booked.currency for booked in (*bills, *payments)]
    for currency in dict.fromkeys(names):
        comes_to = sum((one.comes_to(currency) for one in visits), ZERO)
        billed, paid = (_sum(booked, currency) for booked in (bills, payments))
        to_bill = sum((one.to_bill(currency) for one in visits), ZERO)
        yield OpenSums(currency, comes_to, billed, paid, billed - paid, to_bill)


def _sum(booked: Iterable[Booked], currency: str) -> Decimal:
    amounts = (one.amount for one in booked if one.currency == currency)
    return sum((amount for amount in amounts if amount is not None), ZERO)


def _booked(event: Event, tree: str, currency: str, entry: Entry) -> Booked:
    detail, number = event.first("amount"), event.first("number")
    measure = detail.measure if detail is not None else None
    amount = None
    if detail is not None and measure is not None:
        amount = cents(measure.number / entry.divided_by(detail))
    return Booked(
        event.day,
        (number.words or str(number.measure or "")) if number is not None else "",
        amount,
        (measure.unit if measure is not None else "") or currency,
        ", ".join(d.words for d in event.all("for") if d.words),
        tree,
        ", ".join(d.words for d in event.all("how") if d.words),
        event.origin,
    )


def _in_order(
    own: tuple[Booked, ...], of_visits: Iterable[tuple[Booked, ...]]
) -> tuple[Booked, ...]:
    found = [*own, *(one for those in of_visits for one in those)]
    return tuple(sorted(found, key=lambda one: (one.day, one.origin.file, one.origin.line)))
