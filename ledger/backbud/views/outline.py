"""The outline of a pot as it is shown: its shape, and how long and wide it is inside."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from msgspec import Struct

from backbud.bench.pots import Shape
from backbud.collection.state import Tree
from backbud.journal.things import Things
from backbud.plan.vessels import pot_of_card


class OutlineView(Struct, frozen=True):
    """The inside of a pot at its rim, in cm."""

    shape: Shape
    length_cm: float
    width_cm: float


def outlines_of(
    trees: Iterable[Tree], things: Things, figures: Mapping[str, float]
) -> dict[str, OutlineView]:
    """By the tree's handle the outline of its pot, where a card tells it."""
    found: dict[str, OutlineView] = {}
    for tree in trees:
        card = things.find(tree.pot) if tree.pot else None
        pot = pot_of_card(card, figures)[0] if card is not None else None
        if pot is not None:
            found[tree.handle] = OutlineView(pot.shape, pot.length_cm, pot.width_cm)
    return found
