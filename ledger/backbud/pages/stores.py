"""Lays out the shelf, what to buy, and what could not be reckoned."""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal

from msgspec import Struct

from backbud import words
from backbud.pages.amounts import litres
from backbud.pages.drawings.standing import standing
from backbud.plan.stores.shelf import NOTHING
from backbud.plan.stores.to_write import amount_of_money
from backbud.tongue import full_day, phrase
from backbud.views.nursery import Nursery
from backbud.views.shelf import (
    BuyView,
    MaterialView,
    MissingView,
    OnHandView,
    ShelfView,
    WantView,
    shelf_view,
)

# So many materials to buy are named in the sentence at the head.
MOST_NAMED = 4
# So many works that want a material are listed, and so many trees of which something is not known;
# of more it is told how many. Ours: a page of thousands of trees must open at once.
MOST_WORKS = 100


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
    """A material on hand: how much, in units and as sold, its worth, and what is wrong with it.

    `wanted`: how much works want of it, and `left` how much is there then, where it is enough;
    `wants`: these works.
    """

    amount: str
    name: str
    as_sold: str
    year: str
    value: str
    price: str
    wrong: str
    notes: tuple[str, ...]
    drawing: str = ""
    wanted: str = ""
    left: str = ""
    wants: tuple[For, ...] = ()


class MoneySum(Struct, frozen=True):
    """A sum of money as shown, "" where there is none; `bound`: `at least`, `at most`, `about`,
    where not all of it is known."""

    amount: str = ""
    bound: str = ""

    def __str__(self) -> str:
        return f"{self.bound} {self.amount}".lstrip()


class StoresSheet(Struct, frozen=True):
    """All that the stores page shows.

    `short`: the shelf in a sentence. `wrong`: materials of which more was used than bought;
    `unentered`: those used of which no stock was ever entered; `unreckoned`: how often a work could
    not be reckoned. `price`, `paid`: of the example where nothing is written.
    """

    short: str
    until: str
    margin: str
    cost: MoneySum
    value: MoneySum
    to_buy: tuple[ToBuy, ...]
    enough: tuple[ToBuy, ...]
    shelf: tuple[OnShelf, ...]
    missing: tuple[MissingView, ...]
    wrong: int
    unentered: int
    unreckoned: int
    price: str
    paid: str


def sheet(view: Nursery) -> StoresSheet:
    """The stores as their page shows them, for the keeper's eyes only."""
    return stores_sheet(shelf_view(view.stores), view.today.year)


def stores_sheet(stores: ShelfView, year: int) -> StoresSheet:
    """The stores as they are shown in a year."""
    return StoresSheet(
        _short(stores),
        full_day(stores.until) if stores.until else "",
        f"{stores.margin_percent:g} %",
        _of_all(stores.cost, stores.currency, less=stores.cost_is_at_least),
        _of_all(
            stores.value,
            stores.currency,
            less=stores.value_is_at_least,
            more=stores.value_is_at_most,
        ),
        tuple(_to_buy(buy, stores, year) for buy in stores.to_buy),
        tuple(_to_buy(buy, stores, year) for buy in stores.buy if not buy.lacks),
        tuple(_on_shelf(one, stores, year) for one in stores.shelf),
        stores.missing,
        stores.overdrawn,
        stores.unentered,
        stores.unreckoned,
        amount_of_money(17, stores.currency),
        amount_of_money(68, stores.currency),
    )


def _short(stores: ShelfView) -> str:
    """`Buy 2 bags of lava and 5.5 m of wire.`; of how much nobody can tell stands beside it."""
    named = [phrase("{count} of {name}", count=_count(buy), name=buy.name) for buy in stores.to_buy]
    until = (
        phrase(" for the works until {full_day}", full_day=full_day(stores.until))
        if stores.until
        else ""
    )
    if not named:
        return phrase(
            "Nothing to buy{until}{value}.",
            until=until,
            value=phrase(", of what could be reckoned") if stores.unreckoned else "",
        )
    shown, more = named[:MOST_NAMED], len(named) - MOST_NAMED
    if more > 0:
        shown.append(phrase("{more} more", more=more))
    listed = (
        ", ".join(shown[:-1]) + phrase(" and {shown}", shown=shown[-1])
        if len(shown) > 1
        else shown[0]
    )
    return phrase("Buy {listed}{until}.", listed=listed, until=until)


def _of_all(amount: Decimal, currency: str, *, less: bool = False, more: bool = False) -> MoneySum:
    """A sum of money. `less`: not all of it could be priced; `more`: some of it may be gone."""
    if not amount:
        return MoneySum()
    bound = {
        (True, False): phrase("at least"),
        (False, True): phrase("at most"),
        (True, True): phrase("about"),
    }
    return MoneySum(words.money(amount, currency), bound.get((less, more), ""))


