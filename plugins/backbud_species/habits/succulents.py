"""What trees that keep water in leaf and stem have in common. Figures: common practice."""

from __future__ import annotations

from typing import ClassVar

from backbud.species import COMMON_PRACTICE, FROM_MEMORY, Fact, RepotInterval, Rule
from backbud_species.habits.indoors import WINTER_LIGHT
from backbud_species.habits.tropical import Tropical
from backbud_species.habits.works import (
    after_work,
    altered,
    at,
    by_warmth,
    feeds,
    repots,
    trims,
    without,
)


class Succulent(Tropical):
    """A tree of dry countries: it rots from wet far sooner than it dies of thirst."""

    hardiness = Fact("H2", FROM_MEMORY)
    usual_mix = Fact("pumice 2, lava 1, akadama 1", COMMON_PRACTICE)
    repot_years = Fact((2, 3, 5), COMMON_PRACTICE)
    repot_interval = Fact(RepotInterval((1, 2, 3), (3, 4, 6)), COMMON_PRACTICE)
    root_share = Fact((0.4, 0.6), COMMON_PRACTICE)
    comes_in_below_c = Fact(8.0, COMMON_PRACTICE)
    why_frost = "Its cells are full of water and burst when they freeze."
    advice: ClassVar[tuple[str, ...]] = (
        "When in doubt do not water: shrivelled leaves fill again, rotten roots do not.",
        "In winter it stands light and cool, and has a little water when its leaves go soft.",
        "Cut twigs root by themselves on dry grit, once the cut has dried.",
    )
    never: ClassVar[tuple[str, ...]] = (
        "Never let it freeze, and never keep it wet in the cold.",
        "Never water right after its roots were cut.",
        "Never seal its cuts: they have to dry.",
    )
    works: ClassVar[tuple[Rule, ...]] = altered(
        without(Tropical.works, "seal", "trim-late"),
        *repots(
            "repot",
            at(10, 7, 28, 70),
            because="Cut roots close in dry warmth and rot in cool wet soil, so it waits for warm "
            "nights.",
            cautions=("Let it dry out for a week before, and pot it into dry soil.",),
        ),
        after_work(
            "water-again",
            ("repotted", "root-pruned", "potted-on"),
            "watered",
            (6, 9, 16),
            what="for the first time",
            because="Wet gets into cut roots as rot until the cuts have dried, about a week.",
            only_after=lambda done: not done.has("no root work"),
        ),
        trims(
            "trim",
            at(19, -14, 0, 35),
            what="shoots to one or two pairs, the top and the outside hardest",
            because="Each cut above a pair makes two shoots, and the weight of long ones breaks "
            "the branch.",
            cautions=("Cut it a little dry, and keep water off the cuts until they are closed.",),
        ),
        feeds(
            "feed-summer",
            by_warmth((7, 10), (7, 25), (8, 20)),
            what="weakly",
            because="Fed richly it grows soft and long, and soft growth is what rots.",
        ),
        WINTER_LIGHT,
    )
