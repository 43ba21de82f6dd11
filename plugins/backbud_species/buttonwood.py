"""The care of a buttonwood, of tropical shores, with deadwood that the sea and storms carved.

Unless a rule says otherwise, its figures are common practice, no source.
"""

from __future__ import annotations

from typing import ClassVar

from backbud.species import COMMON_PRACTICE, FROM_MEMORY, Fact, Rule
from backbud_species.habits.deadwood import cares_for_deadwood, cleans_live_veins
from backbud_species.habits.indoors import LAST_TRIM, WINTER_LIGHT
from backbud_species.habits.tropical import REPOTTED_IN_WARM_NIGHTS, Tropical
from backbud_species.habits.works import altered, at, trims, watches_for


class Buttonwood(Tropical):
    """A tropical tree, of tropical shores, with deadwood that the sea and storms carved."""

    rule_prefix = "buttonwood"
    botanical = "Conocarpus erectus"
    common = ("buttonwood", "silver buttonwood")
    also = ("button mangrove", "Conocarpus sericeus", "Conocarpus erectus var. sericeus")
    habit = (
        "A tropical shore tree of old twisted deadwood beside thin live veins, strongest "
        "at its tips."
    )
    soil_ph = Fact((6.0, 7.8), FROM_MEMORY)
    root_share = Fact((0.2, 0.33), COMMON_PRACTICE)
    comes_in_below_c = Fact(10.0, FROM_MEMORY)
    water = Fact("Plenty in warmth, over the leaves too: it lives beside the sea.", COMMON_PRACTICE)
    bark = Fact("Flaking bark over thin live veins: bend young shoots only.", COMMON_PRACTICE)
    toxicity = Fact("Not known to be poisonous.", FROM_MEMORY)
    advice = (
        *Tropical.advice,
        "Full sun, heat and water in summer; mist its leaves.",
        "Its live veins are thin: never cut one without seeing where it goes.",
    )
    never = (
        *Tropical.never,
        "Never work its roots but in the hottest weeks.",
        "Never let cold air stand round its wet roots.",
    )
    works: ClassVar[tuple[Rule, ...]] = altered(
        Tropical.works,
        *REPOTTED_IN_WARM_NIGHTS,
        trims(
            "trim",
            at(19, -7, 3, 28),
            what="shoots to two or four leaves once they have run to eight",
            because="Shoots that ran feed the thin live vein, and each cut brings buds along the "
            "branch.",
        ),
        LAST_TRIM,
        cleans_live_veins("live-veins"),
        cares_for_deadwood(
            "deadwood",
            because="In a wet warm place deadwood rots within years unless it is cleaned and "
            "painted in dry heat.",
        ),
        WINTER_LIGHT,
        watches_for(
            "pests-spring",
            at(10, 7, 28, 75),
            where="soft tips and undersides of the leaves, for aphids, scale and sooty mould",
            because="Scale and whitefly sit under the leaves, and mould blackens what they drop.",
        ),
    )
