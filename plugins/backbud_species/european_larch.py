"""A European larch's facts and year: the group's, for the larch of the Alps."""

from __future__ import annotations

from backbud.species import FROM_MEMORY, Fact
from backbud_species.habits.larches import Larch

_OREGON = "Oregon State University, Landscape Plants: Larix decidua"


class EuropeanLarch(Larch):
    """The larch of the Alps: straw-coloured twigs, soft green tufts, rough bark with age."""

    rule_prefix = "larch"
    botanical = "Larix decidua"
    common = ("European larch", "larch")
    also = ("common larch", "Larix europaea", "Pinus larix")
    habit = "A fast tree of straw-coloured hanging twigs and soft tufts, bare in winter."
    # The RHS list itself was not at hand.
    hardiness = Fact("H7", FROM_MEMORY)
    # What it tolerates in open ground.
    soil_ph = Fact(
        (5.0, 7.5), "Vineland Research and Innovation Centre, tree selector: Larix decidua"
    )
    light = Fact("Full sun.", _OREGON)
    water = Fact("Plenty, in soil that drains: neither very dry nor very wet.", _OREGON)
