"""A material that cannot be counted goes in; what to write on a card of it comes out."""

from __future__ import annotations

from backbud.bench.wire import METALS
from backbud.plan.stores.values import Material
from backbud_grammar.handles import handle_of


def card_to_write(material: Material) -> str:
    """The card that a material lacks, in a line: it works as it stands, each comma a new line."""
    handle = handle_of(material.title)
    name = "" if handle == material.title else f"name {material.title}, "
    return f"a card: material {handle or 'HANDLE'}, {name}{_as_sold(material)}"


def _as_sold(material: Material) -> str:
    if material.metal:
        metal = METALS[material.metal].name.split()[-1]
        return f"sold in roll of 1 kg, price 24 EUR, metal {metal}"
    return f"sold in {'bag of 14 L, price 17' if material.unit else 'box of 50, price 12'} EUR"


def how_sold(material: Material) -> str:
    """What the card of a material must say, so that its measures can be turned into its unit."""
    if not material.carded:
        return card_to_write(material)
    if material.unit == "kg":
        return (
            f"its weight, as: fed 20 g with {material.key}; or on its card how many are in one, "
            f"as: sold in {material.container or 'box'} of 200"
        )
    if not material.unit and material.sold_units is not None:
        return "how many pieces it was: its card counts it by the piece"
    if material.unit == "m":
        return "the metal and, in its name, the thickness of the wire"
    return "on its card how it is sold, and its density: sold in bag of 14 L, density 0.6 kg/L"
