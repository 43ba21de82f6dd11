"""The care of a Chinese hackberry, quick and forgiving, trimmed flush by flush like an elm.

Unless a rule says otherwise, its figures are common practice, no source.
"""

from __future__ import annotations

from typing import ClassVar

from backbud.species import COMMON_PRACTICE, FROM_MEMORY, Fact, RepotInterval, Rule, StageMonths
from backbud_species.habits.broadleaves import BroadleafDeciduous
from backbud_species.habits.flushes import trims_again
from backbud_species.habits.works import (
    Way,
    altered,
    at,
    between,
    by_warmth,
    defoliates,
    prunes,
    repots,
    trims,
    watches_for,
)
from backbud_species.habits.yearly import CUT_ROOTS_FREEZE


class Hackberry(BroadleafDeciduous):
    """A quick tree of smooth grey bark and small rough leaves, which bears hard work."""

    rule_prefix = "hackberry"
    botanical = "Celtis sinensis"
    common = ("hackberry", "Chinese hackberry")
    also = ("Celtis occidentalis", "Celtis australis", "European nettle tree", "enoki")
    habit = "A quick broad tree of fine zigzag twigs and smooth grey bark, strongest at the top."
    # The RHS list itself was not at hand.
    rests_under_c = Fact(18.0, COMMON_PRACTICE)
    hardiness = Fact("H6", FROM_MEMORY)
    soil_ph = Fact((5.5, 7.8), FROM_MEMORY)
    repot_years = Fact((1, 2, 4), COMMON_PRACTICE)
    repot_interval = Fact(RepotInterval((1, 1, 2), (2, 4, 6)), COMMON_PRACTICE)
    root_share = Fact((0.5, 0.8), COMMON_PRACTICE)
    bark = Fact("Its smooth grey bark marks within weeks; old wood is stiff.", COMMON_PRACTICE)
    toxicity = Fact("Not known to harm people or pets; the small fruit is eaten.", FROM_MEMORY)
    why_frost = "Its roots are fleshy and freeze in a shallow pot before the top is harmed."
    wire_check_weeks = Fact((3, 5, 7), COMMON_PRACTICE)
    # For a cool temperate place; from memory. 19: first leaves full size and hardened.
    stage_months: ClassVar[StageMonths] = {
        1: ((3, 16), (4, 1), (4, 15)),
        7: ((4, 5), (4, 18), (5, 2)),
        10: ((4, 14), (4, 27), (5, 11)),
        19: ((5, 30), (6, 12), (6, 26)),
        91: ((8, 28), (9, 14), (10, 2)),
        93: ((10, 12), (10, 27), (11, 11)),
        97: ((11, 4), (11, 18), (12, 3)),
    }
    advice = (
        "Full sun, and water every day in summer: it is seldom too wet in growth.",
        "It drops thin twigs in winter: cut back to a bud that is green under the bark.",
    )
    never = (
        *BroadleafDeciduous.never,
        "Never leave the tips untrimmed for a summer: the inner twigs die.",
    )
    works: ClassVar[tuple[Rule, ...]] = altered(
        BroadleafDeciduous.works,
        *repots(
            "repot",
            between(1, 7),
            because="It bears hard root work while its buds swell, and branches close to the cut.",
            cautions=(CUT_ROOTS_FREEZE,),
        ),
        trims(
            "trim",
            at(19, -10, 0, 14),
            what="shoots of six leaves and more to two, the top and the outside hardest",
            because="The bud behind the last leaf grows next, and each trim doubles the twigs.",
        ),
        trims_again(
            "trim-next",
            by_warmth((7, 5), (7, 18), (8, 1)),
            what="the second flush to two leaves",
            because="It flushes again within weeks, and what runs on shades the inner twigs.",
        ),
        trims_again(
            "trim-late",
            by_warmth((8, 18), (8, 30), (9, 10)),
            what="what outgrew the outline",
            because="Only short growth follows so late, and it still ripens before the frost.",
        ),
        defoliates(
            "defoliate",
            at(19, 0, 8, 21),
            full=Way(
                "fully, the stalks left on",
                "A strong one in a warm place answers within weeks with leaves of half the size.",
            ),
            part=Way(
                "in part: the largest leaves, at the outside",
                "Its leaves are large for a small tree, and light has to reach the inner twigs.",
            ),
        ),
        prunes(
            "prune",
            at(1, -35, -21, -7),
            what="twigs to two buds, and those that died back",
            because="Thin twigs die back in winter, and shortly before growth the living buds "
            "show.",
        ),
        watches_for(
            "pests",
            at(10, 10, 25, 60),
            where="leaves, for nipple-like galls and white wool, and dense bunches of twigs",
            because="Psyllids and woolly aphids come with the leaves, and witches' brooms are cut "
            "out.",
        ),
    )
