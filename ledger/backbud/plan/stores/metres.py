"""Reckons the metres of wire that a branch, a guy or an anchor tie took, by rule of thumb.

Nobody writes down how long and how thick each branch is, so a wire is reckoned by its thickness
and the part it stands on. All of it is common practice, no source, and said as reckoned.
"""

from __future__ import annotations

from collections.abc import Mapping

from backbud.bench.anchors import STAPLE_MM, anchors, mesh
from backbud.bench.pots import volume_litres
from backbud.bench.wire import LONGER_BY
from backbud.collection.state import OnTree, Tree
from backbud.journal.things import Things
from backbud.plan.stores.figures import FINE_WIRE, GUY_WIRE, MIDDLE_WIRE, THICK_WIRE, TIE_WIRE
from backbud.plan.vessels import pot_of_card
from backbud_grammar.measures import Measure

FINE_UP_TO_MM, MIDDLE_UP_TO_MM = 1.2, 2.0
# A part of the tree by a word in its name: so many branches' worth of wire.
BRANCHES_IN: Mapping[str, float] = {
    "tip": 0.5,
    "twig": 0.5,
    "shoot": 0.5,
    "whole tree": 6.0,
    "all": 6.0,
}


def metal_of(what: str) -> str:
    """The metal of a wire by the words beside it, as METALS knows it; aluminium where none is."""
    words = what.casefold().split()
    return "Cu" if "cu" in words or "copper" in words else "Al"


def metres_on(thing: OnTree, tree: Tree, things: Things, figures: Mapping[str, float]) -> float:
    """The metres of wire in what is on a tree: a wire, a guy, or anchor ties.

    ValueError for a wire whose thickness is not written.
    """
    if thing.sort == "tie":
        return thing.count * tie_m(tree.pot, things, figures)
    if thing.sort == "guy":
        return thing.count * GUY_WIRE.among(figures)
    if thing.thickness_mm is None:
        raise ValueError("Write the wire's thickness, as: wired 2 mm Al on left 2.")
    return thing.count * _wire_m(thing.part, thing.thickness_mm, tree, figures)


def _wire_m(part: str, thickness_mm: float, tree: Tree, figures: Mapping[str, float]) -> float:
    words = part.casefold()
    if words.startswith("trunk") and (height := tree.sizes.get("height")) is not None:
        return height.within("m") * (1 + LONGER_BY)
    fine, middle = thickness_mm <= FINE_UP_TO_MM, thickness_mm <= MIDDLE_UP_TO_MM
    rule = FINE_WIRE if fine else MIDDLE_WIRE if middle else THICK_WIRE
    named = (
        count for word, count in BRANCHES_IN.items() if f" {word} " in f" {words.rstrip('s')} "
    )
    return rule.among(figures) * next(named, 1.0)


def tie_m(pot: str, things: Things, figures: Mapping[str, float]) -> float:
    """The metres of one anchor tie in a pot; a rule of thumb where its size is not known."""
    planned = ties_of(pot, things, figures)
    return planned[2] if planned is not None else TIE_WIRE.among(figures)


def ties_of(
    pot: str, things: Things, figures: Mapping[str, float]
) -> tuple[int, float, float] | None:
    """The anchor ties of a pot: how many, how thick in mm, how long in m each; None if unknown."""
    card = things.find(pot) if pot else None
    inside, _ = pot_of_card(card, figures) if card is not None else (None, "")
    if card is None or inside is None:
        return None
    tied = anchors(volume_litres(inside), holes_of(card.measure("holes")), inside.length_cm,
                   inside.depth_cm)  # fmt: skip
    return tied.wires, tied.aluminium_mm, tied.length_cm / 100


def holes_of(written: Measure | None) -> int:
    """The holes of a pot; two where its card does not say."""
    return max(int(written.number), 1) if written is not None else 2


def staples(pieces: int) -> tuple[float, float]:
    """The wire of the staples that hold so many pieces of mesh: its thickness in mm, metres."""
    return STAPLE_MM, mesh(pieces).staple_m
