"""Adds up what a person owes: what their visits come to, what was billed, and what was paid.

What was billed is what is owed; what a visit comes to says what is still to bill. Each currency
stands for itself: nothing is ever changed into another.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from decimal import Decimal

from msgspec import Struct

from backbud.bench.money import rounded
from backbud.collection.bookings import Booked
from backbud.collection.visit import Visit
from backbud.journal.line_order import line_order
from backbud.journal.tax import Tax
from backbud.visits.charges import Charge, Terms
from backbud.visits.tax import TaxSum, tax_sums

ZERO = Decimal("0.00")


class VisitAccount(Struct, frozen=True):
    """A visit with what it comes to, what was billed for it and paid.

    `bills`: credits too, each below 0. `tax`: by which its lines are added up. `currency`: of what
    names none.
    """

    visit: Visit
    terms: Terms
    charges: tuple[Charge, ...]
    bills: tuple[Booked, ...]
    payments: tuple[Booked, ...]
    tax: Tax
    currency: str

    def tax_sums(self, currency: str) -> tuple[TaxSum, ...]:
        """What its lines come to under each rate of tax, as far as prices are known."""
        return _taxed(self.charges, self.tax, currency)

    def comes_to(self, currency: str) -> Decimal:
        """The sum of its lines whose price is known, tax and all."""
        return _gross(self.charges, self.tax, currency)

    def to_bill(self, currency: str) -> Decimal:
        """What is still to bill of it: all it comes to before its first bill; then what is left of
        a price for the whole while the tree is here, else what came after the last bill. Of a price
        by the week, month or year what is left, whenever the tree goes."""
        bills = [one for one in self.bills if one.currency == currency and one.sort == "bill"]
        if not bills:
            return self.comes_to(currency)
        billed = sum((one.amount or ZERO for one in bills), ZERO)
        left = max(self.comes_to(currency) - billed, ZERO)
        if self.terms.periods:
            return left
        if self.terms.is_fixed:
            return left if self.visit.is_here else rounded(ZERO, currency)
        last = max(one.day for one in bills)
        return _gross([one for one in self.charges if one.day > last], self.tax, currency)

    @property
    def unpriced(self) -> tuple[Charge, ...]:
        """The lines that no price is known of, though they are no part of a price for the whole."""
        return tuple(one for one in self.charges if one.amount is None and not one.within)


def _taxed(charges: Iterable[Charge], tax: Tax, currency: str) -> tuple[TaxSum, ...]:
    known = ((one.amount, one.tax_rate) for one in charges if one.currency == currency)
    lines = [(amount, rate) for amount, rate in known if amount is not None]
    return tax_sums(lines, tax, currency)


def _gross(charges: Iterable[Charge], tax: Tax, currency: str) -> Decimal:
    found = sum((one.gross for one in _taxed(charges, tax, currency)), ZERO)
    return rounded(found, currency)


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
        # A bill that is written of the person stands for visits that have none of their own.
        whole = sum((one.to_bill(currency) for one in visits), ZERO)
        to_bill = max(whole - _sum(_bills_only(account.bills), currency), ZERO)
        yield OpenSums(
            currency,
            rounded(comes_to, currency),
            billed,
            paid,
            billed - paid,
            rounded(to_bill, currency),
        )


def _bills_only(booked: Iterable[Booked]) -> Iterator[Booked]:
    return (one for one in booked if one.sort == "bill")


def _sum(booked: Iterable[Booked], currency: str) -> Decimal:
    amounts = (one.amount for one in booked if one.currency == currency)
    found = sum((amount for amount in amounts if amount is not None), ZERO)
    return rounded(found, currency)


def _in_order(
    own: tuple[Booked, ...], of_visits: Iterable[tuple[Booked, ...]]
) -> tuple[Booked, ...]:
    found = [*own, *(one for those in of_visits for one in those)]
    return tuple(sorted(found, key=lambda one: (one.day, line_order(one.origin))))
