"""Finds what a material costs that a customer's tree took: by the last price known on the day."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from decimal import Decimal

from backbud.bench.wire import METALS
from backbud.collection.state import Entry
from backbud.collection.whereabouts import Histories
from backbud.journal.events import Event
from backbud.journal.things import Things
from backbud.plan.stores.materials import Materials, amount_of
from backbud.plan.stores.values import Material
from backbud.tongue import phrase
from backbud.visits.charges import MaterialCharge


class Prices:
    """The prices of the journal's materials."""

    def __init__(self, histories: Histories, things: Things, currency: str) -> None:
        self._materials, self._currency = Materials(things), currency
        # All that prices are taken from, beside the cards.
        self.events: Mapping[str, Sequence[Event]] = {
            key: priced
            for key, events in histories.others.items()
            if (priced := tuple(event for event in events if event.act == "priced"))
        }

    def taken(self, entry: Entry) -> tuple[MaterialCharge, ...]:
        """What a line of `used` took of each material, this tree's part of it."""
        found = []
        for detail in entry.event.all("material"):
            measure, material = detail.measure, self._materials.named(detail.handle)
            if measure is None or material is None:
                continue
            quantity = amount_of(measure, detail.words, material)
            if quantity is None:
                title = f"{material.title}, {detail.words or measure}"
                found.append(MaterialCharge(title, Decimal(1), "", None))
                continue
            part = Decimal(repr(quantity)) / entry.divided_by(detail)
            price = self._unit_price(material.key, entry.event)
            found.append(MaterialCharge(_called(material), part, material.unit, price))
        return tuple(found)

    def _unit_price(self, key: str, when: Event) -> Decimal | None:
        """What a unit of a material cost on a day: by the last price before it, else its card."""
        material = self._materials.by_key[key]
        sold = material.sold_units
        if not sold:
            return None
        price = material.price if material.currency in ("", self._currency) else None
        for event in self.events.get(key, ()):
            amount = event.measure("amount")
            if event.day <= when.day and amount is not None and amount.unit in ("", self._currency):
                price = amount.number
        return None if price is None else price / Decimal(repr(sold))


def _called(material: Material) -> str:
    """What somebody who never saw the shelf calls it: wire as wire, by its thickness where its card
    has no other name."""
    if not material.metal:
        return material.title
    if material.title == material.key and material.thickness_mm:
        return f"{METALS[material.metal].name} wire {material.thickness_mm:g} mm"
    named = "wire" in material.title.casefold()
    return material.title if named else phrase("{title} wire", title=material.title)
