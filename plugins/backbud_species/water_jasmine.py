"""The care of a water jasmine, of hanging white flowers that follow each trim and each stripping.

Unless a rule says otherwise, its figures are common practice, no source.
"""

from __future__ import annotations

from typing import ClassVar

from backbud.species import COMMON_PRACTICE, FROM_MEMORY, Fact, Rule
from backbud_species.habits.indoors import LAST_TRIM, WINTER_LIGHT
from backbud_species.habits.tropical import REPOTTED_IN_WARM_NIGHTS, STRIPPED_IN_WARMTH, Tropical
from backbud_species.habits.works import altered, at, trims, watches_for


class WaterJasmine(Tropical):
    """A tropical tree, of hanging white flowers that follow each trim and each stripping."""

    rule_prefix = "water-jasmine"
    botanical = "Wrightia religiosa"
    common = ("water jasmine",)
    also = ("Echites religiosus", "sui mei", "shui mei", "wild water plum")
    habit = "A fine-twigged tropical shrub of hanging white scented flowers, strongest at the top."
    soil_ph = Fact((5.5, 7.0), FROM_MEMORY)
    root_share = Fact((0.4, 0.6), COMMON_PRACTICE)
    comes_in_below_c = Fact(12.0, FROM_MEMORY)
    water = Fact(
        "Plenty: it comes from wet banks, and its pot may stand in shallow water.", COMMON_PRACTICE
    )
    bark = Fact(
        "Its bark is pale and smooth and marks fast; twigs bend well while green.", COMMON_PRACTICE
    )
    toxicity = Fact(
        "Its milky sap irritates skin and eyes, and it is poisonous if eaten.", FROM_MEMORY
    )
    advice = (
        *Tropical.advice,
        "Full sun and much water bring its flowers.",
        "Rain water and warmth: its leaves yellow on cold wet roots.",
    )
    never = (
        *Tropical.never,
        "Never let it dry out in bud: the flowers fall.",
    )
    works: ClassVar[tuple[Rule, ...]] = altered(
        Tropical.works,
        *REPOTTED_IN_WARM_NIGHTS,
        trims(
            "trim",
            at(19, -7, 3, 28),
            what="shoots that have flowered to two pairs",
            because="Its flowers hang from new shoots, so each cut and each stripping brings the "
            "next bloom.",
        ),
        LAST_TRIM,
        STRIPPED_IN_WARMTH,
        WINTER_LIGHT,
        watches_for(
            "pests-spring",
            at(10, 7, 28, 75),
            where="soft tips, for oleander aphids, and twigs, for scale and mealybug",
            because="Yellow aphids sit on each soft tip of its family, and scale on the twigs "
            "behind.",
        ),
    )
