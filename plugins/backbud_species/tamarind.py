"""The care of a tamarind, of feathered leaves that fold at night, slow to thicken and long to live.

Unless a rule says otherwise, its figures are common practice, no source.
"""

from __future__ import annotations

from typing import ClassVar

from backbud.species import COMMON_PRACTICE, FROM_MEMORY, Fact, Rule
from backbud_species.habits.indoors import LAST_TRIM, WINTER_LIGHT
from backbud_species.habits.tropical import REPOTTED_IN_WARM_NIGHTS, Tropical
from backbud_species.habits.works import altered, at, trims, watches_for


class Tamarind(Tropical):
    """A tropical tree, of feathered leaves that fold at night, slow to thicken and long to live."""

    rule_prefix = "tamarind"
    botanical = "Tamarindus indica"
    common = ("tamarind",)
    also = ("Indian date", "asam jawa", "imli")
    habit = "A slow tropical tree of feathered leaves that fold at night, strongest at the top."
    soil_ph = Fact((5.5, 6.5), "FAO, EcoCrop: Tamarindus indica")
    root_share = Fact((0.33, 0.5), COMMON_PRACTICE)
    comes_in_below_c = Fact(10.0, FROM_MEMORY)
    water = Fact(
        "Soaked, then left until the surface is dry: it bears drought and no wet cold.",
        COMMON_PRACTICE,
    )
    bark = Fact(
        "Rough dark bark comes with age; wood is hard, and only young twigs bend.", COMMON_PRACTICE
    )
    toxicity = Fact("Not known to be poisonous; the pulp of its pods is eaten.", FROM_MEMORY)
    advice = (
        *Tropical.advice,
        "Full sun and heat: it rests as soon as nights turn cool.",
        "Leaves that fold at night are its way; leaves that stay folded by day are thirst.",
    )
    never = (
        *Tropical.never,
        "Never keep it wet in the cold: it drops its leaves and then its twigs.",
    )
    works: ClassVar[tuple[Rule, ...]] = altered(
        Tropical.works,
        *REPOTTED_IN_WARM_NIGHTS,
        trims(
            "trim",
            at(19, -7, 3, 28),
            what="shoots to three or four leaves, the top hardest",
            because="Each shortened shoot makes two, and its small feathers keep the tree in "
            "scale.",
        ),
        LAST_TRIM,
        WINTER_LIGHT,
        watches_for(
            "pests-spring",
            at(10, 7, 28, 75),
            where="twigs and leaf stalks, for scale and mealybug",
            because="Scale and mealybug sit on the young twigs and drop honeydew on the feathers.",
        ),
    )
