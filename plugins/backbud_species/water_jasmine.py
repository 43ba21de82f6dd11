"""The care of a water jasmine, of hanging white flowers that follow each trim and each stripping.

Unless a rule says otherwise, its figures are common practice, no source.
"""

from __future__ import annotations

from typing import ClassVar

from backbud.species import COMMON_PRACTICE, FROM_MEMORY, Fact, Rule
from backbud_species.habits.indoors import LAST_TRIM, WINTER_LIGHT
from backbud_species.habits.tropical import Tropical
from backbud_species.habits.works import Way, altered, at, defoliates, repots, trims, watches_for


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
            what="shoots that have flowered to two pairs",
            because="Its flowers hang from new shoots, so each cut and each stripping brings the "
            "next bloom.",
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
            where="soft tips, for oleander aphids, and twigs, for scale and mealybug",
            because="Yellow aphids sit on each soft tip of its family, and scale on the twigs "
            "behind.",
        ),
    )
