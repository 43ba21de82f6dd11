"""What evergreens of the Mediterranean have in common. Figures: common practice."""

from __future__ import annotations

from typing import ClassVar

from backbud.species import COMMON_PRACTICE, FROM_MEMORY, Fact, RepotInterval, Rule, StageMonths
from backbud_species.habits.broadleaves import BroadleafEvergreen
from backbud_species.habits.works import altered, at, feeds, repots, wires


class MediterraneanEvergreen(BroadleafEvergreen):
    """An evergreen of dry summers and mild wet winters: sun, drainage, and no hard frost."""

    hardiness = Fact("H4", FROM_MEMORY)
    usual_mix = Fact("pumice 2, lava 1, akadama 1", COMMON_PRACTICE)
    repot_years = Fact((2, 3, 5), COMMON_PRACTICE)
    repot_interval = Fact(RepotInterval((1, 2, 3), (3, 5, 7)), COMMON_PRACTICE)
    root_share = Fact((0.3, 0.5), COMMON_PRACTICE)
    why_frost = "In a wet frozen pot its roots die long before the leaves are hurt."
    light = Fact("Full sun all year.", COMMON_PRACTICE)
    water = Fact("Soaked, then left until the surface is dry.", COMMON_PRACTICE)
    wire_check_weeks = Fact((5, 8, 12), COMMON_PRACTICE)
    # For a cool temperate place, under glass in frost; from memory.
    stage_months: ClassVar[StageMonths] = {
        1: ((3, 25), (4, 10), (4, 25)),
        7: ((4, 8), (4, 22), (5, 8)),
        10: ((4, 20), (5, 5), (5, 20)),
        19: ((6, 2), (6, 16), (7, 1)),
        91: ((9, 12), (10, 1), (10, 20)),
    }
    advice: ClassVar[tuple[str, ...]] = (
        "Give it the sunniest place there is, in winter too.",
        "Winter it light, cool and airy, near the frost: a warm room makes it soft and sick.",
        "Water it well in summer, little in winter, and never leave it standing in water.",
    )
    never: ClassVar[tuple[str, ...]] = (
        *BroadleafEvergreen.never,
        "Never winter it in a warm or a dark room.",
        "Never let the pot freeze through while it is wet.",
    )
    works: ClassVar[tuple[Rule, ...]] = altered(
        BroadleafEvergreen.works,
        *repots(
            "repot",
            at(7, 0, 12, 28),
            because="Its roots regrow only in warm soil, so it is repotted as growth begins and "
            "the wet cold is over.",
            cautions=("Shade and still air for three weeks, and little water.",),
        ),
        feeds(
            "feed",
            at(10, 0, 14, 28),
            because="What it takes up as the shoots grow makes the leaves it keeps for two years.",
        ),
        wires(
            "wire",
            at(10, 0, 14, 42),
            because="Stiff wood bends best in sap and warmth.",
        ),
    )
