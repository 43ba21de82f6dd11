"""Gathers what each tree took of every material: as somebody wrote it, else as it is reckoned.

What is written with `used` stands for what would be reckoned: of a wire for all wire put on that
tree on that day, and for its branches in the two months before (it is often weighed when the bill
is made); of anything else for that material on that tree and day.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from datetime import date
from decimal import Decimal
from functools import partial
from typing import NamedTuple, TypeVar

from backbud.bench.mixes import needed
from backbud.bench.pots import CM3_PER_LITRE, soil_surface_cm2
from backbud.collection.fold import each_after
from backbud.collection.on_tree import put_on_by
from backbud.collection.state import Entry, Tree
from backbud.collection.whereabouts import Histories
from backbud.journal.events import Event
from backbud.journal.things import Things
from backbud.plan.stores.feed_dose import Untold, by_what, of_the_feed
from backbud.plan.stores.figures import MOSS_LAYER
from backbud.plan.stores.materials import Materials, amount_of
from backbud.plan.stores.metres import metal_of, metres_on, staples
from backbud.plan.stores.of_batch import is_potted_singly, potted
from backbud.plan.stores.soil import Soil, soil_of_potting
from backbud.plan.stores.takers import ON_TOP, OTHER, takes_material, takes_mix, takes_wire
from backbud.plan.stores.to_write import how_sold
from backbud.plan.stores.values import Material, NotReckoned, Sort, Spent
from backbud.plan.stores.written_first import covered
from backbud.plan.vessels import Unknown, parts_of_card, pot_of_card
from backbud.plan.world import ByTree
from backbud.tongue import phrase
from backbud_grammar.measures import Measure
from backbud_grammar.syntax import Detail

T = TypeVar("T")

_SORTS: Mapping[str, Sort] = {"wire": "wire", "guy": "wire", "tie": "tie"}


_Dose = tuple[Material, float] | Untold | None


class Noted(NamedTuple):
    """What was noted while one tree was looked at: what is untold and missing of it; and materials
    without a card that were first spoken of there."""

    untold: dict[str, list[date]]
    missing: dict[tuple[str, str], list[str]]
    spoken_of: dict[str, Material]


class TakenByTrees:
    """What the trees of a journal took until a day, as they are taken, and what could not be
    reckoned."""

    def __init__(
        self,
        histories: Histories,
        things: Things,
        materials: Materials,
        figures: Mapping[str, float],
        today: date,
        currency: str = "",
        by_tree: ByTree | None = None,
    ) -> None:
        """`currency`: the journal's, in which prices are asked for."""
        self.things, self.materials, self.figures = things, materials, figures
        self.currency = currency
        self.by_tree: dict[str, tuple[Spent, ...]] = {}
        self.untold: dict[str, list[date]] = {}
        self._doses: dict[int, tuple[tuple[Detail, ...], _Dose]] = {}
        self._missing: dict[tuple[str, str], list[str]] = {}
        self._histories, self._today, self.kept = histories, today, by_tree or ByTree()

    def take(self, handle: str) -> None:
        """Gather what one tree took; all trees in their order tell everything."""
        spent = self.once("taken", handle, partial(self._by, handle, self._histories, self._today))
        if spent is not None:
            self.by_tree[handle] = spent

    def take_alone(self, handle: str) -> None:
        """Make the same of a tree ahead, as if no other had taken anything."""
        self.take(handle)
        spoken_of = self.materials.let_go()
        if not all(one.metal for one in spoken_of):
            self._doses = {}

    def once(self, what: str, handle: str, work: Callable[[], T], *more: object) -> T:
        """What was made of a tree's own, and with it what was noted on the way.

        `more`: what else it was made from.
        """

        def noting() -> tuple[T, Noted]:
            before, known = (self.untold, self._missing), set(self.materials.by_key)
            self.untold, self._missing = {}, {}
            try:
                made = work()
                spoken_of = {k: m for k, m in self.materials.by_key.items() if k not in known}
                return made, Noted(self.untold, self._missing, spoken_of)
            finally:
                self.untold, self._missing = before

        # Which materials were spoken of before says which wire is the same as which.
        spoken_of = tuple(self.materials.by_key)
        made, noted = self.kept.once(
            what, handle, self._histories, self.things, noting, spoken_of, *more
        )
        if not self.materials.would_find(noted.spoken_of.values()):
            # It was made while less was spoken of.
            made, noted = noting()
        for key, days in noted.untold.items():
            self.untold.setdefault(key, []).extend(days)
        for said, trees in noted.missing.items():
            self._missing.setdefault(said, []).extend(trees)
        for key, material in noted.spoken_of.items():
            self.materials.by_key.setdefault(key, material)
        return made

    def _by(self, handle: str, histories: Histories, today: date) -> tuple[Spent, ...] | None:
        """What one tree took; None where nothing was done that takes anything."""
        entries = [
            (n, entry)
            for n, entry in enumerate(histories.trees[handle].entries)
            if takes_material(entry.event.row)
            and not entry.undone
            and entry.event.day <= today
            # What its batch took is the batch's.
            and not entry.within
        ]
        if not entries:
            return None
        # Only what is put on and potted asks what the tree was before and after.
        asking = (n for n, e in entries if e.event.act not in OTHER)
        counts = {m for n in asking for m in (n, n + 1)}
        trees = each_after(histories, self.things, handle, counts, only_vessel=True)
        return tuple(covered(list(self._of(entries, dict(trees)))))

    def missing(self) -> tuple[NotReckoned, ...]:
        """What could not be reckoned, each once."""
        return tuple(
            NotReckoned(*said, tuple(dict.fromkeys(filter(None, trees))), len(trees))
            for said, trees in self._missing.items()
        )

    def cannot(self, what: str, to_write: str, tree: str = "") -> None:
        """Note what cannot be reckoned, of which tree, and what to write down so that it can."""
        self._missing.setdefault((what, phrase(to_write)), []).append(tree)

    def _untold(self, material: Material, by: str, day: date) -> None:
        """Note a use of a material whose amount nobody can tell."""
        self.untold.setdefault(material.key, []).append(day)
        self.cannot(f"{material.title}, {by}", how_sold(material, self.currency))

    def _of(
        self, entries: Sequence[tuple[int, Entry]], trees: Mapping[int, Tree]
    ) -> Iterator[Spent]:
        for n, entry in entries:
            event = entry.event
            if event.act == "used":
                yield from self._used(entry)
                continue
            if takes_mix(event.row):
                yield from self._soil(entry, trees[n], trees[n + 1])
            if takes_wire(event.row):
                yield from self._wire(event, trees[n + 1])
            if event.act == "fed":
                yield from self._fed(entry)

    # -------------------------------------------------------------- as written

    def _used(self, entry: Entry) -> Iterator[Spent]:
        event = entry.event
        for detail in event.all("material"):
            measure = detail.measure
            if measure is None:
                continue
            share = 1 / entry.divided_by(detail)
            card = self.things.find(detail.handle)
            if card is not None and card.kind == "mix":
                if measure.sort == "volume":
                    litres = measure.within("L") * share
                    yield from self.of_mix(card.handle, litres, event, "used", reckoned=False)
                else:
                    self.cannot(
                        phrase("used {title}", title=card.title),
                        phrase("its litres: used {handle} 2 L", handle=card.handle),
                    )
                continue
            material = self.materials.named(detail.handle)
            if material is None:
                continue
            amount = amount_of(measure, detail.words, material)
            if amount is None:
                self._untold(
                    material, phrase("used by the {by_what}", by_what=by_what(detail)), event.day
                )
                continue
            sort: Sort = "wire" if material.metal else "other"
            yield _spent(material, amount * share, event, sort, "used", reckoned=False)

    def of_mix(
        self, mix: str, litres: float, event: Event, what: str, *, reckoned: bool
    ) -> Iterator[Spent]:
        """The ingredients that so many loose litres of a mix take from their bags, sieved."""
        for name, amount in self.ingredients(mix, litres):
            yield _spent(name, amount, event, "soil", what, reckoned=reckoned)

    def ingredients(self, mix: str, litres: float) -> list[tuple[Material, float]]:
        """The materials of a mix, each in its unit; what has no recipe is noted."""
        card = self.things.find(mix) if mix else None
        parts = parts_of_card(card) if card is not None else {}
        try:
            wanted = needed(parts, litres)
        except ValueError:
            what = (
                phrase("the mix {title}", title=card.title)
                if card is not None
                else phrase("a mix that nobody named")
            )
            self.cannot(what, phrase("a card of the mix, with its ingredients by parts of volume"))
            return []
        found = []
        for one in wanted:
            material = self.materials.ingredient(one.ingredient)
            amount = amount_of(_litres(one.litres_before_sieving), "", material)
            if amount is None:
                self.cannot(
                    phrase("{title}, by the litre", title=material.title),
                    how_sold(material, self.currency),
                )
            else:
                found.append((material, amount))
        return found

    # -------------------------------------------------------------- pottings

    def _soil(self, entry: Entry, before: Tree, after: Tree) -> Iterator[Spent]:
        event = entry.event
        written = [d for d in event.all("mix") if d.measure and d.measure.sort == "volume"]
        bare = event.first("quantity") if event.act == ON_TOP else None
        if bare is not None and bare.measure is not None and bare.measure.sort == "volume":
            written.append(bare)
        for detail in written:
            assert detail.measure is not None
            litres = detail.measure.within("L") / entry.divided_by(detail)
            if detail.share == "each":
                litres *= entry.of or before.count
            mix = detail.handle or after.mix
            yield from self.of_mix(mix, litres, event, event.act, reckoned=False)
        if "fills_pot" in event.row.traits and is_potted_singly(before):
            yield from self._batch(entry, before, after, reckoned=not written)
        elif not written and "fills_pot" in event.row.traits:
            found = soil_of_potting(event, before, after.pot, after.mix, self.things, self.figures)
            if isinstance(found, Unknown):
                what = phrase(
                    "the mix it was {act} in, {text}",
                    act=phrase(event.act),
                    text=event.when.day_or_text,
                )
                self.cannot(what, found.to_write, before.title)
            elif isinstance(found, Soil) and found.litres > 0:
                yield from self.of_mix(after.mix, found.litres, event, event.act, reckoned=True)
        if event.has("moss") and (event.act == ON_TOP or "fills_pot" in event.row.traits):
            yield from self._moss(event, after)

    def _batch(self, entry: Entry, before: Tree, after: Tree, *, reckoned: bool) -> Iterator[Spent]:
        """The pots, and the mix where nobody wrote it, of a batch that is potted."""
        event, mix = entry.event, entry.event.first("mix")
        named = self.things.find(mix.handle) if mix is not None and mix.handle else None
        handle = named.handle if named is not None else after.mix
        found = potted(event, entry.of, before, handle, self.things, self.figures)
        if isinstance(found, Unknown):
            if reckoned:
                what = phrase(
                    "the mix it was {act} in, {text}",
                    act=phrase(event.act),
                    text=event.when.day_or_text,
                )
                self.cannot(what, found.to_write, before.title)
            return
        if reckoned:
            yield from self.of_mix(handle, found.litres, event, event.act, reckoned=True)
        if found.across_cm is not None:
            pots = self.materials.pots(found.across_cm)
            if pots.unit == "":
                number = float(found.number)
                yield _spent(pots, number, event, "other", event.act, reckoned=False)

    def _moss(self, event: Event, tree: Tree) -> Iterator[Spent]:
        """Moss on top; around a layer or a collected root ball it is not reckoned."""
        card = self.things.find(tree.pot) if tree.pot else None
        pot, _ = pot_of_card(card, self.figures) if card is not None else (None, "")
        if pot is not None:
            litres = soil_surface_cm2(pot) * MOSS_LAYER.among(self.figures) / CM3_PER_LITRE
            amount = amount_of(_litres(litres), "", self.materials.moss())
            if amount is not None:
                moss = self.materials.moss()
                yield _spent(moss, amount, event, "on top", event.act, reckoned=True)

    # -------------------------------------------------------------- wire

    def _wire(self, event: Event, tree: Tree) -> Iterator[Spent]:
        put_on = put_on_by(event.row)
        for thing in put_on(event).put if put_on is not None else ():
            if thing.sort == "mesh":
                yield from self._mesh(event, thing.count)
                continue
            if thing.thickness_mm is None:
                if thing.sort == "wire":
                    self.cannot(phrase("a wiring without its wire"), "wired 2 mm Al on left 2")
                continue
            wire = self.materials.wire(metal_of(thing.what), thing.thickness_mm)
            metres = metres_on(thing, tree, self.things, self.figures)
            what = " ".join(filter(None, (event.act, thing.part)))
            yield _spent(wire, metres, event, _SORTS[thing.sort], what, reckoned=True)

    def _mesh(self, event: Event, pieces: int) -> Iterator[Spent]:
        """Its staples; of the mesh itself nobody knows how many pieces a sheet gives."""
        if pieces < 1:
            return
        thickness_mm, metres = staples(pieces)
        wire = self.materials.wire("Al", thickness_mm)
        yield _spent(wire, metres, event, "tie", phrase("staples of the mesh"), reckoned=True)

    # -------------------------------------------------------------- feed

    def _fed(self, entry: Entry) -> Iterator[Spent]:
        dose = self.dose(entry)
        if isinstance(dose, Untold):
            self._untold_feed(dose, entry.event.day)
        elif dose is not None:
            material, amount = dose
            yield _spent(material, amount, entry.event, "feed", "fed", reckoned=False)

    def _untold_feed(self, dose: Untold, day: date) -> None:
        if dose.material is not None:
            self.untold.setdefault(dose.material.key, []).append(day)
        self.cannot(dose.what, dose.to_write)

    def dose(self, entry: Entry) -> _Dose:
        """What one feeding took of which feed; None where it says nothing of how much."""
        details = entry.event.details
        known = self._doses.get(id(details))
        if known is None:
            # Lines that say the same have the very same details.
            known = self._doses[id(details)] = (details, self._dose(entry.event))
        dose, detail = known[1], entry.event.first("quantity")
        if dose is None or isinstance(dose, Untold) or detail is None:
            return dose
        material, amount = dose
        return material, amount / entry.divided_by(detail)

    def _dose(self, event: Event) -> _Dose:
        """The same of what is written, before it is parted among several trees."""
        detail, named = event.first("quantity"), event.first("with")
        material = self.materials.named(named.handle) if named is not None else None
        if detail is None or detail.measure is None:
            return None
        if material is None:
            if detail.measure.sort != "number":
                return Untold(
                    None,
                    phrase("a feed without its name"),
                    phrase("which, as: fed 20 g with cakes"),
                )
            material = self.materials.cakes()
        measure = of_the_feed(detail, event.measure("strength"))
        if measure is None:
            return Untold(
                material,
                phrase("{title}, given by the litre of water", title=material.title),
                phrase("how strong, as: fed 2 mL/L with {key}, 1 L", key=material.key),
            )
        amount = amount_of(measure, detail.words, material)
        if amount is None:
            by = phrase(
                "{title}, given by the {by_what}", title=material.title, by_what=by_what(detail)
            )
            return Untold(material, by, how_sold(material, self.currency))
        return material, amount


def _litres(litres: float) -> Measure:
    return Measure((Decimal(repr(litres)),), "L", "volume")


def _spent(
    material: Material, quantity: float, event: Event, sort: Sort, what: str, *, reckoned: bool
) -> Spent:
    return Spent(material.key, quantity, event.day, sort, what, reckoned)
