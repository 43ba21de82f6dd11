"""Says a temperature as print sets it: with a minus that is one, never minus nought."""

from __future__ import annotations


def degrees(celsius: float, form: str = "g") -> str:
    """`−5 °C`, to as many places as `form` asks for."""
    return f"{celsius:z{form}} °C".replace("-", "\N{MINUS SIGN}")
