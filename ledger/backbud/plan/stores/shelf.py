"""Keeps the count of each material from what was bought, counted and spent, and what it is worth.

Worth is by the moving average of what was paid: each purchase is put to what was there, and what
goes, goes at the average. A count sets the quantity and leaves the average as it was. What went
before the first purchase or count is left out, since nobody knows from what.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from datetime import date, timedelta
from decimal import ROUND_HALF_UP, Context, Decimal
from functools import partial
from itertools import chain

from msgspec import Struct
from msgspec.structs import replace

from backbud.collection.whereabouts import Histories
from backbud.journal.events import Event
from backbud.memo import AsWritten, Identical
from backbud.plan.stores.materials import amount_of
from backbud.plan.stores.spent import TakenByTrees
from backbud.plan.stores.to_write import how_sold, purchase_to_write
from backbud.plan.stores.values import Material, Spent, StockedMaterial
from backbud.tongue import phrase
from backbud_grammar.measures import Measure

YEAR = timedelta(days=365)
CENT = Decimal("0.01")
# Digits enough for whatever amounts of nine digits come to.
_WIDE = Context(prec=60)
# Sums of reckoned litres differ by less than this from nothing.
NOTHING = 1e-9
# What happened to a material on one day, in the order it is taken to have happened.
_ORDER = {"priced": 0, "bought": 1, "spent": 2, "counted": 3}


class Move(Struct, frozen=True, gc=False):
    """One thing that happened to a material; `quantity` in its unit, `paid` for all of it."""

    day: date
    sort: str
    quantity: float = 0.0
    paid: Decimal | None = None
    price: Decimal | None = None
    reckoned: bool = False

    @property
    def at(self) -> tuple[date, int]:
        return self.day, _ORDER[self.sort]


class _Running(Struct):
    """A shelf while its moves are gone through."""

    on_hand: float = 0.0
    average: Decimal | None = None
    price: Decimal | None = None
    price_since: date | None = None
    bought: float = 0.0
    written: float = 0.0
    reckoned: float = 0.0
    year: float = 0.0
    counted: date | None = None


def shelf_of(
    taken: TakenByTrees, histories: Histories, currency: str, today: date
) -> tuple[StockedMaterial, ...]:
    """Every material with a card, in the order of the cards, then what has none."""
    spent: dict[str, list[tuple[Move, ...]]] = {key: [] for key in taken.materials.by_key}
    for handle, of_tree in taken.by_tree.items():
        moves = taken.kept.together(
            f"moves {handle}", (Identical(of_tree),), partial(_moves, handle, of_tree, taken)
        )
        for key, those in moves.items():
            spent.setdefault(key, []).append(those)
    told: dict[str, list[Move]] = {}
    sharing = _sharing(histories.others.values())
    for handle, events in histories.others.items():
        material = taken.materials.named(handle)
        if material is not None:
            for event in events:
                if event.day <= today:
                    move = _of_event(event, material, sharing[id(event)], currency, taken)
                    told.setdefault(material.key, []).extend([move] if move is not None else [])
    kept = []
    for key, parts in spent.items():
        material, others = taken.materials.by_key[key], tuple(told.get(key, ()))
        shelf = partial(kept_of, material, chain(*parts, others), currency, today)
        # Figures may be equal and be written otherwise.
        inputs = (AsWritten(material), Identical(*parts), AsWritten(others), currency)
        kept.append(taken.kept.together(f"shelf {key}", inputs, shelf))
    return tuple(
        replace(one, untold=_untold(one, taken.untold.get(one.material.key, ())))
        for one in kept
        if one.material.carded or one.written + one.reckoned > 0
    )


def _untold(one: StockedMaterial, days: Iterable[date]) -> int:
    """How many uses since the first purchase, or since the last count, are not taken off."""
    since = one.counted or one.since
    return sum(1 for day in days if since is None or day >= since)


def kept_of(
    material: Material, moves: Iterable[Move], currency: str, today: date
) -> StockedMaterial:
    """What is on hand of a material after its moves, in whatever order they come."""
    ordered = sorted(moves, key=lambda move: move.at)
    since = next((m.day for m in ordered if m.sort in ("bought", "counted")), None)
    now = _Running()
    if material.currency in ("", currency):
        now.price = material.price
    for move in ordered:
        _STEPS[move.sort](now, move, material, since, today)
    return StockedMaterial(
        material, now.bought, now.written, now.reckoned, now.on_hand, since, now.counted,
        now.average, _worth(now, material), now.price, now.price_since, now.year,
    )  # fmt: skip


def _priced(now: _Running, move: Move, material: Material, since: date | None, today: date) -> None:
    now.price, now.price_since = move.price, move.day


def _bought(now: _Running, move: Move, material: Material, since: date | None, today: date) -> None:
    paid = move.paid
    if paid is None and now.price is not None and material.sold_units:
        paid = now.price * _decimal(move.quantity / material.sold_units)
    before = max(now.on_hand, 0.0)
    if paid is not None and move.quantity > 0:
        worth = paid + (now.average or Decimal(0)) * _decimal(before)
        known = move.quantity + (before if now.average is not None else 0.0)
        now.average = worth / _decimal(known)
    now.on_hand += move.quantity
    now.bought += move.quantity
    if move.price is not None:
        now.price, now.price_since = move.price, move.day


def _went(now: _Running, move: Move, material: Material, since: date | None, today: date) -> None:
    if move.day > today - YEAR:
        now.year += move.quantity
    if since is not None and move.day < since:
        return
    now.on_hand -= move.quantity
    if move.reckoned:
        now.reckoned += move.quantity
    else:
        now.written += move.quantity


def _counted(
    now: _Running, move: Move, material: Material, since: date | None, today: date
) -> None:
    now.on_hand, now.counted = move.quantity, move.day


_STEPS = {"priced": _priced, "bought": _bought, "spent": _went, "counted": _counted}


def _worth(now: _Running, material: Material) -> Decimal | None:
    """What is on hand at its average cost; at the last known price where none was paid."""
    if now.on_hand <= NOTHING:
        return Decimal(0).quantize(CENT)
    each = now.average
    if each is None and now.price is not None and material.sold_units:
        each = now.price / _decimal(material.sold_units)
    return None if each is None else cents(each * _decimal(now.on_hand))


def cents(amount: Decimal) -> Decimal:
    """An amount of money to the hundredth, halves up."""
    return amount.quantize(CENT, ROUND_HALF_UP, _WIDE)


def _decimal(quantity: float) -> Decimal:
    return Decimal(repr(quantity))


# ------------------------------------------------------------------ the diary's lines


def _moves(handle: str, spent: Iterable[Spent], taken: TakenByTrees) -> dict[str, tuple[Move, ...]]:
    """What one tree took of each material; the very same where it is written the same as before."""
    moves = _by_material(spent)
    return taken.kept.together(f"same moves {handle}", (AsWritten(moves),), lambda: moves)


def _by_material(spent: Iterable[Spent]) -> dict[str, tuple[Move, ...]]:
    """What one tree took of each material."""
    moves: dict[str, list[Move]] = {}
    for one in spent:
        move = Move(one.day, "spent", one.quantity, reckoned=one.reckoned)
        moves.setdefault(one.material, []).append(move)
    return {key: tuple(those) for key, those in moves.items()}


def _of_event(
    event: Event, material: Material, among: int, currency: str, taken: TakenByTrees
) -> Move | None:
    if event.act == "priced":
        price = _money(event.measure("amount"), currency)
        return Move(event.day, "priced", price=price) if price is not None else None
    if not event.was("bought", "counted"):
        return None
    detail = event.first("quantity")
    if detail is None or detail.measure is None:
        taken.cannot(f"{material.title}, {event.act} {event.when.text}",
                     purchase_to_write(currency))  # fmt: skip
        return None
    quantity = amount_of(detail.measure, detail.words, material)
    if quantity is None:
        by = phrase(
            "{title}, {act} by the {words}",
            title=material.title,
            act=phrase(event.act),
            words=detail.words or detail.measure,
        )
        taken.cannot(by, how_sold(material, currency))
        return None
    quantity /= among if event.act == "bought" and detail.share != "each" else 1
    if event.act == "counted":
        return Move(event.day, "counted", quantity)
    paid = _money(event.measure("amount"), currency)
    if paid is not None:
        paid /= among
    return Move(event.day, "bought", quantity, paid, _price_of_one(paid, quantity, material))


def _price_of_one(paid: Decimal | None, quantity: float, material: Material) -> Decimal | None:
    """The price of one as sold."""
    if paid is None or not material.sold_units or quantity <= 0:
        return None
    return cents(paid / _decimal(quantity / material.sold_units))


def _money(amount: Measure | None, currency: str) -> Decimal | None:
    """An amount in the journal's currency; None for any other, which nobody changes here."""
    if amount is None or amount.unit not in ("", currency):
        return None
    return amount.number


def _sharing(others: Iterable[tuple[Event, ...]]) -> Mapping[int, int]:
    """Among how many materials a line is shared: `akadama, pumice` and one price for both."""
    found: dict[int, int] = {}
    for events in others:
        for event in events:
            found[id(event)] = found.get(id(event), 0) + 1
    return found
