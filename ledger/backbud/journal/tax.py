"""Reads `[tax]` of the settings: the tax on what is billed, and how sums of money are rounded."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from decimal import Decimal
from typing import Any, Literal

from msgspec import Struct

from backbud.bench.money import ROUNDINGS, Rounding
from backbud.journal.wrong_setting import WrongSetting
from backbud_grammar.problems import did_you_mean

Prices = Literal["with tax", "before tax"]
_RATES = ("rate", "work", "materials")
_TEXTS = ("name", "number")
_CHOICES: Mapping[str, tuple[str, ...]] = {
    "prices": ("with tax", "before tax"),
    "each": ("sum", "line"),
    "rounding": tuple(ROUNDINGS),
}
_KNOWN = (*_RATES, *_TEXTS, *_CHOICES)
_EXAMPLE = "For example, below [tax]:"


class Tax(Struct, frozen=True):
    """The tax on what is billed.

    `name`: what it is called. `number`: under which the keeper is registered for it, "" for none.
    `rate`: percent; None where no tax is written down, so that none is spoken of. `work`,
    `materials`: percent of these, where they have another. `prices`: whether the diary's prices
    have it in them already. `each`: whether it is rounded once for each rate (EN 16931, BR-CO-17),
    or for each line. `rounding`: of halves.
    """

    name: str = "tax"
    number: str = ""
    rate: Decimal | None = None
    work: Decimal | None = None
    materials: Decimal | None = None
    prices: Prices = "with tax"
    each: Literal["sum", "line"] = "sum"
    rounding: Rounding = "half up"

    def rate_of(self, sort: str) -> Decimal | None:
        """Percent on a line of this sort: a material, or work."""
        own = self.materials if sort == "material" else self.work
        return self.rate if own is None else own


NO_TAX = Tax()


def read_tax(value: Mapping[str, Any]) -> Tax:
    """The tax of a sound table."""
    kept: dict[str, Any] = {
        key: Decimal(str(one)) if key in _RATES else one.strip() if key in _TEXTS else one
        for key, one in value.items()
    }
    return Tax(**kept)


def wrong_in_tax(value: object) -> Iterator[WrongSetting]:
    """What is wrong with the table."""
    if not isinstance(value, dict):
        yield WrongSetting("“tax” is a table", f"{_EXAMPLE} rate = 20")
        return
    for key, one in value.items():
        if key not in _KNOWN:
            hint = did_you_mean(key, _KNOWN, _known())
            yield WrongSetting(f"“{key}” is no setting of [tax]", hint, key)
        elif key in _RATES and not _is_percent(one):
            message = f"“{key}” of [tax] is a percentage from 0 to 100"
            yield WrongSetting(message, f"{_EXAMPLE} {key} = 20", key)
        elif key in _TEXTS and not isinstance(one, str):
            yield WrongSetting(f"“{key}” of [tax] is a text", f'{_EXAMPLE} {key} = "…"', key)
        elif key in _CHOICES and one not in _CHOICES[key]:
            said = " or ".join(f"“{word}”" for word in _CHOICES[key])
            hint = f'{_EXAMPLE} {key} = "{_CHOICES[key][0]}"'
            yield WrongSetting(f"“{key}” of [tax] is {said}", hint, key)
    if value and "rate" not in value and set(value) <= set(_KNOWN):
        yield WrongSetting("[tax] says no rate", f"{_EXAMPLE} rate = 20")


def _is_percent(value: object) -> bool:
    is_number = isinstance(value, (int, float)) and not isinstance(value, bool)
    return is_number and 0 <= float(str(value)) <= 100


def _known() -> str:
    return f"Known: {', '.join(_KNOWN)}."
