"""The stores come in; the shelf, what to buy and what could not be reckoned come out as shown."""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal

from msgspec import Struct

from backbud import words
from backbud.pages.amounts import litres
from backbud.pages.drawings.gauge import gauge
from backbud.pages.view import Nursery
from backbud.plan.stores.materials import grams_of
from backbud.plan.stores.shelf import NOTHING
from backbud.plan.stores.to_write import amount_of_money
from backbud.plan.stores.values import Buy, Material, NotReckoned, StockedMaterial, Stores, Want


class For(Struct, frozen=True):
    """A work that wants a material: on which tree, when, how much, and by what that is known."""

    tree: str
    title: str
    when: str
    amount: str
    because: str


class ToBuy(Struct, frozen=True):
    """A material to buy: how much as sold, the reason in a line, a drawing, what it costs."""

    count: str
    name: str
    why: str
    note: str
    drawing: str
    cost: str
    wants: tuple[For, ...]
    works: str


class OnShelf(Struct, frozen=True):
    """A material on hand: how much, in units and as sold, its worth, and what is wrong with it."""

    amount: str
    name: str
    as_sold: str
    year: str
    value: str
    price: str
    wrong: str
    notes: tuple[str, ...]


class MoneySum(Struct, frozen=True):
    """A sum of money as shown, "" where there is none; `bound`: `at least`, `at most`, `about`,
    where not all of it is known."""

    amount: str = ""
    bound: str = ""

    def __str__(self) -> str:
        return f"{self.bound} {self.amount}".lstrip()


class StoresSheet(Struct, frozen=True):
    """All that the stores page shows.

    `wrong`: materials of which more was used than bought; `unentered`: those used of which no
    stock was ever entered; `unreckoned`: how often a work could not be reckoned. `price`, `paid`:
    of the example where nothing is written.
    """

    until: str
    margin: str
    cost: MoneySum
    value: MoneySum
    to_buy: tuple[ToBuy, ...]
    enough: tuple[ToBuy, ...]
    shelf: tuple[OnShelf, ...]
    missing: tuple[NotReckoned, ...]
    wrong: int
    unentered: int
    unreckoned: int
    price: str
    paid: str


def sheet(view: Nursery) -> StoresSheet:
    """The stores as their page shows them, for the keeper's eyes only."""
    return sheet_of(view.stores, view.today.year)


def sheet_of(stores: Stores, year: int) -> StoresSheet:
    """The stores as they are shown in a year."""
    short = [buy for buy in stores.buying if _lacks(buy)]
    shelf = tuple(_on_shelf(kept, stores, year) for kept in stores.shelf)
    return StoresSheet(
        words.full_day(stores.until) if stores.until else "",
        f"{stores.margin_percent:g} %",
        _of_all(stores.cost, stores.currency, less=any(b.cost is None for b in short)),
        _of_all(
            stores.value,
            stores.currency,
            less=any(one.value is None and one.on_hand > NOTHING for one in stores.shelf),
            more=any(one.untold and one.value for one in stores.shelf),
        ),
        tuple(_to_buy(buy, stores, year) for buy in short),
        tuple(_to_buy(b, stores, year) for b in stores.buying if not _lacks(b)),
        shelf,
        stores.missing,
        sum(1 for one in stores.shelf if _is_wrong(one) and one.since is not None),
        sum(1 for one in stores.shelf if _is_wrong(one) and one.since is None),
        sum(one.times for one in stores.missing),
        amount_of_money(17, stores.currency),
        amount_of_money(68, stores.currency),
    )


def _of_all(amount: Decimal, currency: str, *, less: bool = False, more: bool = False) -> MoneySum:
    """A sum of money. `less`: not all of it could be priced; `more`: some of it may be gone."""
    if not amount:
        return MoneySum()
    bound = {(True, False): "at least", (False, True): "at most", (True, True): "about"}
    return MoneySum(money(amount, currency), bound.get((less, more), ""))


def _lacks(buy: Buy) -> bool:
    return buy.short > 0


