"""Takes a bare number for a count where the price is said beside it: `sold 5, 40 EUR`."""

from __future__ import annotations

from msgspec.structs import replace

from backbud_grammar.lexicon import Lexicon
from backbud_grammar.syntax import Detail

_AMOUNT, _QUANTITY = "amount", "quantity"


def count_beside_price(details: list[Detail], lexicon: Lexicon) -> list[Detail]:
    """The details, of which the first is how many, where it can be no price.

    It is a bare whole number, an amount of a currency stands behind it, and nothing else says how
    many; of an act that takes no count they stay as they are.
    """
    amounts = [one for one in details if one.name == _AMOUNT]
    if len(amounts) != 2 or details[0] is not amounts[0] or _QUANTITY not in lexicon.single:
        return details
    bare, price = amounts[0].measure, amounts[1].measure
    if bare is None or price is None or bare.unit or not price.unit or bare.upper is not None:
        return details
    if bare.number % 1 or any(one.name == _QUANTITY for one in details):
        return details
    number = replace(bare, sort="number")
    return [replace(details[0], name=_QUANTITY, measure=number), *details[1:]]
