"""Rounds amounts of money, and parts a sum so that its parts add up to it again.

All of it is decimal. How many digits a currency has is as ISO 4217 (2015) lists its minor units.
"""

from __future__ import annotations

from decimal import ROUND_DOWN, ROUND_HALF_EVEN, ROUND_HALF_UP, Decimal
from typing import Literal

Rounding = Literal["half up", "half even", "down"]
ROUNDINGS: dict[Rounding, str] = {
    "half up": ROUND_HALF_UP,
    "half even": ROUND_HALF_EVEN,
    "down": ROUND_DOWN,
}
# ISO 4217: the currencies whose minor unit is not a hundredth.
_WHOLE = "BIF CLP DJF GNF ISK JPY KMF KRW PYG RWF UGX UYI VND VUV XAF XOF XPF"
_THOUSANDTHS = "BHD IQD JOD KWD LYD OMR TND"
_DIGITS = {**dict.fromkeys(_WHOLE.split(), 0), **dict.fromkeys(_THOUSANDTHS.split(), 3)}


def digits_of(currency: str) -> int:
    """How many digits stand behind the point: 2 for EUR, 0 for JPY; 2 where nobody says."""
    return _DIGITS.get(currency, 2)


def rounded(amount: Decimal, currency: str = "", how: Rounding = "half up") -> Decimal:
    """An amount in whole minor units of its currency; halves away from nought, unless `how` says
    otherwise."""
    return amount.quantize(Decimal(1).scaleb(-digits_of(currency)), ROUNDINGS[how])


def equal_part(amount: Decimal, among: int, at: int, currency: str = "") -> Decimal:
    """The part of an amount that the one at a place, from 0, has among so many: equal parts, and
    what is left over a minor unit each to the first ones, so that they add up to the amount."""
    if among == 1:
        return rounded(amount, currency)
    unit = Decimal(1).scaleb(-digits_of(currency))
    units = int(rounded(amount, currency) / unit)
    whole, left = divmod(abs(units), among)
    part = (whole + (1 if at < left else 0)) * unit
    return part if units >= 0 else -part