def _to_buy(buy: Buy, stores: Stores, year: int) -> ToBuy:
    material = buy.material
    why = (
        f"{quantity(buy.with_margin, material)} wanted, {stores.margin_percent:g} % over included; "
        f"{_hand(buy.on_hand, material, buy.entered, buy.untold)}"
    )
    return ToBuy(
        _count(buy) if _lacks(buy) else quantity(max(buy.on_hand - buy.wanted, 0.0), material),
        material.title,
        why,
        "" if buy.count is not None else "How it is sold is not written down.",
        gauge(buy.on_hand, buy.with_margin),
        money(buy.cost, stores.currency) if buy.cost else "",
        tuple(_for(want, material, year) for want in buy.wants),
        words.number(len(buy.wants), "work"),
    )


def _count(buy: Buy) -> str:
    if buy.count is None:
        return quantity(buy.short, buy.material)
    return as_sold(buy.count, buy.material)


def as_sold(count: float, material: Material) -> str:
    """`3 bags of 14 L`, without what one holds; `2.5 bags`."""
    container = material.container or "piece"
    many = f"{container}es" if container.endswith("x") else f"{container}s"
    if count == int(count):
        return words.number(int(count), container, many)
    return f"{words.figure(count, '.1f')} {many}"


def _for(want: Want, material: Material, year: int) -> For:
    return For(
        want.tree,
        want.title,
        words.day(want.day, year),
        quantity(want.quantity, material),
        want.because,
    )


def _on_shelf(kept: StockedMaterial, stores: Stores, year: int) -> OnShelf:
    material = kept.material
    here = max(kept.on_hand, 0.0)
    sold = material.sold_units
    return OnShelf(
        _amount(kept.on_hand, material, kept.since is not None, kept.untold),
        material.title,
        as_sold(here / sold, material) if sold and here > NOTHING and _is_parted(material) else "",
        quantity(kept.year, material) if kept.year else "",
        str(_of_all(kept.value or Decimal(0), stores.currency, more=bool(kept.untold))),
        money(kept.price, stores.currency) if kept.price else "",
        _wrong(kept),
        tuple(_notes(kept, year)),
    )


def _is_parted(material: Material) -> bool:
    """Whether it is counted otherwise than as it is sold."""
    return bool(material.unit) or material.sold_units != 1.0


def _hand(on_hand: float, material: Material, entered: bool, untold: int) -> str:
    amount = _amount(on_hand, material, entered, untold)
    return f"{amount} on hand" if entered else "no stock entered"


def _amount(on_hand: float, material: Material, entered: bool, untold: int) -> str:
    """How much is on hand; where no stock was ever entered nobody knows."""
    if not entered:
        return "not entered"
    if on_hand <= NOTHING:
        return "none"
    return ("at most " if untold else "") + quantity(on_hand, material)


def _is_wrong(kept: StockedMaterial) -> bool:
    return kept.on_hand < -NOTHING


def _wrong(kept: StockedMaterial) -> str:
    if not _is_wrong(kept):
        return ""
    gone = quantity(-kept.on_hand, kept.material)
    if kept.since is None:
        return f"{gone} used, and no stock was entered: write what was bought, or count it."
    return f"{gone} more used than bought: a purchase is missing, or less was used."


def _notes(kept: StockedMaterial, year: int) -> Iterator[str]:
    material = kept.material
    if not material.carded:
        yield "It has no card."
    weight = grams_of(kept.on_hand, material) if kept.on_hand > 0 else None
    if weight is not None:
        yield f"About {weight:.0f} g."
    if kept.untold:
        yield f"{words.number(kept.untold, 'use')} of it not taken off: how much is not written."
    if kept.reckoned and kept.on_hand > 0:
        yield f"{quantity(kept.reckoned, material)} of what went is reckoned."
    if kept.counted is not None:
        yield f"Counted {words.day(kept.counted, year)}."


# ------------------------------------------------------------------ how figures are shown


def quantity(value: float, material: Material) -> str:
    """`4.5 L`, `80 mL`, `12 m`, `350 g`, `3 sheets`: as exact as a store is counted."""
    unit = material.unit
    if unit == "L":
        return litres(value)
    if unit == "kg":
        kg = f"{words.figure(value, '.1f')} kg"
        return f"{words.figure(value * 1000, '.0f')} g" if value < 1 else kg
    if unit == "m":
        return f"{words.figure(value, '.1f' if value < 10 else '.0f')} m"
    if material.sold_units in (None, 1.0):
        return as_sold(round(value, 1), material)
    return words.number(round(value), "piece")


def money(amount: Decimal, currency: str) -> str:
    """`84.00 EUR`; with no currency where none is known."""
    return f"{words.figure(amount, '.2f')} {currency}".rstrip()
