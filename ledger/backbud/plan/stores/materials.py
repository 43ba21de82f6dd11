"""Finds the material that a work speaks of, and the unit and price by which it is counted.

A work may take what has no card: that is a material too, so that the shelf can ask for its card.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence
from decimal import Decimal

from msgspec.structs import replace

from backbud.bench.mixes import known_ingredient
from backbud.bench.wire import METALS, mass_g, metres_per_roll
from backbud.journal.things import Thing, Things
from backbud.plan.stores.values import Material
from backbud.plan.vessels import parts_of_card
from backbud.tongue import phrase
from backbud_grammar.measures import Measure, convert

_UNIT_OF = {"volume": "L", "mass": "kg", "length": "m", "number": ""}
_COUNTABLE = "bag roll bottle box tub sheet bale"
# Words that stand for one as it is sold, in one and in many.
_CONTAINERS: Mapping[str, str] = {
    **{word: word for word in _COUNTABLE.split()},
    **{f"{word}s": word for word in _COUNTABLE.split()},
    "boxes": "box",
}
_COUNTED = "piece pieces cake cakes pellets spoon spoons handfuls seeds plants trees"
_PIECES = frozenset(_COUNTED.split())
# Of a handle too: aluminium-wire-3-mm; but 2-5-mm does not say what is meant.
_THICKNESS = re.compile(r"(?<!\d)(?<!\d[-.,])(\d+(?:[.,]\d+)?)[\s-]*mm\b")
_ACROSS = re.compile(r"(?<!\d)(\d+(?:\.\d+)?)[\s-]*cm\b")
# So near is one thickness of wire to another as it is sold.
_SAME_MM = 0.01


class Materials:
    """Every material, by its key; those without a card too, once a work has spoken of them."""

    def __init__(self, things: Things) -> None:
        self._things = things
        ingredients = {
            name.casefold() for mix in things.of_kind("mix") for name in parts_of_card(mix)
        }
        self.by_key: dict[str, Material] = {
            card.handle: material_of(card, _is_ingredient(card, ingredients))
            for card in things.of_kind("material")
        }
        # What has no card has no other name than the one it was asked for by.
        self._titles = {one.title.casefold(): one for one in self.by_key.values()}
        self._by_word: dict[str, Material] = {}
        for one in self.by_key.values():
            for word in re.split(r"[\s-]+", f"{one.key} {one.title}".casefold()):
                self._by_word.setdefault(word, one)

    def named(self, written: str) -> Material | None:
        """The material of that handle, today's or a former one."""
        found = self._things.find(written)
        return self.by_key.get(found.handle) if found is not None else None

    def ingredient(self, name: str) -> Material:
        """The material that an ingredient of a mix is, by its handle or a word of its name."""
        found = self.named(name)
        if found is None:
            found = self._titles.get(known_ingredient(name, self._titles))
        return found or self._without_card(Material(name, name, "L", carded=False))

    def wire(self, metal: str, thickness_mm: float) -> Material:
        """The wire of a metal (Al, Cu) and a thickness."""
        for one in self.by_key.values():
            if one.metal == metal and _are_as_thick(one, thickness_mm):
                return one
        key = f"{METALS[metal].name} wire {thickness_mm:g} mm"
        title = phrase("{metal} wire {mm:g} mm", metal=phrase(METALS[metal].name), mm=thickness_mm)
        return self._without_card(
            Material(key, title, "m", carded=False, metal=metal, thickness_mm=thickness_mm)
        )

    def moss(self) -> Material:
        """The moss that is laid on a pot."""
        for word in ("moss", "sphagnum"):
            found = self._only(word)
            if found is not None:
                return found
        return self.ingredient("moss")

    def mesh(self) -> Material:
        """The mesh that lies over the holes of a pot."""
        return self._only("mesh") or self._without_card(
            Material("mesh", phrase("mesh"), "", carded=False)
        )

    def pots(self, across_cm: float) -> Material:
        """The nursery pots of a width, by a card of pots that tells it."""
        for one in self.by_key.values():
            words = re.split(r"[\s-]+", f"{one.key} {one.title}".casefold())
            told = _ACROSS.findall(f"{one.key} {one.title}".casefold())
            if ("pots" in words or "pot" in words) and f"{across_cm:g}" in told:
                return one
        title = phrase("pots {cm:g} cm", cm=across_cm)
        key = f"pots {across_cm:g} cm"
        return self._without_card(Material(key, title, "", carded=False))

    def cakes(self) -> Material:
        """The feed that is given by the cake, where the line does not name it."""
        return (
            self._only("cakes")
            or self._only("cake")
            or self._without_card(Material("feed cakes", phrase("feed cakes"), "", carded=False))
        )

    def let_go(self) -> Sequence[Material]:
        """Forget what has no card, and tell what that was."""
        spoken_of = [one for one in self.by_key.values() if not one.carded]
        for one in spoken_of:
            del self.by_key[one.key]
        return spoken_of

    def would_find(self, spoken_of: Iterable[Material]) -> bool:
        """Whether what was spoken of while nothing else without a card was would be the very same
        now."""
        for one in spoken_of:
            known = self.by_key.get(one.key)
            if known is not None and known != one:
                return False
            # Of what is known already nothing else here may be found in its stead.
            if known is None and any(
                _may_be(one, other) for other in self.by_key.values() if not other.carded
            ):
                return False
        return True

    def _only(self, word: str) -> Material | None:
        """The first material that has the word in its handle or its name."""
        return self._by_word.get(word)

    def _without_card(self, material: Material) -> Material:
        return self.by_key.setdefault(material.key, material)


