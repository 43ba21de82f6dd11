"""Says which lines a bill stands for, so that what an owner is shown adds up to what was billed.

What was reckoned is a bill's lines where it comes to the same. Where it does not, what was done
stays with its price, a price that was agreed and is not what was billed is no line, and one line
tells the rest: what the bill itself says it is for, or by how much less was charged.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from datetime import date
from decimal import Decimal

from msgspec import Struct
from msgspec.structs import replace

from backbud.bench.money import digits_of, rounded
from backbud.collection.bookings import Booked, counted
from backbud.journal.tax import Tax
from backbud.visits.account import VisitAccount
from backbud.visits.charges import Charge, Sort
from backbud.visits.tax import ZERO, gross_of

# Lines that a bill makes.
OF_A_BILL: frozenset[Sort] = frozenset({"billed", "also billed", "not charged", "rounding"})


class StatedLines(Struct, frozen=True):
    """The lines of a visit that are in its sum; `ahead`: prices that were agreed for what is not
    done yet, `left_out`: those that were agreed and are not billed. Neither is in the sum.
    `to_bill`: by currency, what of the sum is still to bill."""

    lines: tuple[Charge, ...]
    ahead: tuple[Charge, ...]
    left_out: tuple[Charge, ...]
    to_bill: Mapping[str, Decimal]


def stated_lines(one: VisitAccount) -> StatedLines:
    """What a statement of a visit lists; in each currency its sum is what was billed and what is
    still to bill."""
    lines = [line for line in one.charges if not line.amount and line.sort != "skipped"]
    left_out = [line for line in one.charges if line.sort == "skipped"]
    ahead: list[Charge] = []
    to_bill: dict[str, Decimal] = {}
    priced = [line for line in one.charges if line.amount]
    bills = [bill for bill in one.bills if bill.amount is not None]
    names = [*(line.currency for line in priced), *(bill.currency for bill in bills)]
    for currency in dict.fromkeys(names):
        some = [line for line in priced if line.currency == currency]
        billed = [bill for bill in bills if bill.currency == currency]
        found = _of_currency(one, some, billed, currency)
        lines.extend(found.lines)
        ahead.extend(found.ahead)
        left_out.extend(found.left_out)
        to_bill |= found.to_bill
    in_order = sorted(lines, key=lambda line: (line.day, line.sort in OF_A_BILL))
    return StatedLines(tuple(in_order), tuple(ahead), tuple(left_out), to_bill)


def _of_currency(
    one: VisitAccount, charges: Sequence[Charge], booked: Sequence[Booked], currency: str
) -> StatedLines:
    """The same in one currency. `booked`: bills and credits."""
    nothing = rounded(ZERO, currency)
    ahead = tuple(line for line in charges if line.sort == "price" and _is_ahead(line, one))
    done = tuple(line for line in charges if line not in ahead)
    bills = [bill for bill in booked if bill.sort == "bill"]
    if not bills:
        return StatedLines(done, ahead, (), {currency: _gross(done, one, currency)})
    # A credit that takes back a wrong bill leaves what is right; any other comes off what is.
    whole = sum((bill.amount or ZERO for bill in bills), ZERO)
    net = sum((bill.amount or ZERO for bill in booked), ZERO)
    for billed in (whole, net):
        if billed == _gross(charges, one, currency):
            return StatedLines(tuple(charges), (), (), {currency: nothing})
    last = max(bill.day for bill in bills)
    for billed in (whole, net):
        if _agrees(one, done, billed, last, currency):
            left = _gross(done, one, currency) - billed
            return StatedLines(done, ahead, (), {currency: left})
    # The bill is not what was agreed: its own words stand for what it is.
    kept = [line for line in done if line.sort != "price"]
    left_out = tuple(line for line in done if line.sort == "price")
    if not kept and len(booked) == len(bills):
        lines = tuple(_billed(one, bill, bill.amount or ZERO, ()) for bill in bills)
        return StatedLines(lines, ahead, left_out, {currency: nothing})
    open_work = [line for line in kept if line.day > last and not one.terms.is_fixed]
    still = _gross(open_work, one, currency)
    rest = _rest(one, kept, bills, net + still)
    return StatedLines((*kept, *rest), ahead, left_out, {currency: still})


def _agrees(
    one: VisitAccount, done: Sequence[Charge], billed: Decimal, last: date, currency: str
) -> bool:
    """Whether the lines are what was billed, and what is still to bill."""
    comes_to = _gross(done, one, currency)
    if billed == comes_to:
        return True
    if one.terms.periods or (one.terms.is_fixed and one.visit.is_here):
        return billed < comes_to
    later = [line for line in done if line.day > last]
    return not one.terms.is_fixed and billed + _gross(later, one, currency) == comes_to


def _rest(
    one: VisitAccount, kept: Sequence[Charge], bills: Sequence[Booked], owed: Decimal
) -> Iterator[Charge]:
    """The line that makes the lines add up to what is owed of them."""
    bill = bills[-1]
    gross = owed - _gross(kept, one, bill.currency)
    if gross:
        line = _billed(one, bill, gross, kept)
        if one.tax.prices == "before tax" and abs(gross) <= len(bills) * _unit(bill.currency):
            # The tax of each bill is rounded for itself, that of all lines once.
            line = replace(line, what="", sort="rounding")
        yield line if gross > 0 else replace(line, what="")


def _unit(currency: str) -> Decimal:
    """The smallest coin: 0.01."""
    return Decimal(1).scaleb(-digits_of(currency))


def _billed(one: VisitAccount, bill: Booked, gross: Decimal, beside: Sequence[Charge]) -> Charge:
    return billed_line(bill, gross, beside, one.tax)


def billed_line(bill: Booked, gross: Decimal, beside: Sequence[Charge], tax: Tax) -> Charge:
    """A line that comes to so much, tax and all, beside others: what a bill says of itself; below 0
    it is what was not charged."""
    rate = tax.rate_of("work")
    amount = _as_told(gross, rate, beside, tax, bill.currency)
    sort: Sort = "not charged" if amount < 0 else "also billed" if beside else "billed"
    return Charge(
        sort, bill.day, bill.what, Decimal(1 if amount >= 0 else -1), "", abs(amount), amount,
        bill.currency, False, bill.origin, rate,
    )  # fmt: skip


def _as_told(
    gross: Decimal, rate: Decimal | None, beside: Sequence[Charge], tax: Tax, currency: str
) -> Decimal:
    """The amount of such a line as the diary's prices are told, with tax or before it."""
    if tax.prices == "with tax" or rate is None:
        return rounded(gross, currency)
    unit = _unit(currency)
    near = rounded(gross * 100 / (100 + rate), currency)
    others = [(line.amount, line.tax_rate) for line in beside if line.amount is not None]
    owed = gross + gross_of(others, tax, currency)
    for net in (near, near - unit, near + unit, near - 2 * unit, near + 2 * unit):
        if gross_of([*others, (net, rate)], tax, currency) == owed:
            return net
    return near


def _is_ahead(line: Charge, one: VisitAccount) -> bool:
    """Whether what a price was agreed for is not done yet, as far as the diary says: its tree is
    here, or to come, and was not told ready since."""
    if one.visit.went is not None:
        return False
    ready = (entry.event for entry in counted(one.visit.entries) if entry.event.act == "ready")
    return not any(event.day >= line.day for event in ready)


def _gross(charges: Iterable[Charge], one: VisitAccount, currency: str) -> Decimal:
    lines = [(line.amount, line.tax_rate) for line in charges if line.amount is not None]
    return gross_of(lines, one.tax, currency)
