"""The care of a Chinese quince, grown for flaking bark and autumn colour more than for its fruit.

Unless a rule says otherwise, its figures are common practice, no source.
"""

from __future__ import annotations

from typing import ClassVar

from backbud.species import COMMON_PRACTICE, FROM_MEMORY, Fact, RepotInterval, Rule, StageMonths
from backbud_species.habits.blossom import spares_flowers, thins_fruit, watches_for_fireblight
from backbud_species.habits.flowering import SpringBlossom
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


class ChineseQuince(SpringBlossom):
    """A stiff upright tree of flaking bark, pink single flowers and large yellow fruit."""

    rule_prefix = "chinese-quince"
    botanical = "Pseudocydonia sinensis"
    common = ("Chinese quince",)
    also = ("Cydonia sinensis", "Chaenomeles sinensis", "karin")
    habit = "A stiff upright tree of flaking patched bark and fluted trunk, strongest at the top."
    # The RHS list itself was not at hand.
    rests_under_c = Fact(18.0, COMMON_PRACTICE)
    hardiness = Fact("H5", FROM_MEMORY)
    soil_ph = Fact((5.5, 7.2), FROM_MEMORY)
    repot_years = Fact((1, 2, 4), COMMON_PRACTICE)
    repot_interval = Fact(RepotInterval((1, 2, 3), (2, 3, 5)), COMMON_PRACTICE)
    root_share = Fact((0.4, 0.6), COMMON_PRACTICE)
    bark = Fact("Its bark flakes to patches and is its worth; old wood splits.", COMMON_PRACTICE)
    toxicity = Fact("Seeds are poisonous in quantity; the fruit is hard and harmless.", FROM_MEMORY)
    why_frost = "It wakes early, and its roots and first leaves meet late frost."
    wire_check_weeks = Fact((4, 6, 8), COMMON_PRACTICE)
    # For a cool temperate place; from memory. It leafs early.
    stage_months: ClassVar[StageMonths] = {
        1: ((2, 18), (3, 6), (3, 22)),
        7: ((3, 10), (3, 25), (4, 9)),
        10: ((3, 22), (4, 6), (4, 20)),
        19: ((5, 18), (6, 1), (6, 15)),
        60: ((4, 8), (4, 22), (5, 6)),
        65: ((4, 15), (4, 28), (5, 12)),
        69: ((4, 25), (5, 9), (5, 23)),
        91: ((8, 20), (9, 8), (9, 28)),
        93: ((10, 15), (10, 31), (11, 15)),
        97: ((11, 8), (11, 22), (12, 8)),
    }
    advice = (
        "Full sun and plenty of water in leaf.",
        "Let it bear one fruit at most, and only once it is thick enough for the weight.",
    )
    never = (
        *SpringBlossom.never,
        "Never let fruit hang on a thin branch: it bends and stays bent.",
    )
    works: ClassVar[tuple[Rule, ...]] = altered(
        without(SpringBlossom.works, "deadhead"),
        *repots(
            "repot",
            between(1, 7),
            because="It wakes early, and roots cut as the buds swell regrow before the leaves want "
            "their water.",
            cautions=("Knobs on the roots are crown gall: cut them off and clean the tools.",),
        ),
        spares_flowers(
            "disbud",
            at(60, -14, -6, 0),
            what="most of the flower buds",
            because="Each flower may set a fruit far too large for a small tree.",
        ),
        thins_fruit(
            "fruit",
            at(69, 21, 35, 60),
            what="young fruit, all but one on a strong tree",
            because="One fruit weighs and costs more than a branch of a small tree can bear.",
        ),
        pinches(
            "pinch",
            at(10, 10, 18, 35),
            what="the tips of strong shoots behind their second leaf",
            because="Its shoots run straight and stiff, and only stopped ones make a fork.",
        ),
        trims(
            "trim",
            at(19, 0, 8, 24),
            what="long shoots to two leaves; short spurs left whole",
            because="Once its leaves are hard a shortened shoot branches, and spurs bear flowers.",
        ),
        prunes(
            "prune",
            at(97, 0, 14, 60),
            what="what crosses or doubles, and long shoots to two buds",
            because="On the bare tree the line of each stiff branch is seen.",
            cautions=("Seal large cuts: they close slowly and rot.",),
        ),
        wires(
            "wire",
            at(97, 0, 21, 75),
            because="Only twigs of a year or two still bend; older wood splits.",
            cautions=(FROZEN_WOOD_SNAPS,),
        ),
        watches_for_fireblight("fireblight", at(65, 3, 20, 60)),
        watches_for(
            "pests",
            at(10, 14, 30, 60),
            where="leaves, for orange spots, and forks, for white wool, brushed off",
            because="Rust comes over from junipers near by, and woolly aphids swell the twigs.",
        ),
    )
