"""Writes gallons as those of the country that the settings name; else they stay, and are asked."""

from __future__ import annotations

import re
from fractions import Fraction

# The settings say one of these: `[units] gallon = "US"`.
GALLONS = ("US", "UK")
_NUMBER = r"(?:\d+ \d/\d|\d/\d|\d+(?:[.,]\d+)?|[.,]\d+)"
_GALLON = re.compile(rf"(?P<number>{_NUMBER}) ?gal(?:lon)?s?\b\.?", re.IGNORECASE)
# A quarter of the gallon of its country.
_QUART = re.compile(rf"(?P<number>{_NUMBER}) ?(?:qts?|quarts?)\b\.?", re.IGNORECASE)
_A_GALLON = r" ?(?:/|to the|a|per) ?gal(?:lon)?\b\.?"
_SPOON = re.compile(
    rf"(?P<number>{_NUMBER}) ?(?P<spoon>tbsp?|tbs|tblsp|tsp)s?\.?{_A_GALLON}", re.IGNORECASE
)
# Shares of a US gallon: 16 tablespoons to the cup, 16 cups to the gallon, three teaspoons to the
# tablespoon; the tests hold it against pint. Of the spoons of the UK we have no such measure.
_SPOONS = {"tb": Fraction(1, 256), "ts": Fraction(1, 768)}


def with_gallons(text: str, gallon: str) -> str:
    """The text with gallons of a country, and spoons to the US gallon as mL/L.

    >>> with_gallons("2 gal, 1 tbs/gal", "US"), with_gallons("3 qt", "UK")
    ('2 US gal, 3.91 mL/L', '0.75 UK gal')
    """
    if gallon not in GALLONS:
        return text
    if gallon == "US":
        text = _SPOON.sub(_of_litre, text)
    text = _QUART.sub(lambda one: f"{float(_sum(one['number']) / 4):g} {gallon} gal", text)
    return _GALLON.sub(lambda one: f"{one['number']} {gallon} gal", text)


def _of_litre(found: re.Match[str]) -> str:
    share = _SPOONS[found["spoon"][:2].casefold()]
    return f"{float(_sum(found['number']) * share * 1000):.2f} mL/L"


def _sum(number: str) -> Fraction:
    """`1 1/2` and `2,5` as they count."""
    return sum((Fraction(one.replace(",", ".")) for one in number.split()), Fraction())
