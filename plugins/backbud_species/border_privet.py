"""A border privet: the works of every privet, by the dates of one that stands bare in winter."""

from __future__ import annotations

from typing import ClassVar

from backbud.species import FROM_MEMORY, Fact, StageMonths
from backbud_species.habits.privets import Privet

_NEW_HAMPSHIRE = "New Hampshire Department of Agriculture, Ligustrum obtusifolium"


class BorderPrivet(Privet):
    """The privet of the Far East, blunt-leaved and bare in winter."""

    rule_prefix = "border-privet"
    botanical = "Ligustrum obtusifolium"
    common = ("border privet", "blunt-leaved privet", "ibota privet")
    also = ("Ligustrum ibota", "Ligustrum obtusifolium subsp. microphyllum", "ibota", "ibotanoki")
    habit = "A fast arching shrub with blunt leaves, bare in winter, that shoots from any wood."
    # The RHS list itself was not at hand.
    hardiness = Fact("H6", FROM_MEMORY)
    # New Hampshire calls it adaptable, without figures.
    soil_ph = Fact((5.5, 7.5), FROM_MEMORY)
    why_frost = "Fine roots fill the rim of the pot, where frost comes first."
    light = Fact("Full sun to heavy shade.", _NEW_HAMPSHIRE)
    advice = (
        *Privet.advice,
        "Birds sow it, and in parts of North America it may not be sold or planted.",
    )
    # For a cool temperate place; from memory. 19: first leaves full size and hardened.
    stage_months: ClassVar[StageMonths] = {
        1: ((3, 1), (3, 18), (4, 2)),
        7: ((3, 20), (4, 3), (4, 18)),
        10: ((3, 29), (4, 12), (4, 27)),
        19: ((5, 20), (6, 3), (6, 17)),
        60: ((6, 1), (6, 12), (6, 24)),
        65: ((6, 9), (6, 20), (7, 2)),
        69: ((6, 22), (7, 3), (7, 16)),
        91: ((9, 1), (9, 18), (10, 8)),
        93: ((10, 18), (11, 3), (11, 20)),
        97: ((11, 12), (11, 27), (12, 14)),
    }
