"""Says what a visit comes to: the price that was agreed, else hours at their rate, and materials.

A price for the whole stands for the hours below it; the hours are told all the same. Materials are
charged where the price is by the hour, or where it was agreed that they come on top; at what one as
sold was last priced at. Nothing is guessed: what no price is known of is told as such.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from datetime import date
from decimal import ROUND_HALF_UP, Decimal
from typing import Literal

from msgspec import Struct

from backbud.collection.state import Entry
from backbud.journal.events import Event, Origin
from backbud.visits.visit import Visit

Sort = Literal["price", "hours", "material"]
_CENT = Decimal("0.01")


class MaterialCharge(Struct, frozen=True):
    """So much of a material: `unit_price` None where none is known."""

    title: str
    quantity: Decimal
    unit: str
    unit_price: Decimal | None


# What an entry of `used` took, of each material.
Taken = Callable[[Entry], Sequence[MaterialCharge]]


class Charge(Struct, frozen=True):
    """A line of what a visit comes to.

    `what`: the work, the material or what was agreed, as written. `quantity`, `unit`: hours (h) or
    as the material is counted; `unit_price`: of one. `amount`: None where no price is known, and
    where it is within the price of the whole (`within`). `currency`: ISO 4217.
    """

    sort: Sort
    day: date
    what: str
    quantity: Decimal
    unit: str
    unit_price: Decimal | None
    amount: Decimal | None
    currency: str
    within: bool
    origin: Origin


class Terms(Struct, frozen=True):
    """What was agreed for a visit: a price for the whole, the price of an hour, or neither."""

    prices: tuple[Event, ...]
    hour: Decimal | None
    hour_currency: str
    with_materials: bool
    materials_on_top: bool

    @property
    def is_fixed(self) -> bool:
        return bool(self.prices)


def cents(amount: Decimal) -> Decimal:
    """An amount to the hundredth, halves away from nought, as is common practice for bills."""
    return amount.quantize(_CENT, ROUND_HALF_UP)


def terms_of(visit: Visit, rate: Decimal | None, currency: str) -> Terms:
    """What was agreed: each price for the whole, and the last rate. `rate`: of an hour by the
    owner's or the keeper's card."""
    agreed = [entry.event for entry in counted(visit.entries) if entry.event.act == "agreed"]
    hour, hour_currency = rate, currency
    for event in agreed:
        measure = event.measure("rate")
        if measure is not None and measure.per == "h":
            hour, hour_currency = measure.number, measure.unit or currency
    words = " ".join(d.words for event in agreed for d in event.all("how"))
    return Terms(
        tuple(event for event in agreed if event.measure("amount") is not None),
        hour,
        hour_currency,
        "with materials" in words or "including materials" in words,
        "plus materials" in words,
    )


def charges_of(visit: Visit, terms: Terms, currency: str, material: Taken) -> tuple[Charge, ...]:
    """The lines of a visit, in the order of the diary. `material`: what an entry of `used` took."""
    return tuple(_lines(visit, terms, currency, material))


def _lines(visit: Visit, terms: Terms, currency: str, material: Taken) -> Iterator[Charge]:
    charges_material = terms.materials_on_top or not (terms.is_fixed or terms.with_materials)
    for entry in counted(visit.entries):
        event = entry.event
        if event.act == "agreed":
            yield from _agreed(entry, currency)
        elif event.act == "worked":
            yield from _worked(entry, terms, currency)
        elif event.act == "used":
            for one in material(entry):
                price = one.unit_price if charges_material else None
                amount = None if price is None else cents(price * one.quantity)
                yield Charge(
                    "material", event.day, one.title, one.quantity, one.unit, price, amount,
                    currency, not charges_material, event.origin,
                )  # fmt: skip


def _agreed(entry: Entry, currency: str) -> Iterator[Charge]:
    event = entry.event
    detail = event.first("amount")
    if detail is None or detail.measure is None:
        return
    amount = cents(detail.measure.number / entry.divided_by(detail))
    what = ", ".join(d.words for d in event.all("for") if d.words)
    yield Charge(
        "price", event.day, what, Decimal(1), "", amount, amount,
        detail.measure.unit or currency, False, event.origin,
    )  # fmt: skip


def _worked(entry: Entry, terms: Terms, currency: str) -> Iterator[Charge]:
    event = entry.event
    detail = event.first("time")
    if detail is None or detail.measure is None:
        return
    minutes = Decimal(str(detail.measure.within("min"))) / entry.divided_by(detail)
    hours = minutes / 60
    price = None if terms.is_fixed else terms.hour
    amount = None if price is None else cents(price * hours)
    what = ", ".join(d.words for d in event.all("on") if d.words)
    yield Charge(
        "hours", event.day, what, hours, "h", price, amount,
        terms.hour_currency if price is not None else currency, terms.is_fixed, event.origin,
    )  # fmt: skip


def counted(entries: Sequence[Entry]) -> Iterator[Entry]:
    """The entries that count: neither taken back nor held back."""
    return (entry for entry in entries if not entry.undone and not entry.event.held)
