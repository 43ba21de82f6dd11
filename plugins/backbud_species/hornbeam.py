"""A European hornbeam: the works of all hornbeams, for one that buds back from its trunk."""

from __future__ import annotations

from typing import ClassVar

from backbud.species import COMMON_PRACTICE, FROM_MEMORY, Fact, StageMonths
from backbud_species.habits.hornbeams import Hornbeam


class EuropeanHornbeam(Hornbeam):
    """A hornbeam of hedges that buds back from the trunk and holds its dry leaves."""

    rule_prefix = "hornbeam"
    botanical = "Carpinus betulus"
    common = ("European hornbeam", "common hornbeam", "hornbeam")
    also = ("Carpinus vulgaris", "seiyo shide")
    habit = "A tree with a fluted trunk that keeps dry leaves in winter and grows most at the top."
    # The RHS list itself was not at hand.
    hardiness = Fact("H7", FROM_MEMORY)
    # What it tolerates in open ground.
    soil_ph = Fact((5.0, 8.0), "Cornell University, Woody Plants Database: Carpinus betulus")
    usual_mix = Fact("akadama 3, pumice 1", COMMON_PRACTICE)
    root_share = Fact((0.5, 0.7), COMMON_PRACTICE)
    light = Fact("Full sun, with light shade in the hottest weeks.", COMMON_PRACTICE)
    water = Fact("Even moisture: leaf edges brown after one dry day.", COMMON_PRACTICE)
    wire_check_weeks = Fact((4, 6, 9), COMMON_PRACTICE)
    # Unlike beech its buds do not wait for long days (Heide 1993, Physiologia Plantarum 89).
    # For a cool temperate place; from memory. 19: first leaves full size and hardened.
    stage_months: ClassVar[StageMonths] = {
        1: ((3, 5), (3, 22), (4, 5)),
        7: ((3, 25), (4, 7), (4, 22)),
        10: ((4, 3), (4, 15), (4, 30)),
        19: ((5, 22), (6, 5), (6, 19)),
        91: ((8, 25), (9, 12), (10, 1)),
        93: ((10, 15), (11, 1), (11, 18)),
        97: ((11, 10), (11, 28), (12, 18)),
    }
    advice = (
        "Keep it evenly moist and out of drying wind: its leaf edges brown first.",
        "A young tree holds dry leaves in winter; pluck them before the buds swell.",
        "It buds from old wood down to the trunk: cut hard in late winter, leave stubs, and shape "
        "them a year later.",
    )
