"""The care of a Fukien tea, kept warm all year, for its roots regrow slowly and only in warmth.

Unless a rule says otherwise, its figures are common practice, no source.
"""

from __future__ import annotations

from typing import ClassVar

from backbud.species import COMMON_PRACTICE, FROM_MEMORY, Fact, RepotInterval, Rule
from backbud_species.habits.indoors import LAST_TRIM, WINTER_FEED, WINTER_LIGHT
from backbud_species.habits.tropical import Tropical
from backbud_species.habits.works import (
    altered,
    at,
    by_warmth,
    prunes,
    repots,
    trims,
    watches_for,
    wires,
    work,
)


class FukienTea(Tropical):
    """A slow tropical shrub of dark leaves in tufts, in flower and fruit most of the year."""

    rule_prefix = "fukien-tea"
    botanical = "Ehretia microphylla"
    common = ("Fukien tea", "Fujian tea", "Philippine tea tree")
    # Synonyms and the Japanese name: Global Information Hub on Integrated Medicine (Malaysia).
    also = (
        "Carmona retusa",
        "Carmona microphylla",
        "Ehretia buxifolia",
        "Cordia retusa",
        "carmona",
        "fukumangi",
    )
    habit = "A slow shrub of shiny rough leaves in tufts on short spurs, with stiff long shoots."
    # The RHS list itself was not at hand.
    hardiness = Fact("H1b", FROM_MEMORY)
    soil_ph = Fact((5.5, 6.8), FROM_MEMORY)
    usual_mix = Fact("akadama 2, pumice 1, kanuma 1", COMMON_PRACTICE)
    repot_years = Fact((2, 3, 4), COMMON_PRACTICE)
    repot_interval = Fact(RepotInterval((1, 2, 3), (3, 4, 6)), COMMON_PRACTICE)
    root_share = Fact((0.2, 0.35), COMMON_PRACTICE)
    # In a cool temperate place it stays in all year.
    comes_in_below_c = Fact(12.0, COMMON_PRACTICE)
    why_frost = "Its roots stop at about 12 °C, and then it drops its leaves in a wet pot."
    light = Fact(
        "As light as can be all year; out of the fiercest noon sun in summer.", COMMON_PRACTICE
    )
    water = Fact(
        "Evenly moist, with rain or soft water: lime turns its leaves yellow.", COMMON_PRACTICE
    )
    toxicity = Fact("Not known to harm people or pets.", FROM_MEMORY)
    bark = Fact("Its wood sets hard early and its twigs snap at the fork.", COMMON_PRACTICE)
    wire_check_weeks = Fact((5, 8, 12), COMMON_PRACTICE)
    girth_growth_mm = Fact(3.0, COMMON_PRACTICE)
    advice = (
        "Keep it warm, over 13 °C by night, and as light as can be, with a lamp in winter.",
        "Water with rain water, and never let the ball dry out or stand wet.",
        "Moist air helps it: a dish of wet gravel below, not a spray on the leaves.",
        "It grows on all year in a warm light room, and is fed weakly as long as it does.",
    )
    never = (
        "Never put it in a draught, on a cold sill or over a heater.",
        "Never take all its leaves, nor much root: it comes back slowly.",
        "Never spray it with anything that was not tried on one twig: its leaves burn.",
    )
    works: ClassVar[tuple[Rule, ...]] = altered(
        Tropical.works,
        *repots(
            "repot",
            at(10, 14, 35, 56),
            because="Its roots regrow slowly and only in warmth, so little goes, in early summer.",
            cautions=("A closed bag or moist shade for three weeks.",),
        ),
        prunes(
            "prune",
            at(10, 7, 21, 49),
            what="what crosses or doubles, to a side twig with leaves",
            because="It buds from old wood on a strong tree, but a leafless stub may die back.",
        ),
        trims(
            "trim",
            at(19, -10, 4, 21),
            what="long shoots of six to eight leaves to two or three",
            because="Long shoots shade the spurs with their tufts of leaves, and cut ones make "
            "new spurs.",
        ),
        LAST_TRIM,
        wires(
            "wire",
            at(10, 0, 21, 60),
            because="Only shoots of this year bend, and the wood sets hard once they are brown.",
        ),
        work(
            "fruit",
            "thinned",
            by_warmth((7, 1), (7, 25), (9, 10)),
            what="fruit, to a few",
            because="It flowers and sets fruit for months, and a small tree lives on what seed "
            "would take.",
        ),
        WINTER_LIGHT,
        WINTER_FEED,
        watches_for(
            "pests-spring",
            by_warmth((4, 10), (5, 5), (7, 15)),
            where="scale, mealybug, whitefly and mites under the tufts, and pale leaves with green "
            "ribs",
            because="All that lives in a room likes it best, and pale leaves tell of lime or cold "
            "roots.",
        ),
    )
