"""The shelf as it is shown: what is on hand, what to buy and for which works, what is not known."""

from __future__ import annotations

from datetime import date
from decimal import Decimal
from typing import TypedDict

from msgspec import Struct, field

from backbud.plan.stores.materials import grams_of
from backbud.plan.stores.shelf import NOTHING
from backbud.plan.stores.values import Buy, Material, NotReckoned, StockedMaterial, Stores, Want


class MaterialView(Struct, frozen=True, kw_only=True):
    """A material that is bought and used up.

    `material`: its handle, or its name where it has no card; `name`: what people call it. `unit`:
    in which its quantities are counted: L, kg, m, or piece. `sold_in`: what one as sold is called
    (bag, roll), null where it has no name; `units_in_one`: how much that holds, null where nobody
    said.
    """

    material: str
    name: str
    has_card: bool
    unit: str
    sold_in: str | None
    units_in_one: float | None

    @property
    def is_parted(self) -> bool:
        """Whether it is counted otherwise than as it is sold."""
        return self.unit != "piece" or self.units_in_one != 1.0


class OnHandView(MaterialView, frozen=True, kw_only=True):
    """A material on the shelf; quantities in its unit, money in the currency of the journal.

    `on_hand`: below 0 where more was used than bought. `used_as_written_plus_sieving`: what lines
    say was used, of a mix as it left the bags: with a usual sieving loss, from memory.
    `used_as_reckoned`: by a sum. `uses_not_taken_off`: how many uses are not in it, since nobody
    can tell how much they took: then what is on hand, and its value, is at most so much.
    `used_in_a_year`: in the last 365 days. `since`: the first purchase or count, null where none
    was ever entered; `counted`: the last count. `price`: of one as sold. `grams`: what is on hand,
    of wire.
    """

    on_hand: float
    bought: float
    used_as_written_plus_sieving: float
    used_as_reckoned: float
    uses_not_taken_off: int
    used_in_a_year: float
    since: date | None
    counted: date | None
    price: Decimal | None
    value: Decimal | None
    grams: float | None

    @property
    def is_entered(self) -> bool:
        """Whether any of it was ever bought or counted."""
        return self.since is not None

    @property
    def is_wrong(self) -> bool:
        """Whether more was used than bought."""
        return self.on_hand < -NOTHING


class WantView(Struct, frozen=True, gc=False):
    """So much of a material that a work will take; `id`: of the work, `because`: how that is
    known."""

    id: str
    tree: str
    title: str
    day: date
    quantity: float
    because: str


class BuyView(MaterialView, frozen=True, kw_only=True):
    """What the works want of a material, and what is to be bought for them.

    Quantities in its unit: `wanted` by the works, `with_margin` over that, `on_hand`, and `short`:
    what is missing of it, 0 where there is enough. `count`: how many to buy as sold, null where
    that is not known; `cost`: at the last known price. `entered`: some of it was bought or counted
    once. `wants`: the works (in JSON: `for`).
    """

    wanted: float
    with_margin: float
    on_hand: float
    short: float
    count: int | None
    cost: Decimal | None
    entered: bool
    uses_not_taken_off: int
    wants: tuple[WantView, ...] = field(name="for")

    @property
    def lacks(self) -> bool:
        return self.short > 0

    @property
    def left(self) -> float:
        """What the works leave of what is on hand."""
        return max(self.on_hand - self.wanted, 0.0)


class MissingView(Struct, frozen=True):
    """What cannot be reckoned, and what to write down so that it can (in JSON: `write`).

    `trees`: of which trees, where it is about a tree; `times`: how often it came up.
    """

    what: str
    to_write: str = field(name="write")
    trees: tuple[str, ...]
    times: int


class ShelfView(Struct, frozen=True):
    """The shelf, and what to buy for the works until a day.

    Money as text with two decimals, in the `currency`. `margin_percent`: by how much more is bought
    than is wanted. `value`: of what is on hand, as far as it is known; `cost`: of what is to buy,
    likewise. `value_is_at_least`: of some of it nobody knows what it cost; `value_is_at_most`: some
    may be gone; `cost_is_at_least`: of some the price is not known.
    """

    currency: str
    until: date | None
    margin_percent: float
    value: Decimal
    value_is_at_least: bool
    value_is_at_most: bool
    cost: Decimal
    cost_is_at_least: bool
    shelf: tuple[OnHandView, ...]
    buy: tuple[BuyView, ...]
    missing: tuple[MissingView, ...]

    @property
    def to_buy(self) -> tuple[BuyView, ...]:
        """What there is not enough of."""
        return tuple(one for one in self.buy if one.lacks)

    @property
    def unreckoned(self) -> int:
        """How often a work, or a use, could not be reckoned."""
        return sum(one.times for one in self.missing)

    @property
    def overdrawn(self) -> int:
        """Of how many materials more was used than bought."""
        return sum(one.is_wrong and one.is_entered for one in self.shelf)

    @property
    def unentered(self) -> int:
        """Of how many that were used nothing was ever bought or counted."""
        return sum(one.is_wrong and not one.is_entered for one in self.shelf)


def shelf_view(stores: Stores) -> ShelfView:
    """The stores as they are shown."""
    return ShelfView(
        stores.currency,
        stores.until,
        stores.margin_percent,
        _cents(stores.value),
        any(one.value is None and one.on_hand > NOTHING for one in stores.shelf),
        any(bool(one.untold and one.value) for one in stores.shelf),
        _cents(stores.cost),
        any(buy.short > 0 and buy.cost is None for buy in stores.buying),
        tuple(map(_on_hand, stores.shelf)),
        tuple(map(_buy, stores.buying)),
        tuple(map(_missing, stores.missing)),
    )


def material_view(material: Material) -> MaterialView:
    """A material as it is shown."""
    return MaterialView(**_material(material))


def _on_hand(kept: StockedMaterial) -> OnHandView:
    return OnHandView(
        **_material(kept.material),
        on_hand=kept.on_hand,
        bought=kept.bought,
        used_as_written_plus_sieving=kept.written,
        used_as_reckoned=kept.reckoned,
        uses_not_taken_off=kept.untold,
        used_in_a_year=kept.year,
        since=kept.since,
        counted=kept.counted,
        price=None if kept.price is None else _cents(kept.price),
        value=None if kept.value is None else _cents(kept.value),
        grams=grams_of(kept.on_hand, kept.material),
    )


def _buy(buy: Buy) -> BuyView:
    return BuyView(
        **_material(buy.material),
        wanted=buy.wanted,
        with_margin=buy.with_margin,
        on_hand=buy.on_hand,
        short=buy.short,
        count=buy.count,
        cost=None if buy.cost is None else _cents(buy.cost),
        entered=buy.entered,
        uses_not_taken_off=buy.untold,
        wants=tuple(map(_want, buy.wants)),
    )


def _want(want: Want) -> WantView:
    return WantView(want.follow_up, want.tree, want.title, want.day, want.quantity, want.because)


def _missing(one: NotReckoned) -> MissingView:
    return MissingView(one.what, one.to_write, one.trees, one.times)


class _Material(TypedDict):
    material: str
    name: str
    has_card: bool
    unit: str
    sold_in: str | None
    units_in_one: float | None


def _material(material: Material) -> _Material:
    return {
        "material": material.key,
        "name": material.title,
        "has_card": material.carded,
        "unit": material.unit or "piece",
        "sold_in": material.container or None,
        "units_in_one": material.sold_units,
    }


def _cents(amount: Decimal) -> Decimal:
    return Decimal(f"{amount:z.2f}")
