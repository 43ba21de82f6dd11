"""The care of a small-leaved fig, quick to thicken, and led to root from its branches.

Unless a rule says otherwise, its figures are common practice, no source.
"""

from __future__ import annotations

from typing import ClassVar

from backbud.species import COMMON_PRACTICE, FROM_MEMORY, Fact, Rule
from backbud_species.habits.figs import FIG_SEAL
from backbud_species.habits.indoors import LAST_TRIM, WINTER_FEED, WINTER_LIGHT
from backbud_species.habits.tropical import TropicalFig
from backbud_species.habits.works import altered, by_warmth, watches_for, work

_CALIFORNIA = "University of California IPM, Cuban laurel thrips and weeping fig thrips"


class SmallLeavedFig(TropicalFig):
    """The banyan of the trade: fast, hardy in a room, with roots that drop from its branches."""

    rule_prefix = "fig"
    botanical = "Ficus microcarpa"
    common = ("small-leaved fig", "Chinese banyan", "Indian laurel fig")
    # The trade sells it as Ficus retusa, which to a botanist is another species.
    also = (
        "Ficus retusa",
        "Ficus nitida",
        "Ficus retusa var. nitida",
        "curtain fig",
        "Malayan banyan",
        "tiger bark fig",
        "ginseng ficus",
        "gajumaru",
    )
    habit = "A fast banyan that buds from any wood and lets roots down from its branches."
    # The RHS list itself was not at hand.
    hardiness = Fact("H1c", FROM_MEMORY)
    soil_ph = Fact((6.0, 7.5), FROM_MEMORY)
    usual_mix = Fact("akadama 2, pumice 1, lava 1", COMMON_PRACTICE)
    light = Fact(
        "Full sun in summer, and in winter the lightest window: shade makes large leaves.",
        COMMON_PRACTICE,
    )
    water = Fact(
        "Generous in growth, once the surface dries; it forgives a mistake.", COMMON_PRACTICE
    )
    wire_check_weeks = Fact((2, 3, 5), COMMON_PRACTICE)
    girth_growth_mm = Fact(10.0, COMMON_PRACTICE)
    advice = (
        "Winter it over 10 °C, and as light as can be.",
        "Feed it as long as it grows: all year in warmth and light.",
        "A move or a dark week drops leaves: keep it where it is, water less, and new ones come.",
        "Wash the white sap off skin, tools and bark.",
        "Of one sold with swollen roots, take off the shoots below the graft: their leaves are "
        "larger.",
    )
    never = (
        *TropicalFig.never,
        "Never leave its clippings where a cat or a dog can chew them.",
        "Never leave wire on it for a summer: it bites within a month.",
    )
    sources: ClassVar[dict[str, str]] = {"thrips": _CALIFORNIA}
    works: ClassVar[tuple[Rule, ...]] = altered(
        TropicalFig.works,
        FIG_SEAL,
        LAST_TRIM,
        WINTER_LIGHT,
        WINTER_FEED,
        work(
            "aerial-roots",
            "misted",
            by_warmth((6, 1), (7, 1), (8, 31)),
            what="the aerial roots that are wanted, daily while the air is warm",
            because="They lengthen only in moist warm air, and once in the soil each thickens "
            "into a trunk.",
            cautions=("Lead a wanted one down through a straw, and cut off all others.",),
        ),
        watches_for(
            "thrips",
            by_warmth((5, 10), (6, 10), (8, 31)),
            where="young leaves that are rolled or folded, with dark pits",
            because="Thrips fold the young leaves of this fig above all others and breed inside "
            f"({_CALIFORNIA}).",
            cautions=("Cut the folded leaves and the soft tips off and bin them.",),
        ),
    )
