"""Adds up lines of a bill with their tax: for each rate what is taxed, the tax, and both together.

By the rules of EN 16931: each line is rounded, the tax of a rate is reckoned on the sum of its
lines (BR-CO-17) unless the settings ask for it line by line, and the sums are those of what is
shown (BR-CO-10, BR-CO-14, BR-CO-15).
"""

from __future__ import annotations

from collections.abc import Iterable
from decimal import Decimal

from msgspec import Struct

from backbud.bench.money import rounded
from backbud.journal.tax import Tax

ZERO = Decimal(0)


class TaxSum(Struct, frozen=True):
    """What stands under one rate: `net` without tax, `tax`, and `gross`, both together. `rate`:
    percent; None where no tax is written down."""

    rate: Decimal | None
    net: Decimal
    tax: Decimal
    gross: Decimal


# A line: its amount as the diary has it, and percent of tax on it.
Line = tuple[Decimal, Decimal | None]


def tax_sums(lines: Iterable[Line], tax: Tax, currency: str) -> tuple[TaxSum, ...]:
    """The sums of each rate, the highest first; all lines are in one currency."""
    by_rate: dict[Decimal | None, list[Decimal]] = {}
    for amount, rate in lines:
        by_rate.setdefault(rate, []).append(amount)
    found = (_sum(rate, amounts, tax, currency) for rate, amounts in by_rate.items())
    return tuple(sorted(found, key=lambda one: -(one.rate or ZERO)))


def gross_of(lines: Iterable[Line], tax: Tax, currency: str) -> Decimal:
    """What lines come to, tax and all."""
    found = sum((one.gross for one in tax_sums(lines, tax, currency)), ZERO)
    return rounded(found, currency)


def _sum(rate: Decimal | None, amounts: list[Decimal], tax: Tax, currency: str) -> TaxSum:
    together = sum(amounts, ZERO)
    if rate is None:
        return TaxSum(rate, together, rounded(ZERO, currency), together)
    taxed = amounts if tax.each == "line" else [together]
    whole = Decimal(100) if tax.prices == "before tax" else 100 + rate
    due = sum((rounded(one * rate / whole, currency, tax.rounding) for one in taxed), ZERO)
    if tax.prices == "before tax":
        return TaxSum(rate, together, due, together + due)
    return TaxSum(rate, together - due, due, together)
