"""The care of a small-leaved cotoneaster: a rock cotoneaster's, by an evergreen's dates.

Unless a rule says otherwise, its figures are common practice, no source.
"""

from __future__ import annotations

from typing import ClassVar

from backbud.species import COMMON_PRACTICE, FROM_MEMORY, Fact, Rule, StageMonths
from backbud_species.cotoneaster import RockCotoneaster
from backbud_species.habits.works import altered, by_warmth, prunes, wires
from backbud_species.habits.yearly import FROZEN_WOOD_SNAPS


class SmallLeavedCotoneaster(RockCotoneaster):
    """The evergreen of the rock cotoneasters, stiff and trailing, with white flowers."""

    rule_prefix = "microphyllus"
    botanical = "Cotoneaster microphyllus"
    common = ("small-leaved cotoneaster", "evergreen cotoneaster")
    also = (
        "Cotoneaster integrifolius",
        "Cotoneaster thymifolius",
        "Cotoneaster dammeri",
        "Cotoneaster congestus",
        "shiro shitan",
    )
    habit = "A stiff trailing evergreen with tiny dark leaves, strongest at the base."
    evergreen = True
    # The RHS list itself was not at hand.
    hardiness = Fact("H6", FROM_MEMORY)
    frost_limit_c = Fact(-7.0, FROM_MEMORY)
    light = Fact("Full sun, and no dry frosty wind.", COMMON_PRACTICE)
    water = Fact("Evenly moist in winter too, for it keeps its leaves.", COMMON_PRACTICE)
    # The RHS says so of C. horizontalis.
    toxicity = Fact("The fruit may upset the stomach a little if eaten.", FROM_MEMORY)
    # For a cool temperate place; from memory.
    stage_months: ClassVar[StageMonths] = {
        1: ((3, 1), (3, 18), (4, 3)),
        7: ((3, 20), (4, 5), (4, 20)),
        10: ((4, 1), (4, 15), (5, 1)),
        19: ((5, 20), (6, 3), (6, 17)),
        60: ((5, 12), (5, 24), (6, 5)),
        65: ((5, 20), (6, 1), (6, 13)),
        69: ((6, 1), (6, 13), (6, 25)),
        91: ((9, 8), (9, 26), (10, 15)),
    }
    advice = (
        *RockCotoneaster.advice[:1],
        "Gather the fruit that falls: birds sow it, and in some countries it is listed as "
        "invasive.",
        "Keep it from frozen soil together with sun and wind.",
    )
    never = (
        RockCotoneaster.never[0],
        *RockCotoneaster.never[2:],
        "Never cut it hard in autumn: an evergreen heals nothing in winter.",
    )
    works: ClassVar[tuple[Rule, ...]] = altered(
        RockCotoneaster.works,
        prunes(
            "prune",
            by_warmth((2, 20), (3, 10), (3, 31)),
            what="twigs that cross or double, and shoots from the base",
            because="Cuts close soon when growth is near, and its leaves guard it until then.",
        ),
        wires(
            "wire",
            by_warmth((2, 15), (3, 8), (3, 31)),
            because="Its twigs are stiff and hold their leaves, so they are set before the soft "
            "buds stand in the way.",
            cautions=(FROZEN_WOOD_SNAPS,),
        ),
    )
