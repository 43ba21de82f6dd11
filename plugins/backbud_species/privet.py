"""A common privet: the works of every privet, by the dates of one half green in mild winters."""

from __future__ import annotations

from typing import ClassVar

from backbud.species import COMMON_PRACTICE, FROM_MEMORY, Fact, StageMonths
from backbud_species.habits.privets import Privet


class CommonPrivet(Privet):
    """The privet of hedges and chalk, narrow-leaved, half green in a mild winter."""

    rule_prefix = "privet"
    botanical = "Ligustrum vulgare"
    common = ("common privet", "wild privet", "European privet", "privet")
    also = ("Ligustrum insulare",)
    habit = "A fast many-stemmed shrub, half green in mild winters, that shoots from any wood."
    # The RHS list itself was not at hand.
    hardiness = Fact("H6", FROM_MEMORY)
    # A list that does not say of what age the roots were.
    frost_limit_c = Fact(-15.0, "Oregon State list as quoted on a growers' forum")
    soil_ph = Fact((6.0, 7.8), FROM_MEMORY)
    why_frost = "Fine roots fill the rim of the pot, where frost comes first."
    light = Fact("Full sun to half shade; joints are short in sun.", COMMON_PRACTICE)
    # For a cool temperate place; from memory. 19: first leaves full size and hardened. It drops
    # its leaves late, and not all of them in a mild winter.
    stage_months: ClassVar[StageMonths] = {
        1: ((2, 22), (3, 10), (3, 25)),
        7: ((3, 10), (3, 24), (4, 8)),
        10: ((3, 18), (4, 2), (4, 17)),
        19: ((5, 14), (5, 28), (6, 12)),
        60: ((6, 5), (6, 16), (6, 28)),
        65: ((6, 14), (6, 25), (7, 8)),
        69: ((6, 28), (7, 10), (7, 24)),
        91: ((9, 8), (9, 26), (10, 15)),
        93: ((10, 28), (11, 14), (12, 2)),
        97: ((11, 28), (12, 12), (12, 28)),
    }
