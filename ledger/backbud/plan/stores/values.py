"""The frozen values that the stores are told in: materials, what was spent, what to buy."""

from __future__ import annotations

from datetime import date
from decimal import Decimal
from typing import Literal

from msgspec import Struct

Sort = Literal["soil", "wire", "tie", "mesh", "feed", "on top", "other"]


class Material(Struct, frozen=True):
    """Something that is bought and used up.

    `key`: its handle; its title where it has no card. `unit`: in which it is counted here: L, kg,
    m, or "" for pieces. `sold_units`: how much of that one holds as it is sold (None: not known);
    `container`: what that is called (bag, roll), "" where it has no name. `price`: of one as sold,
    as the card has it; `currency`: of that.
    """

    key: str
    title: str
    unit: str
    carded: bool = True
    sold_units: float | None = None
    container: str = ""
    price: Decimal | None = None
    currency: str = ""
    metal: str = ""
    thickness_mm: float | None = None
    density_kg_per_litre: float | None = None


class Spent(Struct, frozen=True, gc=False):
    """So much of a material (in its unit) that a tree took on a day; `what`: for what work.

    `reckoned`: by a sum or a rule of thumb; else as somebody wrote it.
    """

    material: str
    quantity: float
    day: date
    sort: Sort
    what: str
    reckoned: bool


class NotReckoned(Struct, frozen=True, gc=False):
    """What cannot be reckoned, and what to write down so that it can.

    `trees`: of which trees, where it is about a tree; `times`: how often it came up.
    """

    what: str
    to_write: str
    trees: tuple[str, ...] = ()
    times: int = 1


class StockedMaterial(Struct, frozen=True):
    """A material on the shelf on a day; quantities in its unit, money in the journal's currency.

    `on_hand`: below 0 where more was used than bought. `since`: the first purchase or count; what
    went before it is left out. `average`: what a unit on hand cost. `price`: the last known one of
    one as sold, with the day it is from (None: the card's). `year`: what went in the last 365 days.
    `untold`: how many uses are not taken off, because nobody can tell how much they took: then
    what is on hand, and its value, is at most so much.
    """

    material: Material
    bought: float
    written: float
    reckoned: float
    on_hand: float
    since: date | None
    counted: date | None
    average: Decimal | None
    value: Decimal | None
    price: Decimal | None
    price_since: date | None
    year: float
    untold: int = 0


class Want(Struct, frozen=True, gc=False):
    """So much of a material that a planned work will take, and by what that is known."""

    material: str
    quantity: float
    follow_up: str
    tree: str
    title: str
    day: date
    because: str


class Buy(Struct, frozen=True):
    """What to buy of a material: for the works, with the margin, less what is on hand.

    `wanted`: without the margin. `count`: how many as sold, None where that is not known.
    `left_over`: what is left of them. `cost`: at the last known price. `entered`: it was ever
    bought or counted; `untold`: how many uses are not taken off what is on hand.
    """

    material: Material
    wanted: float
    with_margin: float
    on_hand: float
    short: float
    count: int | None
    left_over: float | None
    cost: Decimal | None
    wants: tuple[Want, ...]
    entered: bool = True
    untold: int = 0


class Stores(Struct, frozen=True):
    """The shelf, what to buy until `until`, and what could not be reckoned.

    `value`: of all that is on hand and whose cost is known. `cost`: of all there is to buy and
    whose price is known.
    """

    currency: str = ""
    margin_percent: float = 0.0
    until: date | None = None
    shelf: tuple[StockedMaterial, ...] = ()
    buying: tuple[Buy, ...] = ()
    missing: tuple[NotReckoned, ...] = ()
    value: Decimal = Decimal(0)
    cost: Decimal = Decimal(0)
