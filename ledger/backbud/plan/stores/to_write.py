"""Words what a grower must write down of a material, as a line that can be copied."""

from __future__ import annotations

from backbud.bench.wire import METALS
from backbud.plan.stores.values import Material
from backbud_grammar.handles import handle_of


def amount_of_money(amount: int, currency: str) -> str:
    """An amount as a grower would write it in this journal; "" where no currency is known yet."""
    return f"{amount} {currency}" if currency else ""


def card_to_write(material: Material, currency: str) -> str:
    """The card that a material lacks, in a line: it works as it stands, each comma a new line."""
    sold, price, more = "bag of 14 L", 17, ""
    if material.metal:
        metal = METALS[material.metal].name.split()[-1]
        sold, price, more = "roll of 1 kg", 24, f", metal {metal}"
    elif not material.unit:
        sold, price = "box of 50", 12
    handle = handle_of(material.title)
    name = "" if handle == material.title else f"name {material.title}, "
    card = f"material {handle or 'HANDLE'}, {name}sold in {sold}"
    if not currency:
        return f"a card: {card}{more} (its price too, once backbud.toml names your currency)"
    return f"a card: {card}, price {amount_of_money(price, currency)}{more}"


def purchase_to_write(currency: str) -> str:
    """What a purchase must say."""
    if not currency:
        return "how much it was, as: bought 3 bags (what it cost too, with the currency's code)"
    return f"how much it was, as: bought 3 bags, {amount_of_money(51, currency)}"


def how_sold(material: Material, currency: str) -> str:
    """What the card of a material must say, so that its measures can be turned into its unit."""
    if not material.carded:
        return card_to_write(material, currency)
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
