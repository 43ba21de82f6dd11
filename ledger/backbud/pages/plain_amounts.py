"""Tells hours and materials in amounts that somebody who owns one tree has a use for."""

from __future__ import annotations

from decimal import Decimal

from backbud.tongue import decimal, phrase
from backbud.words import number

# What is told in the smaller unit below one of the larger, and how many of it are one.
_SMALLER = {"m": ("cm", 100), "L": ("mL", 1000), "kg": ("g", 1000)}
_TENTH = Decimal("0.1")


def hours_and_minutes(minutes: int, *, short: bool = False) -> str:
    """`3 hours 30 minutes`; short, `3 h 30 min`."""
    hours, rest = divmod(minutes, 60)
    if short:
        parts = [f"{hours} h" if hours else "", f"{rest} min" if rest or not hours else ""]
    else:
        parts = [
            number(hours, "hour") if hours else "",
            number(rest, "minute") if rest or not hours else "",
        ]
    return " ".join(part for part in parts if part)


def plain_amount(quantity: Decimal, unit: str, what: str) -> str:
    """`3 m of 3 mm aluminium wire`, `40 cm of raffia`, `2 cakes`: as exactly as it is cut."""
    if unit in _SMALLER and quantity < 1:
        smaller, so_many = _SMALLER[unit]
        quantity, unit = quantity * so_many, smaller
    whole = quantity >= 10 or quantity == quantity.to_integral_value()
    rounded = quantity.quantize(Decimal(1) if whole else _TENTH)
    figure = decimal(f"{rounded.normalize():f}")
    if not unit:
        return f"{figure} {what}" if figure != "1" else what
    return phrase("{figure} {unit} of {what}", figure=figure, unit=unit, what=what)
