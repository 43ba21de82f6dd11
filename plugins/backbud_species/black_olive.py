"""The care of a black olive, whose zigzag twigs build layers by themselves.

Unless a rule says otherwise, its figures are common practice, no source.
"""

from __future__ import annotations

from typing import ClassVar

from backbud.species import COMMON_PRACTICE, FROM_MEMORY, Fact, Rule
from backbud_species.habits.indoors import LAST_TRIM, WINTER_LIGHT
from backbud_species.habits.tropical import REPOTTED_IN_WARM_NIGHTS, Tropical
from backbud_species.habits.works import altered, at, trims, watches_for


class BlackOlive(Tropical):
    """A tropical tree, whose zigzag twigs build layers by themselves."""

    rule_prefix = "black-olive"
    botanical = "Terminalia molinetii"
    common = ("black olive", "spiny black olive")
    also = ("Bucida spinosa", "dwarf black olive", "Terminalia buceras", "Bucida buceras")
    habit = (
        "A layered tropical tree of tiny whorled leaves on zigzag thorny twigs, "
        "strongest at the top."
    )
    soil_ph = Fact((6.0, 7.8), FROM_MEMORY)
    root_share = Fact((0.2, 0.35), COMMON_PRACTICE)
    comes_in_below_c = Fact(10.0, FROM_MEMORY)
    water = Fact("Evenly moist: it drops leaves when dry and when sodden.", COMMON_PRACTICE)
    bark = Fact(
        "Its wood is very hard: only green shoots bend, and old ones split.", COMMON_PRACTICE
    )
    toxicity = Fact(
        "Not known to be poisonous; its thorns scratch, and its leaves stain.", FROM_MEMORY
    )
    advice = (
        *Tropical.advice,
        "Full sun and warmth, salt wind does it no harm.",
        "Let it build its layers: cut what grows straight up or down.",
    )
    never = (
        *Tropical.never,
        "Never bare its roots: it may never answer.",
        "Never repot it but in the warmest weeks.",
    )
    works: ClassVar[tuple[Rule, ...]] = altered(
        Tropical.works,
        *REPOTTED_IN_WARM_NIGHTS,
        trims(
            "trim",
            at(19, -7, 3, 28),
            what="long shoots to the second or third whorl, and those that grow up or down",
            because="It forks in flat whorls by itself, so the cut only chooses which fork stays.",
        ),
        LAST_TRIM,
        WINTER_LIGHT,
        watches_for(
            "pests-spring",
            at(10, 7, 28, 75),
            where="undersides of the leaves, for mites, galls and black mould",
            because="Mites gall the small leaves, and mould grows where scale drops honeydew.",
        ),
    )
