"""Words what a grower must write down of a material, as a line that can be copied."""

from __future__ import annotations

from backbud.bench.wire import METALS
from backbud.plan.stores.values import Material
from backbud.tongue import phrase
from backbud_grammar.handles import handle_of


def amount_of_money(amount: int, currency: str) -> str:
    """An amount as a grower would write it in this journal; "" where no currency is known yet."""
    return f"{amount} {currency}" if currency else ""


def card_to_write(material: Material, currency: str) -> str:
    """The card that a material lacks, in a line: it works as it stands, each comma a new line."""
    sold, price, more = "bag of 14 L", 17, ""
    if material.metal:
        metal = METALS[material.metal].name.split()[-1]
        sold, price, more = "roll of 1 kg", 24, phrase(", metal {metal}", metal=metal)
    elif not material.unit:
        sold, price = "box of 50", 12
    handle = handle_of(material.title)
    name = "" if handle == material.title else phrase("name {title}, ", title=material.title)
    card = phrase(
        "material {handle}, {name}sold in {sold}", handle=handle or "HANDLE", name=name, sold=sold
    )
    if not currency:
        return phrase(
            "a card: {card}{more} (its price too, once backbud.toml names your currency)",
            card=card,
            more=more,
        )
    return phrase(
        "a card: {card}, price {amount_of_money}{more}",
        card=card,
        amount_of_money=amount_of_money(price, currency),
        more=more,
    )


def purchase_to_write(currency: str) -> str:
    """What a purchase must say."""
    if not currency:
        return phrase(
            "how much it was, as: bought 3 bags (what it cost too, with the currency's code)"
        )
    return phrase(
        "how much it was, as: bought 3 bags, {amount_of_money}",
        amount_of_money=amount_of_money(51, currency),
    )


def how_sold(material: Material, currency: str) -> str:
    """What the card of a material must say, so that its measures can be turned into its unit."""
    if not material.carded:
        return card_to_write(material, currency)
    if material.unit == "kg":
        return phrase(
            "its weight, as: fed 20 g with {key}; or on its card how many are in "
            "one, as: sold in {container} of 200",
            key=material.key,
            container=material.container or "box",
        )
    if not material.unit and material.sold_units is not None:
        return phrase("how many pieces it was: its card counts it by the piece")
    if material.unit == "m":
        return phrase("the metal and, in its name, the thickness of the wire")
    return phrase(
        "on its card how it is sold, and its density: sold in bag of 14 L, density 0.6 kg/L"
    )