def _may_be(one: Material, other: Material) -> bool:
    """Whether who asks for one may find another in its stead: a wire by its thickness, pots by a
    word."""
    if one.metal or other.metal:
        return one.metal == other.metal and _are_as_thick(one, other.thickness_mm or 0)
    return "pot" in f"{other.key} {other.title}".casefold()


def _are_as_thick(wire: Material, thickness_mm: float) -> bool:
    return abs((wire.thickness_mm or 0) - thickness_mm) < _SAME_MM


def _is_ingredient(card: Thing, ingredients: set[str]) -> bool:
    return card.handle in ingredients or card.title.casefold() in ingredients


def material_of(card: Thing, ingredient: bool = False) -> Material:
    """The material of a card; `ingredient`: a mix is made of it, so it is counted in litres."""
    sold, price, density = (card.measure(label) for label in ("sold in", "price", "density"))
    container = ""
    if (detail := card.detail("sold in")) is not None:
        word = detail.words.removesuffix(" of")
        container = _CONTAINERS.get(word, word if word != "pieces" else "")
    metal = _metal(card.text("metal"))
    plain = Material(
        card.handle,
        card.title,
        _unit(sold, ingredient, card.measure("label") is not None),
        container=container,
        price=price.number if price is not None else None,
        currency=price.unit if price is not None else "",
        metal=metal,
        thickness_mm=_thickness_mm(card.title) if metal else None,
        density_kg_per_litre=_kg_per_litre(density),
    )
    if plain.thickness_mm is not None:
        plain = replace(plain, unit="m")
    return plain if sold is None else replace(plain, sold_units=_in_unit(sold, plain))


def _unit(sold: Measure | None, ingredient: bool, is_feed: bool) -> str:
    if sold is not None:
        return _UNIT_OF[sold.sort]
    return "L" if ingredient else "kg" if is_feed else ""


def _kg_per_litre(density: Measure | None) -> float | None:
    if density is None:
        return None
    try:
        return density.within("kg") / float(convert(Decimal(1), density.per, "L"))
    except ValueError:
        return None


def _metal(words: str) -> str:
    return {"al": "Al", "cu": "Cu", "co": "Cu"}.get(words[:2].casefold(), "")


def _thickness_mm(title: str) -> float | None:
    found = _THICKNESS.search(title)
    return float(found[1].replace(",", ".")) if found else None


def amount_of(measure: Measure, words: str, material: Material) -> float | None:
    """How much of a material, in its unit, a measure is; None where the card does not tell.

    `words`: what stood beside it. A bare number counts as many as sold.
    """
    if measure.sort != "number":
        return _in_unit(measure, material)
    number = float(measure.number)
    if any(word in _PIECES for word in words.split()):
        return number if material.unit == "" else None
    if material.sold_units is None:
        # Pieces that nobody said how many are sold together.
        return number if material.unit == "" and not material.container else None
    return number * material.sold_units


def _in_unit(measure: Measure, material: Material) -> float | None:
    """The measure in the material's unit, by its density or as wire where that is needed."""
    unit, density = material.unit, material.density_kg_per_litre
    if measure.sort == "number":
        return float(measure.number) if unit == "" else None
    if _UNIT_OF.get(measure.sort) == unit:
        return measure.within(unit)
    if measure.sort == "mass" and unit == "m":
        return _metres(measure.within("kg"), material)
    if measure.sort == "mass" and unit == "L" and density:
        return measure.within("kg") / density
    if measure.sort == "volume" and unit == "kg" and density:
        return measure.within("L") * density
    return None


def _metres(kg: float, wire: Material) -> float | None:
    if wire.thickness_mm is None or kg <= 0:
        return None
    return metres_per_roll(kg, wire.thickness_mm, METALS[wire.metal].density_g_per_cm3)


def grams_of(metres: float, wire: Material) -> float | None:
    """What so many metres of a wire weigh, in g; None for what is no wire, or for none of it."""
    if wire.thickness_mm is None or metres <= 0:
        return None
    return mass_g(metres, wire.thickness_mm, METALS[wire.metal].density_g_per_cm3)
