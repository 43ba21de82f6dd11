"""Reckons the pots and the mix of a batch, each of which is potted into one of its own."""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple

from backbud.bench.mixes import substrate_needed
from backbud.bench.pots import Pot, volume_litres
from backbud.collection.state import Tree
from backbud.journal.events import Event
from backbud.journal.things import Things
from backbud.plan.stores.soil import filled, lower, settles_percent
from backbud.plan.vessels import RIM_GAP, Unknown
from backbud.tongue import phrase

WRITE_POTS = "the pots it goes into, as: potted-on 20, 9 cm pots"
WRITE_NUMBER = "how many, as: potted-on 20, 9 cm pots"
# Common practice, no source: young plants bring no ball to speak of, and a nursery pot is round.
_AS_DEEP = "into round pots as deep as they are wide"


class Potted(NamedTuple):
    """So many are potted, each into a pot of its own with so many litres of loose mix.

    `across_cm`: of pots that have no card; None where a card tells of them.
    """

    number: int
    litres: float
    across_cm: float | None
    because: str


def is_potted_singly(tree: Tree) -> bool:
    """Whether a handle stands for several, each of which wants a pot."""
    return tree.batch is not None and bool(tree.counted)


def potted(
    event: Event | None, of: int | None, tree: Tree, mix: str, things: Things,
    figures: Mapping[str, float],
) -> Potted | Unknown:  # fmt: skip
    """What a batch takes that is potted, or what must be written down first.

    `event`: the potting, or the line that plans it. `of`: how many of it; None for all.
    """
    batch = tree.batch
    said = event.measure("quantity") if event is not None else None
    number = of if of is not None else int(said.number) if said is not None else None
    if number is None and batch is not None and not batch.in_containers:
        number = batch.count
    if number is None:
        return Unknown(WRITE_NUMBER)
    into = event.first("into") if event is not None else None
    size = event.measure("pot size") if event is not None else None
    across_cm: float | None = None
    if into is not None:
        pot, said_of_pot = filled(into.handle, things, figures)
        because = phrase("{number} pots", number=number)
        if pot is None:
            return Unknown(said_of_pot)
    elif size is not None and size.within("cm") > RIM_GAP.among(figures):
        across_cm = size.within("cm")
        pot = lower(Pot("round", across_cm, across_cm, across_cm), RIM_GAP.among(figures))
        because = phrase("{number} of them {as_deep}", number=number, as_deep=_AS_DEEP)
    else:
        return Unknown(WRITE_POTS)
    needed = substrate_needed(volume_litres(pot), 0.0, settles_percent(mix, things, figures))
    return Potted(number, needed.loose_litres * number, across_cm, because)
