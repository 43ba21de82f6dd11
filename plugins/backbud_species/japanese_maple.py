"""The care of a Japanese maple, stopped as its first pairs open, and shaded for its thin leaves.

Unless a rule says otherwise, its figures are common practice, no source.
"""

from __future__ import annotations

from typing import ClassVar

from backbud.species import COMMON_PRACTICE, FROM_MEMORY, Fact, Judge, Rule, StageMonths
from backbud_species.habits.heat import shades_in_heat
from backbud_species.habits.judges import sap_is_rising
from backbud_species.habits.maples import SpreadingMaple
from backbud_species.habits.works import (
    Way,
    altered,
    at,
    by_warmth,
    defoliates,
    feeds,
    looks_for_new_leaves,
    pinches,
    watches_for,
)

_MARYLAND = "University of Maryland Extension, Maryland Grows, 24 August 2018"


class JapaneseMaple(SpreadingMaple):
    """A fine-twigged maple, strongest at the top, whose long first pairs are stopped in the bud."""

    rule_prefix = "palmatum"
    botanical = "Acer palmatum"
    common = ("Japanese maple", "palmate maple")
    also = ("Acer polymorphum", "smooth Japanese maple", "yamamomiji", "momiji")
    habit = "A spreading tree of fine paired twigs, strongest at the top and the outside."
    # Of one cultivar; the RHS list itself was not at hand.
    rests_under_c = Fact(13.0, COMMON_PRACTICE)
    hardiness = Fact("H6", "RHS, New AGM shrubs and climbers: Acer palmatum Orange Dream")
    frost_limit_c = Fact(-10.0, f"{FROM_MEMORY} of Havis 1976")
    soil_ph = Fact(
        (5.0, 7.0),
        "Desired pH Ranges and Salt Tolerance of Common Nursery Plants, revised 9 September 2010",
    )
    usual_mix = Fact("akadama 4, pumice 1", COMMON_PRACTICE)
    # Maryland gives 14 °F (-10 °C) for the roots; the group's -5 °C spares the young ones.
    why_frost = "Its roots are shallow and fine and die in cold that its top still bears."
    light = Fact("Sun with shade in the afternoon; red and variegated forms burn first.", _MARYLAND)
    water = Fact("Evenly moist: drought kills its shallow roots and scorches leaves.", _MARYLAND)
    toxicity = Fact("Not known to harm people; keep maple leaves away from horses.", FROM_MEMORY)
    judges: ClassVar[tuple[Judge, ...]] = (sap_is_rising,)
    # For a cool temperate place; from memory. 19: first leaves full size and hardened.
    stage_months: ClassVar[StageMonths] = {
        1: ((2, 25), (3, 14), (3, 30)),
        7: ((3, 18), (4, 2), (4, 18)),
        10: ((3, 28), (4, 10), (4, 25)),
        19: ((5, 20), (6, 3), (6, 18)),
        91: ((8, 22), (9, 10), (9, 30)),
        93: ((10, 15), (11, 1), (11, 18)),
        97: ((11, 12), (11, 26), (12, 14)),
    }
    advice = (
        "Shade it from noon on in the hottest weeks: thin leaves burn at the edge.",
        "Keep it evenly moist and out of drying wind.",
        "Bring it in, or cover it, when frost comes on open leaves.",
    )
    works: ClassVar[tuple[Rule, ...]] = altered(
        SpreadingMaple.works,
        pinches(
            "pinch",
            at(10, 0, 4, 14),
            what="the heart of each strong shoot, as its first pair opens",
            because="Once the first pair has spread, the shoot behind it runs long and coarse; "
            "taken while it is soft, the twig stays short.",
            cautions=("Leave weak inner shoots, and every shoot that has to thicken or lengthen.",),
        ),
        defoliates(
            "defoliate",
            at(19, 0, 7, 18),
            full=Way(
                "fully, the stalks left on, if this is no red or cut-leaved form",
                "A strong green form in a warm place answers with finer twigs.",
            ),
            part=Way(
                "in part: one leaf of each outer pair",
                "Light reaches the inner twigs, and half the leaves still feed the tree.",
            ),
        ),
        looks_for_new_leaves(
            "new-leaves",
            because="New leaves stand about four weeks after a stripping; until then it drinks "
            "little and burns easily.",
        ),
        shades_in_heat(
            "shade",
            because="Its leaves are thin and scorch in sun and dry wind even in a wet pot.",
        ),
        feeds(
            "feed",
            at(19, 0, 10, 24),
            because="Fed before the first leaves are hard, a finished tree loses its short twigs.",
        ),
        watches_for(
            "wilt",
            by_warmth((6, 10), (7, 5), (8, 25)),
            where="single branches that wilt, and dark streaks under their bark",
            because="Verticillium wilts one branch after another from the roots up, and drought "
            "looks the same at first.",
            cautions=("Clean tools with alcohol between trees, and never reuse that soil.",),
        ),
    )
