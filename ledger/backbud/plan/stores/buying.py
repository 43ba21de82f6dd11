"""Works out what to buy of each material, in bags and rolls as it is sold."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from decimal import Decimal
from math import ceil

from backbud.bench.mixes import bags
from backbud.plan.stores.shelf import NOTHING, cents
from backbud.plan.stores.values import Buy, Material, StockedMaterial, Want


def buying_of(
    wants: Iterable[Want], shelf: Mapping[str, StockedMaterial], margin_percent: float
) -> tuple[Buy, ...]:
    """What is wanted of each material, and what of it to buy; what needs no buying stands last.

    `shelf`: by the material's key. Where more was used than bought, nothing is on hand.
    """
    by_material: dict[str, list[Want]] = {}
    for want in wants:
        by_material.setdefault(want.material, []).append(want)
    found = [
        _buy(shelf[key], tuple(sorted(those, key=lambda w: (w.day, w.tree, w.follow_up))),
             margin_percent)
        for key, those in by_material.items()
    ]  # fmt: skip
    order = {key: n for n, key in enumerate(shelf)}
    return tuple(sorted(found, key=lambda buy: (buy.short <= 0, order[buy.material.key])))


def _buy(kept: StockedMaterial, wants: tuple[Want, ...], margin_percent: float) -> Buy:
    material = kept.material
    wanted = sum(want.quantity for want in wants)
    with_margin = _whole(wanted * (1 + margin_percent / 100), material)
    on_hand = max(kept.on_hand, 0.0)
    short = max(with_margin - on_hand, 0.0)
    short = 0.0 if short <= NOTHING else _whole(short, material)
    count = bags(short, material.sold_units) if material.sold_units else None
    over = None
    cost: Decimal | None = None
    if count is not None and material.sold_units:
        over = on_hand + count * material.sold_units - wanted
        cost = cents(kept.price * count) if kept.price is not None else None
    return Buy(
        material, wanted, with_margin, on_hand, short, count, over, cost, wants,
        kept.since is not None, kept.untold,
    )  # fmt: skip


def _whole(quantity: float, material: Material) -> float:
    """What is counted by the piece is bought by the piece."""
    return quantity if material.unit else float(ceil(quantity - NOTHING))
