"""The care of a premna, quick and hard to kill, which shrinks its leaves with every trim.

Unless a rule says otherwise, its figures are common practice, no source.
"""

from __future__ import annotations

from typing import ClassVar

from backbud.species import COMMON_PRACTICE, FROM_MEMORY, Fact, Rule
from backbud_species.habits.indoors import LAST_TRIM, WINTER_LIGHT
from backbud_species.habits.tropical import REPOTTED_IN_WARM_NIGHTS, STRIPPED_IN_WARMTH, Tropical
from backbud_species.habits.works import altered, at, trims, watches_for


class Premna(Tropical):
    """A tropical tree, quick and hard to kill, which shrinks its leaves with every trim."""

    rule_prefix = "premna"
    botanical = "Premna microphylla"
    common = ("premna", "musk maple")
    also = ("Premna serratifolia", "Premna obtusifolia", "alagaw-dagat", "sancang")
    habit = (
        "A quick tropical tree of small strong-smelling leaves and rough trunk, "
        "strongest at the top."
    )
    soil_ph = Fact((5.5, 7.8), FROM_MEMORY)
    root_share = Fact((0.5, 0.75), COMMON_PRACTICE)
    comes_in_below_c = Fact(10.0, FROM_MEMORY)
    water = Fact("Plenty: it drinks from morning to night in sun.", COMMON_PRACTICE)
    bark = Fact(
        "Rough bark forms early; green shoots bend to any line, and old wood snaps.",
        COMMON_PRACTICE,
    )
    toxicity = Fact("Not known to be poisonous; bruised leaves smell of musk.", FROM_MEMORY)
    advice = (
        *Tropical.advice,
        "Full sun and water, and short shoots by endless trimming.",
        "It roots from thick cuttings and answers a hard cut with dozens of buds.",
    )
    never = (
        *Tropical.never,
        "Never let it dry out in leaf: it drops all of them.",
    )
    works: ClassVar[tuple[Rule, ...]] = altered(
        Tropical.works,
        *REPOTTED_IN_WARM_NIGHTS,
        trims(
            "trim",
            at(19, -7, 3, 28),
            what="shoots of six leaves to one or two pairs, again whenever they run",
            because="Each trim halves the next leaves, and what runs on thickens its branch within "
            "weeks.",
        ),
        LAST_TRIM,
        STRIPPED_IN_WARMTH,
        WINTER_LIGHT,
        watches_for(
            "pests-spring",
            at(10, 7, 28, 75),
            where="soft tips and undersides of the leaves, for whitefly, mites and leaf rollers",
            because="Soft growth all the year draws whitefly and caterpillars that roll the "
            "leaves.",
        ),
    )
