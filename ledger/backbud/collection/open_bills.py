"""Tells what of each bill is still open: credits and payments are set against bills.

What names a bill's number goes to that bill; else what is written of a tree goes to that tree's
bills, and what is left, or written of the person, to whichever is oldest. Each currency by itself.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from decimal import Decimal

from msgspec import Struct

from backbud.collection.bookings import Booked
from backbud.journal.line_order import line_order


class BillState(Struct, frozen=True):
    """A bill, what of it is open, and what covered the last of it, None where it is open."""

    bill: Booked
    open: Decimal
    settled_by: Booked | None


def bill_states(booked: Iterable[Booked]) -> tuple[BillState, ...]:
    """How each bill of one person stands, oldest first; one that names no amount has none open."""
    in_order = sorted(booked, key=lambda one: (one.day, line_order(one.origin)))
    bills = [one for one in in_order if one.sort == "bill"]
    left = {n: one.amount or Decimal(0) for n, one in enumerate(bills)}
    last: dict[int, Booked] = {}
    spare: list[tuple[Booked, Decimal]] = []
    for one in in_order:
        if one.sort != "bill" and one.amount is not None:
            spare.append((one, abs(one.amount)))
    for rule in (_by_number, _by_tree, _any):
        spare = [
            (one, rest)
            for one, amount in spare
            if (rest := _against(one, amount, rule(one, bills), bills, left, last)) > 0
        ]
    return tuple(
        BillState(bill, left[n], last.get(n) if not left[n] else None)
        for n, bill in enumerate(bills)
    )


def _against(
    one: Booked,
    amount: Decimal,
    which: Sequence[int],
    bills: Sequence[Booked],
    left: dict[int, Decimal],
    last: dict[int, Booked],
) -> Decimal:
    """Set an amount against these bills, oldest first; what is left of it."""
    for n in which:
        if bills[n].currency != one.currency or not left[n] or not amount:
            continue
        taken = min(amount, left[n])
        left[n] -= taken
        amount -= taken
        if n not in last or one.day >= last[n].day:
            last[n] = one
    return amount


def _by_number(one: Booked, bills: Sequence[Booked]) -> list[int]:
    number = one.of_bill or (one.number if one.sort == "payment" else "")
    return [n for n, bill in enumerate(bills) if number and bill.number == number]


def _by_tree(one: Booked, bills: Sequence[Booked]) -> list[int]:
    return [n for n, bill in enumerate(bills) if one.tree and bill.tree == one.tree]


def _any(one: Booked, bills: Sequence[Booked]) -> list[int]:
    return list(range(len(bills)))
