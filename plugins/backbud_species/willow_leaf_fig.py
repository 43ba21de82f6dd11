"""The care of a willow-leaf fig, thinned and stripped for twigs as fine as its narrow leaves.

Unless a rule says otherwise, its figures are common practice, no source.
"""

from __future__ import annotations

from typing import ClassVar

from backbud.species import COMMON_PRACTICE, FROM_MEMORY, Fact, Rule
from backbud_species.habits.figs import FIG_SEAL
from backbud_species.habits.indoors import LAST_TRIM, WINTER_FEED, WINTER_LIGHT
from backbud_species.habits.tropical import TropicalFig
from backbud_species.habits.works import Way, altered, at, by_warmth, defoliates, watches_for, work


class WillowLeafFig(TropicalFig):
    """A fig known from pots and gardens alone, with narrow leaves and the finest twigs of all."""

    rule_prefix = "willow-fig"
    # Named by C. C. Berg in 2004, Brittonia 56: 54, from garden plants; from memory. The older
    # names of the trade belong to other species.
    botanical = "Ficus salicaria"
    common = ("willow-leaf fig", "willow-leaf ficus", "narrow-leaf fig")
    also = (
        "Ficus neriifolia",
        "Ficus salicifolia",
        "Ficus nerifolia",
        "willow-leaved fig",
    )
    habit = "A shrubby fig of narrow hanging leaves and fine twigs, with a wide flare at the base."
    # The RHS list itself was not at hand.
    hardiness = Fact("H1c", FROM_MEMORY)
    soil_ph = Fact((6.0, 7.5), FROM_MEMORY)
    usual_mix = Fact("akadama 2, pumice 1, lava 1", COMMON_PRACTICE)
    light = Fact("Full sun in summer; in winter it sheds what stands in the dark.", COMMON_PRACTICE)
    water = Fact("Never dry in growth: it wilts before other figs do.", COMMON_PRACTICE)
    wire_check_weeks = Fact((2, 4, 6), COMMON_PRACTICE)
    girth_growth_mm = Fact(8.0, COMMON_PRACTICE)
    advice = (
        "Winter it over 12 °C, and as light as can be.",
        "Feed it as long as it grows: all year in warmth and light.",
        "When leaves fall in winter, move it nearer the light and water less.",
        "Wash the white sap off skin, tools and bark.",
    )
    never = (
        *TropicalFig.never,
        "Never leave its clippings where a cat or a dog can chew them.",
        "Never cut a weak twig back to bare wood: it dies where a strong one would bud.",
    )
    works: ClassVar[tuple[Rule, ...]] = altered(
        TropicalFig.works,
        FIG_SEAL,
        LAST_TRIM,
        WINTER_LIGHT,
        WINTER_FEED,
        defoliates(
            "defoliate",
            at(19, 0, 14, 35),
            full=Way(
                "fully, the tips cut too",
                "Its leaves are fine already, so it is stripped for the sake of new twigs, and "
                "only a strong one in warmth answers.",
            ),
            part=Way(
                "in part: outer leaves",
                "Light reaches the inner twigs, which it drops first when they stand in shade.",
            ),
        ),
        work(
            "thin",
            "thinned",
            by_warmth((5, 20), (6, 10), (7, 15)),
            what="shoots, to two at each fork",
            because="It buds in bunches at every cut, and bunches swell to knobs within a season.",
        ),
        watches_for(
            "scale",
            by_warmth((5, 10), (6, 5), (7, 31)),
            where="twigs and leaf ribs, for flat brown scales and honeydew below",
            because="What lived on it over winter spreads as soon as the sap moves.",
        ),
    )
