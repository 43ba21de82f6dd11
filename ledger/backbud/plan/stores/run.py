"""Takes the steps of the stores in order, for one journal on one day."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from datetime import date
from decimal import Decimal

from backbud.collection.whereabouts import Histories
from backbud.journal.read import Journal
from backbud.plan.run import Plan
from backbud.plan.stores.buying import buying_of
from backbud.plan.stores.figures import MARGIN
from backbud.plan.stores.materials import Materials
from backbud.plan.stores.shelf import kept_of, shelf_of
from backbud.plan.stores.spent import TakenByTrees
from backbud.plan.stores.to_write import card_to_write
from backbud.plan.stores.values import Buy, NotReckoned, StockedMaterial, Stores
from backbud.plan.stores.wanted import AHEAD, wanted
from backbud.plan.world import ByTree


def stores_of(
    journal: Journal,
    histories: Histories,
    plan: Plan,
    today: date,
    by_tree: ByTree | None = None,
) -> Stores:
    """Return the shelf, and what the year ahead wants. `plan`: of every tree, on that day."""
    taken = taken_by_trees(journal, histories, today, by_tree)
    figures, currency, materials = taken.figures, taken.currency, taken.materials
    for handle in histories.trees:
        taken.take(handle)
    shelf = shelf_of(taken, histories, currency, today)
    wants = tuple(wanted(plan, taken, today))
    margin = max(MARGIN.among(figures), 0.0)
    buying = buying_of(wants, _with_new(shelf, materials, currency, today), margin)
    return Stores(
        currency,
        margin,
        today + AHEAD,
        shelf,
        buying,
        (*taken.missing(), *_without_card(shelf, buying, currency)),
        sum((one.value for one in shelf if one.value is not None), Decimal(0)),
        sum((one.cost for one in buying if one.cost is not None), Decimal(0)),
    )


def taken_by_trees(
    journal: Journal,
    histories: Histories,
    today: date,
    by_tree: ByTree | None = None,
    materials: Materials | None = None,
) -> TakenByTrees:
    """What the trees of a journal took until a day, of which none was asked yet. `materials`: where
    they are known, those with a card."""
    figures, currency = journal.settings.figures, currency_of(journal)
    materials = materials or Materials(journal.things)
    return TakenByTrees(histories, journal.things, materials, figures, today, currency, by_tree)


def _without_card(
    shelf: tuple[StockedMaterial, ...], buying: tuple[Buy, ...], currency: str
) -> Iterator[NotReckoned]:
    """What the works take and no card tells of."""
    all_of = [*(one.material for one in shelf), *(one.material for one in buying)]
    for key, material in {one.key: one for one in all_of}.items():
        if not material.carded:
            yield NotReckoned(key, card_to_write(material, currency))


def currency_of(journal: Journal) -> str:
    """The currency of the settings; else the one in which the first priced card speaks."""
    if journal.settings.currency:
        return journal.settings.currency
    prices = (card.measure("price") for card in journal.things.of_kind("material"))
    return next((price.unit for price in prices if price is not None and price.unit), "")


def _with_new(
    shelf: tuple[StockedMaterial, ...], materials: Materials, currency: str, today: date
) -> Mapping[str, StockedMaterial]:
    """The shelf by key, and with it what no work has taken yet."""
    by_key = {one.material.key: one for one in shelf}
    for key, material in materials.by_key.items():
        if key not in by_key:
            by_key[key] = kept_of(material, (), currency, today)
    return by_key
