"""The register of unpaid bills, by age."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from datetime import date
from decimal import Decimal

from backbud.views.registers.register import RegisterView, register_of
from backbud.views.visit import AccountView, BookedView

ABOUT = (
    "What was billed and is not paid, by age. A payment that names a bill counts for it, any "
    "other for the oldest bill in its currency. Currencies are never added up together."
)
HEADINGS = {
    "person": "person", "name": "name", "date": "billed on", "number": "number", "amount": "amount",
    "paid": "paid", "open": "open", "currency": "currency", "days": "days", "age": "age",
}  # fmt: skip
# Common practice, no source.
_AGES = ((30, "to 30 days"), (60, "31 to 60"), (90, "61 to 90"))
_OLDER = "over 90"
_NOTHING = Decimal(0)


def unpaid(accounts: Iterable[AccountView], names: Mapping[str, str], today: date) -> RegisterView:
    """Every bill that is not paid in full, the oldest first; sums by age in the notes."""
    rows, notes = [], []
    for account in accounts:
        name = names.get(account.person) or account.person
        for currency in dict.fromkeys(one.currency for one in account.bills):
            bills = [one for one in account.bills if one.currency == currency]
            payments = [one for one in account.payments if one.currency == currency]
            paid, ahead = _paid(bills, payments)
            for bill, sum_ in zip(bills, paid, strict=True):
                if (bill.amount or _NOTHING) > sum_:
                    rows.append(_row(account.person, name, bill, sum_, today))
            if ahead > 0:
                notes.append(f"{name} has paid {ahead:f} {currency} ahead.")
        unsaid = [one for one in account.bills if one.amount is None]
        if unsaid:
            notes.append(f"{len(unsaid)} of the bills to {name} say no amount.")
    rows.sort(key=lambda row: (row["date"], row["person"], row["number"]))
    return register_of("unpaid", "Unpaid bills", ABOUT, HEADINGS, rows, [*_sums(rows), *notes])


def _paid(
    bills: Sequence[BookedView], payments: Sequence[BookedView]
) -> tuple[list[Decimal], Decimal]:
    """What of each bill is paid, and what was paid beyond all of them."""
    paid = [_NOTHING for _ in bills]
    loose = _NOTHING
    for payment in payments:
        amount = payment.amount or _NOTHING
        at = next((n for n, bill in enumerate(bills)
                   if payment.number and bill.number == payment.number), None)  # fmt: skip
        if at is None:
            loose += amount
            continue
        room = max((bills[at].amount or _NOTHING) - paid[at], _NOTHING)
        paid[at] += min(room, amount)
        loose += amount - min(room, amount)
    for at, bill in enumerate(bills):
        share = min(max((bill.amount or _NOTHING) - paid[at], _NOTHING), loose)
        paid[at] += share
        loose -= share
    return paid, loose


def _row(person: str, name: str, bill: BookedView, paid: Decimal, today: date) -> dict[str, str]:
    days = (today - bill.day).days
    amount = bill.amount or _NOTHING
    return {
        "person": person,
        "name": name,
        "date": bill.day.isoformat(),
        "number": bill.number,
        "amount": f"{amount:f}",
        "paid": f"{paid:f}",
        "open": f"{amount - paid:f}",
        "currency": bill.currency,
        "days": str(days),
        "age": next((name for most, name in _AGES if days <= most), _OLDER),
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
        yield f"Open in {currency}: {', '.join(told)}."
