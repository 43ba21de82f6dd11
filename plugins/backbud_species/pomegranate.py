"""The care of a pomegranate: the last to wake, it flowers on short shoots that are left whole.

Unless a rule says otherwise, its figures are common practice, no source.
"""

from __future__ import annotations

from typing import ClassVar

from backbud.species import COMMON_PRACTICE, FROM_MEMORY, Fact, RepotInterval, Rule, StageMonths
from backbud_species.habits.blossom import spares_flowers, thins_fruit
from backbud_species.habits.broadleaves import BroadleafDeciduous
from backbud_species.habits.works import (
    altered,
    at,
    between,
    by_warmth,
    feeds,
    protects_leaves,
    prunes,
    repots,
    trims,
    watches_for,
    wires,
    without,
    work,
)

_RHS = "RHS, Punica granatum, read in a copy of the page"
# Thirteen stages in BBCH codes, counted in degree-days over 10 °C.
_STAGES = "Annals of Applied Biology 130, 1997, 135 to 140: stages of the pomegranate"


class Pomegranate(BroadleafDeciduous):
    """A thorny tree of hot summers that flowers at the tips of this year's short shoots."""

    rule_prefix = "pomegranate"
    botanical = "Punica granatum"
    common = ("pomegranate", "dwarf pomegranate")
    also = ("Punica nana", "Punica granatum var. nana", "zakuro", "himezakuro", "nejikan zakuro")
    habit = "A twiggy tree with twisting bark, last to leaf, strongest at the top and the base."
    rests_under_c = None
    hardiness = Fact("H3", _RHS)
    # The RHS page says acid, neutral and alkaline, without figures.
    soil_ph = Fact((6.5, 7.5), "FAO, EcoCrop: Punica granatum")
    usual_mix = Fact("akadama 2, pumice 1, lava 1", COMMON_PRACTICE)
    repot_years = Fact((2, 3, 5), COMMON_PRACTICE)
    repot_interval = Fact(RepotInterval((1, 2, 3), (3, 4, 6)), COMMON_PRACTICE)
    root_share = Fact((0.3, 0.6), COMMON_PRACTICE)
    frost_limit_c = Fact(-3.0, FROM_MEMORY)
    why_frost = "It comes from hot dry countries, and its roots rot after frost in a wet pot."
    light = Fact("Full sun and warmth, sheltered.", _RHS)
    water = Fact("Freely in growth, sparingly in winter.", _RHS)
    bark = Fact(
        "Its bark flakes and its wood twists; twigs are brittle, and old branches split.",
        COMMON_PRACTICE,
    )
    toxicity = Fact("Fruit is eaten; bark and roots are poisonous in quantity.", FROM_MEMORY)
    wire_check_weeks = Fact((4, 6, 9), COMMON_PRACTICE)
    girth_growth_mm = Fact(4.0, FROM_MEMORY)
    base_c = Fact(10.0, _STAGES)
    # For a cool temperate place; from memory. It leafs last of all.
    stage_months: ClassVar[StageMonths] = {
        1: ((4, 1), (4, 17), (5, 3)),
        7: ((4, 18), (5, 3), (5, 18)),
        10: ((4, 28), (5, 13), (5, 28)),
        19: ((6, 10), (6, 25), (7, 10)),
        60: ((6, 15), (6, 30), (7, 15)),
        65: ((6, 30), (7, 14), (7, 29)),
        69: ((7, 24), (8, 8), (8, 14)),
        91: ((9, 1), (9, 18), (10, 6)),
        93: ((10, 5), (10, 20), (11, 5)),
        97: ((10, 28), (11, 12), (11, 28)),
    }
    advice = (
        "The hottest and sunniest place in summer: without heat it does not flower.",
        "In winter cold but hardly any frost, and nearly dry; bare, it needs no light.",
        "Wait for it in spring: it leafs weeks after other trees.",
        "Flowers with a narrow base fall by themselves; those with a swollen base may set fruit.",
    )
    never = (
        *BroadleafDeciduous.never,
        "Never shorten every shoot in early summer: flowers come at the tips of this year's "
        "short shoots.",
        "Never repot it in cold soil.",
    )
    works: ClassVar[tuple[Rule, ...]] = altered(
        without(BroadleafDeciduous.works, "trim-late"),
        *repots(
            "repot",
            between(1, 7),
            because="It wakes last of all, and roots cut before the soil is warm rot.",
            cautions=("Warmth and no wind afterwards, and little water until it leafs.",),
        ),
        protects_leaves(
            "late-frost",
            10,
            because="Its red young leaves bear no frost at all, and with them go the flowers.",
            frost_c=1.0,
        ),
        spares_flowers(
            "disbud",
            at(60, 0, 14, 28),
            what="flower buds beyond two to a branch",
            because="It flowers on while it should make twigs.",
        ),
        trims(
            "trim",
            at(60, 0, 10, 24),
            what="long shoots without a flower bud to two or three pairs; short ones left whole",
            because="The short shoots carry flowers at their tips, and long ones only run.",
        ),
        work(
            "suckers",
            "rubbed",
            at(19, -21, 0, 42),
            what="suckers from roots and trunk",
            because="It suckers from the base all summer, at the cost of the crown.",
        ),
        thins_fruit(
            "fruit",
            by_warmth((8, 10), (8, 25), (9, 15)),
            what="fruit to one or two on the whole tree, and none on thin branches",
            because="One fruit weighs as much as the branch that carries it, and costs next year's "
            "flowering shoots.",
        ),
        thins_fruit(
            "fruit-off",
            by_warmth((10, 25), (11, 10), (11, 30)),
            what="all fruit off",
            because="Fruit seldom ripens in a cool autumn, and a hanging one weakens the wood "
            "before winter.",
        ),
        feeds(
            "feed",
            at(10, 14, 28, 56),
            because="It makes flowering shoots of what it takes up in the first warm weeks.",
        ),
        feeds(
            "feed-autumn",
            by_warmth((8, 10), (8, 25), (9, 15)),
            what="with little nitrogen and much potash",
            because="Ripe wood bears the winter and next year's flowers, and soft late growth "
            "bears neither.",
        ),
        prunes(
            "prune",
            at(1, -7, 3, 14, end=7),
            what="dead tips and what crosses; short strong twigs of last year left whole",
            because="Only when the buds swell does it show which twigs winter has killed.",
            cautions=("Those short twigs bear this year's flowering shoots.",),
        ),
        wires(
            "wire",
            by_warmth((6, 5), (6, 28), (7, 31)),
            because="Its twigs are brittle at rest and bend in warm growth, if only young ones.",
        ),
        watches_for(
            "pests",
            at(10, 10, 28, 75),
            where="soft tips, undersides of the leaves, and flower buds",
            because="Aphids and whitefly cripple the tips that are to flower.",
        ),
    )
