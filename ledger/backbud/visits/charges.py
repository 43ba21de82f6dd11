"""Says what a visit comes to: the price that was agreed, else hours at their rate, and materials.

A price for the whole stands for the hours below it; the hours are told all the same. So does a
price of a week, a month or a year, unless an hour was agreed beside it. Materials are charged where
the price is by the hour, or where it was agreed that they come on top; at what one as sold was last
priced at. Nothing is guessed: what no price is known of is told as such.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from datetime import date
from decimal import Decimal
from typing import Literal

from msgspec import Struct

from backbud.bench.money import rounded
from backbud.collection.bookings import Sharing, counted
from backbud.collection.state import Entry
from backbud.collection.visit import Visit
from backbud.journal.events import Event, Origin
from backbud.journal.tax import Tax
from backbud.visits.periods import Period, period_of, periods_between

Sort = Literal[
    "price",
    "period",
    "hours",
    "material",
    "skipped",
    "billed",
    "also billed",
    "not charged",
    "rounding",
]


class MaterialCharge(Struct, frozen=True):
    """So much of a material: `unit_price` None where none is known."""

    title: str
    quantity: Decimal
    unit: str
    unit_price: Decimal | None


# What an entry of `used` took, of each material.
Taken = Callable[[Entry], Sequence[MaterialCharge]]


class Charge(Struct, frozen=True):
    """A line of what a visit comes to. Of a `skipped` price nothing is owed: its one work was
    skipped. `billed`, `also billed` (beside other lines), `not charged` and `rounding` are lines
    that a bill makes (stated.py).

    `what`: the work, the material or what was agreed, as written. `quantity`, `unit`: hours (h),
    weeks, months or years, or as the material is counted; `unit_price`: of one. `amount`: None
    where no price is known, and where it is within the price of the whole (`within`). `currency`:
    ISO 4217. `tax_rate`: percent, None where no tax is written down. `until`: the last day of what
    is paid by the week, the month or the year.
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
    tax_rate: Decimal | None = None
    until: date | None = None


class Terms(Struct, frozen=True):
    """What was agreed for a visit: a price for the whole, by the week, the month or the year, by
    the hour, or none of it. `hour_agreed`: the price of an hour was agreed for this very visit."""

    prices: tuple[Event, ...]
    periods: tuple[Event, ...]
    hour: Decimal | None
    hour_currency: str
    hour_agreed: bool
    with_materials: bool
    materials_on_top: bool

    @property
    def is_fixed(self) -> bool:
        """Whether hours are within a price."""
        return bool(self.prices) or (bool(self.periods) and not self.hour_agreed)


class Reckoning(Struct, frozen=True):
    """By what the lines of a visit are reckoned: the journal's currency, its tax, what an entry of
    `used` took, who shares a sum, and the day until which is reckoned."""

    currency: str
    tax: Tax
    material: Taken
    sharing: Sharing
    today: date


def terms_of(visit: Visit, rate: Decimal | None, currency: str) -> Terms:
    """What was agreed: each price for the whole, and the last rate. `rate`: of an hour by the
    owner's or the keeper's card."""
    agreed = [entry.event for entry in counted(visit.entries) if entry.event.act == "agreed"]
    hour, hour_currency, hour_agreed = rate, currency, False
    for event in agreed:
        measure = event.measure("rate")
        if measure is not None and measure.per == "h":
            hour, hour_currency, hour_agreed = measure.number, measure.unit or currency, True
    words = " ".join(d.words for event in agreed for d in event.all("how"))
    priced = [event for event in agreed if event.measure("amount") is not None]
    return Terms(
        tuple(event for event in priced if period_of(event) is None),
        tuple(event for event in agreed if period_of(event) is not None),
        hour,
        hour_currency,
        hour_agreed,
        "with materials" in words or "including materials" in words,
        "plus materials" in words,
    )


def charges_of(visit: Visit, terms: Terms, by: Reckoning) -> tuple[Charge, ...]:
    """The lines of a visit, in the order of the diary."""
    return tuple(_lines(visit, terms, by))


def _lines(visit: Visit, terms: Terms, by: Reckoning) -> Iterator[Charge]:
    charges_material = terms.materials_on_top or not (terms.is_fixed or terms.with_materials)
    for entry in counted(visit.entries):
        event = entry.event
        if event.act == "agreed":
            period = period_of(event)
            if period is not None:
                yield from _by_period(event, period, visit, terms, by)
            else:
                yield from _agreed(entry, visit, by)
        elif event.act == "worked":
            yield from _worked(entry, terms, by)
        elif event.act == "used":
            for one in by.material(entry):
                price = one.unit_price if charges_material else None
                amount = None if price is None else rounded(price * one.quantity, by.currency)
                yield Charge(
                    "material", event.day, one.title, one.quantity, one.unit, price, amount,
                    by.currency, not charges_material, event.origin, by.tax.rate_of("material"),
                )  # fmt: skip


def _agreed(entry: Entry, visit: Visit, by: Reckoning) -> Iterator[Charge]:
    event = entry.event
    detail = event.first("amount")
    if detail is None or detail.measure is None:
        return
    code = detail.measure.unit or by.currency
    amount = by.sharing.part(entry, detail, visit.tree.handle, code)
    skipped = _was_skipped(event, visit)
    yield Charge(
        "skipped" if skipped else "price", event.day, _for(event), Decimal(1), "", amount,
        rounded(Decimal(0), code) if skipped else amount, code, False, event.origin,
        by.tax.rate_of("work"),
    )  # fmt: skip


def _was_skipped(agreed: Event, visit: Visit) -> bool:
    """Whether the one work that was agreed was skipped on this visit, and not done after all."""
    work = _for(agreed)
    since = [e.event for e in counted(visit.entries) if e.event.day >= agreed.day]
    skipped = any(e.act == "skipped" and work in e.named_row.called for e in since)
    return skipped and not any(work in e.row.called for e in since)


def _by_period(
    event: Event, period: Period, visit: Visit, terms: Terms, by: Reckoning
) -> Iterator[Charge]:
    """From the day it was agreed until the tree goes, the next such price, or today; nothing on the
    very first day."""
    later = [one.day for one in terms.periods if one.day > event.day]
    end = min([visit.went or by.today, by.today, *later])
    quantity = periods_between(event.day, end, period.unit)
    if quantity <= 0:
        return
    code = period.currency or by.currency
    yield Charge(
        "period", event.day, _for(event), quantity, period.unit, period.price,
        rounded(period.price * quantity, code), code, False, event.origin, by.tax.rate_of("work"),
        end,
    )  # fmt: skip


def _worked(entry: Entry, terms: Terms, by: Reckoning) -> Iterator[Charge]:
    event = entry.event
    detail = event.first("time")
    if detail is None or detail.measure is None:
        return
    minutes = Decimal(str(detail.measure.within("min"))) / entry.divided_by(detail)
    hours = minutes / 60
    price = None if terms.is_fixed else terms.hour
    code = terms.hour_currency if price is not None else by.currency
    amount = None if price is None else rounded(price * hours, code)
    what = ", ".join(d.words for d in event.all("on") if d.words)
    yield Charge(
        "hours", event.day, what, hours, "h", price, amount, code, terms.is_fixed, event.origin,
        by.tax.rate_of("work"),
    )  # fmt: skip


def _for(event: Event) -> str:
    return ", ".join(d.words for d in event.all("for") if d.words)
