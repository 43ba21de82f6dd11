"""Says a temperature as print sets it: with a minus that is one, never minus nought, and the
decimal sign of the language."""

from __future__ import annotations

from backbud.tongue import decimal


def degrees(celsius: float, form: str = "g") -> str:
    """`−5 °C`, to as many places as `form` asks for."""
    return decimal(f"{celsius:z{form}} °C".replace("-", "\N{MINUS SIGN}"))
