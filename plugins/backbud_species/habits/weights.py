"""How much a work of the year matters where its builder does not say, by its act."""

from __future__ import annotations

from collections.abc import Mapping

from backbud.species import CARE, CHANCE, PROTECTION, ROUTINE, ActWord, Weight

# Any other act is a chance of the season: shoots, leaves, buds and wood, wire.
_BY_ACT: Mapping[ActWord, Weight] = {
    "protected": PROTECTION,
    "shaded": CARE,
    "watered": CARE,
    "soaked": CARE,
    "moved": CARE,
    "checked": CARE,
    "treated": CARE,
    "repotted": CARE,
    "fed": ROUTINE,
    "misted": ROUTINE,
    "turned": ROUTINE,
    "top-dressed": ROUTINE,
    "weeded": ROUTINE,
}


def usual_weight(act: ActWord) -> Weight:
    """What a work that comes round every year weighs by its act."""
    return _BY_ACT.get(act, CHANCE)
