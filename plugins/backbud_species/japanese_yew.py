"""A Japanese yew's facts and year: the group's, for a harder and slower yew of cold places."""

from __future__ import annotations

from typing import ClassVar

from backbud.species import COMMON_PRACTICE, FROM_MEMORY, Fact, Rule, StageMonths
from backbud_species.habits.heat import shades_in_heat
from backbud_species.habits.works import altered
from backbud_species.habits.yews import Yew

_OREGON = "Oregon State University, Landscape Plants: Taxus cuspidata"


class JapaneseYew(Yew):
    """A yew of cold mountains: slow, dense, with the best deadwood of its kind."""

    rule_prefix = "japanese-yew"
    botanical = "Taxus cuspidata"
    common = ("Japanese yew",)
    also = ("ichii", "onko", "araragi", "kyaraboku")
    habit = "A dense slow yew of pointed needles in loose rows, male or female."
    # The RHS list itself was not at hand.
    hardiness = Fact("H7", FROM_MEMORY)
    soil_ph = Fact((5.5, 7.0), FROM_MEMORY)
    light = Fact("Sun or part shade; winter sun on frozen soil burns it.", _OREGON)
    water = Fact("Evenly moist and well drained.", COMMON_PRACTICE)
    girth_growth_mm = Fact(3.0, FROM_MEMORY)
    stage_months: ClassVar[StageMonths] = {
        1: ((3, 5), (3, 22), (4, 6)),
        7: ((3, 28), (4, 13), (4, 28)),
        10: ((4, 14), (4, 29), (5, 14)),
        91: ((8, 28), (9, 16), (10, 5)),
    }
    works: ClassVar[tuple[Rule, ...]] = altered(
        Yew.works,
        shades_in_heat(
            "shade", because="It comes from cold mountains and its needles yellow in great heat."
        ),
    )
