"""The care of a desmodium, quick and rough-barked, of warm shores.

Unless a rule says otherwise, its figures are common practice, no source.
"""

from __future__ import annotations

from typing import ClassVar

from backbud.species import COMMON_PRACTICE, FROM_MEMORY, Fact, Rule
from backbud_species.habits.indoors import LAST_TRIM, WINTER_LIGHT
from backbud_species.habits.tropical import REPOTTED_IN_WARM_NIGHTS, STRIPPED_IN_WARMTH, Tropical
from backbud_species.habits.works import altered, at, trims, watches_for


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
        *REPOTTED_IN_WARM_NIGHTS,
        trims(
            "trim",
            at(19, -7, 3, 28),
            what="shoots of five leaves to one or two",
            because="Its three-part leaves shrink with each trim, and two shoots come at each cut.",
        ),
        LAST_TRIM,
        STRIPPED_IN_WARMTH,
        WINTER_LIGHT,
        watches_for(
            "pests-spring",
            at(10, 7, 28, 75),
            where="soft tips and undersides of the leaves, for mites, aphids and leaf rollers",
            because="Quick soft growth draws aphids, and mites come with dry air.",
        ),
    )
