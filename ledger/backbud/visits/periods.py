"""Reckons a price of a week, a month or a year: what was agreed, and how many there have been.

Whole weeks, months and years from the day it was agreed, and of the last one begun its days: of a
month by that month's days, of a year by that year's. Common practice, no source.
"""

from __future__ import annotations

from calendar import monthrange
from datetime import date
from decimal import Decimal

from msgspec import Struct

from backbud.journal.events import Event
from backbud_grammar.measures import Measure

_UNITS = {"week": "week", "month": "month", "year": "year", "weeks": "week", "a": "year"}


class Period(Struct, frozen=True):
    """A price of one week, month or year (`unit`)."""

    price: Decimal
    currency: str
    unit: str


def period_of(event: Event) -> Period | None:
    """The price by the week, month or year that an agreement names: `18 GBP a month`, or
    `rate 18 GBP/month`."""
    detail = event.first("amount")
    if detail is not None and detail.measure is not None:
        unit = next((word for word in detail.words.split() if word in _UNITS and word != "a"), "")
        return _period(detail.measure, unit) if unit else None
    measure = event.measure("rate")
    return None if measure is None else _period(measure, measure.per or "")


def _period(measure: Measure, unit: str) -> Period | None:
    known = _UNITS.get(unit)
    return Period(measure.number, measure.unit, known) if known else None


def periods_between(first: date, last: date, unit: str) -> Decimal:
    """How many weeks, months or years lie between two days, parts of one too."""
    if unit == "week":
        return Decimal((last - first).days) / 7
    months = 12 if unit == "year" else 1
    whole = 0
    while _later(first, (whole + 1) * months) <= last:
        whole += 1
    begun, next_ = _later(first, whole * months), _later(first, (whole + 1) * months)
    return whole + Decimal((last - begun).days) / (next_ - begun).days


def _later(day: date, months: int) -> date:
    """The same day so many months later, or the last of a shorter month."""
    year, month = divmod(day.year * 12 + day.month - 1 + months, 12)
    return date(year, month + 1, min(day.day, monthrange(year, month + 1)[1]))
