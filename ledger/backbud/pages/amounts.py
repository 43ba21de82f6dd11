"""Tells litres and days of water in words, no more exactly than an estimate can be."""

from __future__ import annotations

from backbud.plan.water import DAYS_LOOKED_AHEAD
from backbud.tongue import phrase
from backbud.words import figure


def litres(value: float) -> str:
    """`40 mL`, `0.42 L`, `3.5 L`, `28 L`: as exact as an estimate can be."""
    if value < 0.095:
        return phrase("{value} mL", value=figure(value * 1000, ".0f"))
    return f"{figure(value, '.2f' if value < 1 else '.1f' if value < 10 else '.0f')} L"


def half_gone(days: float | None) -> str:
    """`2.5 days`, `twice a day`, `over 60 days`: how long a watered pot keeps half its water."""
    if days is None:
        return phrase("over {days_looked_ahead} days", days_looked_ahead=DAYS_LOOKED_AHEAD)
    if days < 0.75:
        return phrase("{days:.0f} hours", days=days * 24)
    return (
        phrase("{days:.1f} days", days=days) if days < 10 else phrase("{days:.0f} days", days=days)
    )
