"""The care of a stewartia, whose smooth red bark keeps every mark, and which wants no hot sun.

Unless a rule says otherwise, its figures are common practice, no source.
"""

from __future__ import annotations

from typing import ClassVar

from backbud.species import COMMON_PRACTICE, FROM_MEMORY, Fact, RepotInterval, Rule, StageMonths
from backbud_species.habits.broadleaves import BroadleafDeciduous
from backbud_species.habits.heat import shades_in_heat
from backbud_species.habits.works import (
    altered,
    at,
    between,
    pinches,
    prunes,
    repots,
    trims,
    watches_for,
    wires,
    without,
)
from backbud_species.habits.yearly import FROZEN_WOOD_SNAPS


class Stewartia(BroadleafDeciduous):
    """A fine-twigged tree of smooth red bark and short summer flowers, of moist acid woods."""

    rule_prefix = "stewartia"
    botanical = "Stewartia monadelpha"
    common = ("stewartia", "tall stewartia")
    also = ("Stewartia pseudocamellia", "Japanese stewartia", "himeshara", "natsutsubaki")
    habit = "A fine-twigged upright tree of smooth orange-red bark, strongest at the top."
    # The RHS list itself was not at hand.
    rests_under_c = Fact(13.0, COMMON_PRACTICE)
    hardiness = Fact("H5", FROM_MEMORY)
    soil_ph = Fact((4.5, 6.0), FROM_MEMORY)
    usual_mix = Fact("akadama 2, kanuma 1", COMMON_PRACTICE)
    repot_years = Fact((2, 3, 4), COMMON_PRACTICE)
    repot_interval = Fact(RepotInterval((1, 2, 3), (3, 4, 6)), COMMON_PRACTICE)
    root_share = Fact((0.33, 0.5), COMMON_PRACTICE)
    light = Fact("Morning sun and shade in the afternoon.", COMMON_PRACTICE)
    water = Fact("Evenly moist with soft water: it browns at once when dry.", COMMON_PRACTICE)
    bark = Fact("Its smooth red bark is its worth: one wire mark shows for ever.", COMMON_PRACTICE)
    toxicity = Fact("Not known to harm people or pets.", FROM_MEMORY)
    why_frost = "Its fine roots lie shallow in acid soil and freeze before the top does."
    wire_check_weeks = Fact((3, 5, 7), COMMON_PRACTICE)
    girth_growth_mm = Fact(4.0, FROM_MEMORY)
    # For a cool temperate place; from memory. 19: first leaves full size and hardened.
    stage_months: ClassVar[StageMonths] = {
        1: ((3, 8), (3, 24), (4, 8)),
        7: ((4, 1), (4, 14), (4, 28)),
        10: ((4, 10), (4, 24), (5, 8)),
        19: ((5, 30), (6, 12), (6, 26)),
        91: ((8, 20), (9, 8), (9, 28)),
        93: ((10, 12), (10, 28), (11, 12)),
        97: ((11, 3), (11, 18), (12, 3)),
    }
    advice = (
        "Soft water, shelter from wind, and never a dry day in leaf.",
        "Wipe the bark with a wet cloth in winter: its colour is half of the tree.",
    )
    never = (
        *BroadleafDeciduous.never,
        "Never give it lime.",
        "Never leave wire on it over the spring flush.",
    )
    works: ClassVar[tuple[Rule, ...]] = altered(
        without(BroadleafDeciduous.works, "trim-late"),
        *repots(
            "repot",
            between(1, 7),
            because="Its fine roots regrow as the buds swell, and keep part of the old acid soil.",
            cautions=("Keep it out of wind and sun until the leaves are hard.",),
        ),
        pinches(
            "pinch",
            at(10, 4, 12, 24),
            what="the tips of strong shoots behind their second or third leaf",
            because="Stopped while soft, a shoot keeps short joints; weak inner ones are left.",
        ),
        trims(
            "trim",
            at(19, 0, 8, 24),
            what="long shoots to two leaves, the top hardest",
            because="It makes one good flush, so it is cut once its leaves are hard and then left.",
        ),
        prunes(
            "prune",
            at(97, 0, 14, 60),
            what="twigs that cross or double, in small cuts",
            because="On the bare tree each twig is seen, and small cuts close where large ones "
            "rot.",
        ),
        wires(
            "wire",
            at(97, 0, 21, 75),
            because="Bare twigs are seen best, and the wire comes off before the spring flush.",
            cautions=(FROZEN_WOOD_SNAPS, "Pad it with paper or raffia."),
        ),
        shades_in_heat("shade", because="Its thin leaves brown at the edge in hot dry air."),
        watches_for(
            "pests",
            at(10, 10, 24, 50),
            where="soft tips and undersides of the leaves, and edges that brown",
            because="Aphids sit on the soft tips, and brown edges tell of lime, wind or a dry "
            "root.",
        ),
    )
