"""The register of unpaid bills, by age."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from datetime import date
from decimal import Decimal

from backbud.collection.open_bills import BillState, bill_states
from backbud.tongue import phrase
from backbud.views.registers.register import RegisterView, register_of
from backbud.visits.account import Account

ABOUT = (
    "What was billed and is not paid, by age. A payment or credit that names a bill counts for it, "
    "else for its tree's bills, else for the oldest. Currencies are never added up together."
)
HEADINGS = {
    "person": "person", "name": "name", "date": "billed on", "number": "number", "amount": "amount",
    "paid": "paid or credited", "open": "open", "currency": "currency", "days": "days",
    "age": "age",
}  # fmt: skip
# Common practice, no source.
_AGES = ((30, "to 30 days"), (60, "31 to 60"), (90, "61 to 90"))
_OLDER = "over 90"
_NOTHING = Decimal(0)


def unpaid_register(
    accounts: Iterable[Account], names: Mapping[str, str], today: date
) -> RegisterView:
    """Every bill that is not paid in full, the oldest first; sums by age in the notes."""
    rows, notes = [], []
    for account in accounts:
        name = names.get(account.person) or account.person
        booked = (*account.all_bills, *account.all_payments)
        rows += [
            _row(account.person, name, one, today) for one in bill_states(booked) if one.open > 0
        ]
        notes += [
            phrase(
                "{name} has paid {open:f} {currency} ahead.",
                name=name,
                open=-sums.open,
                currency=sums.currency,
            )
            for sums in account.balances
            if sums.open < 0
        ]
        unsaid = sum(one.amount is None for one in account.all_bills)
        if unsaid:
            notes.append(
                phrase("{unsaid} of the bills to {name} say no amount.", unsaid=unsaid, name=name)
            )
    rows.sort(key=lambda row: (row["date"], row["person"], row["number"]))
    return register_of(
        "unpaid", phrase("Unpaid bills"), ABOUT, HEADINGS, rows, [*_sums(rows), *notes]
    )


def _row(person: str, name: str, one: BillState, today: date) -> dict[str, str]:
    bill, amount = one.bill, one.bill.amount or _NOTHING
    days = (today - bill.day).days
    return {
        "person": person,
        "name": name,
        "date": bill.day.isoformat(),
        "number": bill.number,
        "amount": f"{amount:f}",
        "paid": f"{amount - one.open:f}",
        "open": f"{one.open:f}",
        "currency": bill.currency,
        "days": str(days),
        "age": phrase(next((name for most, name in _AGES if days <= most), _OLDER)),
    }


def _sums(rows: Iterable[dict[str, str]]) -> Iterable[str]:
    """What is open by age, each currency for itself."""
    sums: dict[tuple[str, str], Decimal] = {}
    for row in rows:
        key = (row["currency"], row["age"])
        sums[key] = sums.get(key, _NOTHING) + Decimal(row["open"])
    order = [name for _, name in _AGES] + [_OLDER]
    for currency in sorted({currency for currency, _ in sums}):
        told = [f"{age} {sums[currency, age]:f}" for age in order if (currency, age) in sums]
        yield phrase("Open in {currency}: {told}.", currency=currency, told=", ".join(told))