def _to_buy(buy: BuyView, stores: ShelfView, year: int) -> ToBuy:
    why = phrase(
        "{quantity} wanted, {margin_percent:g} % over included; {hand}",
        quantity=quantity(buy.with_margin, buy),
        margin_percent=stores.margin_percent,
        hand=_hand(buy),
    )
    return ToBuy(
        _count(buy) if buy.lacks else quantity(buy.left, buy),
        buy.name,
        why,
        "" if buy.count is not None else phrase("How it is sold is not written down."),
        _standing(buy, buy.on_hand, buy.count or 0),
        words.money(buy.cost, stores.currency) if buy.cost else "",
        tuple(_for(want, buy, year) for want in buy.wants),
        words.number(len(buy.wants), "work"),
    )


def _count(buy: BuyView) -> str:
    if buy.count is None:
        return quantity(buy.short, buy)
    return as_sold(buy.count, buy)


def as_sold(count: float, material: MaterialView) -> str:
    """`3 bags of 14 L`, without what one holds; `2.5 bags`, `less than 0.1 bags`."""
    container = material.sold_in or "piece"
    many = f"{container}es" if container.endswith("x") else f"{container}s"
    shown = round(count, 1)
    if shown == int(shown) and (shown or not count):
        return words.number(int(shown), container, many)
    figure = words.figure(shown, ".1f") if shown else _less_than(0.1)
    return phrase("{count} " + many, count=figure)


def _less_than(figure: float) -> str:
    return phrase("less than {figure:g}", figure=figure)


def _for(want: WantView, material: MaterialView, year: int) -> For:
    return For(
        want.tree,
        want.title,
        words.day(want.day, year),
        quantity(want.quantity, material),
        want.because,
    )


def _on_shelf(one: OnHandView, stores: ShelfView, year: int) -> OnShelf:
    here = max(one.on_hand, 0.0)
    sold = one.units_in_one
    enough = next((b for b in stores.buy if b.material == one.material and not b.lacks), None)
    return OnShelf(
        _amount(one.on_hand, one, one.is_entered, one.uses_not_taken_off),
        one.name,
        as_sold(here / sold, one) if sold and here > NOTHING and one.is_parted else "",
        quantity(one.used_in_a_year, one) if one.used_in_a_year else "",
        str(_of_all(one.value or Decimal(0), stores.currency, more=bool(one.uses_not_taken_off))),
        words.money(one.price, stores.currency) if one.price else "",
        _wrong(one),
        tuple(_notes(one, year)),
        _standing(one, one.on_hand, 0),
        quantity(enough.with_margin, one) if enough else "",
        quantity(enough.left, one) if enough else "",
        tuple(_for(want, enough, year) for want in enough.wants) if enough else (),
    )


def _standing(one: MaterialView, on_hand: float, to_buy: int) -> str:
    """Drawn where it is known how much one holds as it is sold."""
    holds = one.units_in_one
    return standing(on_hand / holds, to_buy, one.unit == "m") if holds else ""


def _hand(buy: BuyView) -> str:
    amount = _amount(buy.on_hand, buy, buy.entered, buy.uses_not_taken_off)
    return phrase("{amount} on hand", amount=amount) if buy.entered else phrase("no stock entered")


def _amount(on_hand: float, material: MaterialView, entered: bool, untold: int) -> str:
    """How much is on hand; where no stock was ever entered nobody knows."""
    if not entered:
        return phrase("not entered")
    if on_hand <= NOTHING:
        return phrase("none")
    return (phrase("at most ") if untold else "") + quantity(on_hand, material)


def _wrong(one: OnHandView) -> str:
    if not one.is_wrong:
        return ""
    gone = quantity(-one.on_hand, one)
    if not one.is_entered:
        return phrase(
            "{gone} used, and no stock was entered: write what was bought, or count it.", gone=gone
        )
    return phrase(
        "{gone} more used than bought: a purchase is missing, or less was used.", gone=gone
    )


def _notes(one: OnHandView, year: int) -> Iterator[str]:
    if not one.has_card:
        yield phrase("It has no card.")
    if one.grams is not None:
        yield phrase("About {grams:.0f} g.", grams=one.grams)
    if one.uses_not_taken_off:
        uses = words.number(one.uses_not_taken_off, "use")
        yield phrase("{uses} of it not taken off: how much is not written.", uses=uses)
    if one.used_as_reckoned and one.on_hand > 0:
        yield phrase(
            "{quantity} of what went is reckoned.", quantity=quantity(one.used_as_reckoned, one)
        )
    if one.counted is not None:
        yield phrase("Counted {day}.", day=words.day(one.counted, year))


# ------------------------------------------------------------------ how figures are shown


def quantity(value: float, material: MaterialView) -> str:
    """`4.5 L`, `80 mL`, `12 m`, `350 g`, `3 sheets`: as exact as a store is counted."""
    unit = material.unit
    if unit == "L":
        return litres(value)
    if unit == "kg":
        kg = phrase("{value} kg", value=words.figure(value, ".1f"))
        return f"{words.figure(value * 1000, '.0f')} g" if value < 1 else kg
    if unit == "m":
        return f"{words.figure(value, '.1f' if value < 10 else '.0f')} m"
    if material.units_in_one in (None, 1.0):
        return as_sold(round(value, 1), material)
    return words.number(round(value), "piece")
