"""The care of a desmodium, quick and rough-barked, of warm shores.

Unless a rule says otherwise, its figures are common practice, no source.
"""

from __future__ import annotations

from typing import ClassVar

from backbud.species import COMMON_PRACTICE, FROM_MEMORY, Fact, Rule
from backbud_species.habits.indoors import LAST_TRIM, WINTER_LIGHT
from backbud_species.habits.tropical import Tropical
from backbud_species.habits.works import Way, altered, at, defoliates, repots, trims, watches_for


class Desmodium(Tropical):
    """A tropical tree, quick and rough-barked, of warm shores."""

    rule_prefix = "desmodium"
    botanical = "Dendrolobium umbellatum"
    common = ("desmodium", "horse bush")
    also = ("Desmodium umbellatum", "Hedysarum umbellatum")
    habit = (
        "A quick tropical shrub of three-part leaves and rough corky trunk, strongest at the top."
    )
    soil_ph = Fact((5.5, 7.8), FROM_MEMORY)
    root_share = Fact((0.4, 0.6), COMMON_PRACTICE)
    comes_in_below_c = Fact(10.0, FROM_MEMORY)
    water = Fact("Plenty in growth, and never dry for a day in sun.", COMMON_PRACTICE)
    bark = Fact(
        "Corky bark forms early; young shoots bend, and old wood is stiff.", COMMON_PRACTICE
    )
    toxicity = Fact("Not known to be poisonous.", FROM_MEMORY)
    advice = (
        *Tropical.advice,
        "Full sun, warmth and water.",
        "Let shoots run for thickness first: it thickens in a season.",
    )
    never = (
        *Tropical.never,
        "Never leave it in cool wet soil.",
    )
    works: ClassVar[tuple[Rule, ...]] = altered(
        Tropical.works,
        *repots(
            "repot",
            at(10, 21, 42, 70),
            because="Its roots regrow only in steady warmth, so it is repotted when the nights are "
            "warm and never in the cool half of the year.",
            cautions=("Warmth, shade and no wind afterwards.",),
        ),
        trims(
            "trim",
            at(19, -7, 3, 28),
            what="shoots of five leaves to one or two",
            because="Its three-part leaves shrink with each trim, and two shoots come at each cut.",
        ),
        LAST_TRIM,
        defoliates(
            "defoliate",
            at(19, 0, 12, 35),
            full=Way(
                "fully, the stalks left on",
                "A strong one in warmth answers within weeks with smaller leaves and finer twigs.",
            ),
            part=Way(
                "in part: large and outer leaves",
                "Light reaches the inner twigs, and the tree keeps enough leaf to live from.",
            ),
        ),
        WINTER_LIGHT,
        watches_for(
            "pests-spring",
            at(10, 7, 28, 75),
            where="soft tips and undersides of the leaves, for mites, aphids and leaf rollers",
            because="Quick soft growth draws aphids, and mites come with dry air.",
        ),
    )
