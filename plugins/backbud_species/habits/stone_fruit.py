"""What flowering apricots and cherries have in common: gum, silver leaf, and early flowers.

Figures: common practice.
"""

from __future__ import annotations

from typing import ClassVar

from backbud.species import COMMON_PRACTICE, Fact, Judge, RepotInterval, Rule
from backbud_species.habits.blossom import covers_blossom, spares_flowers
from backbud_species.habits.done import is_hard_pruning
from backbud_species.habits.flowering import SpringBlossom
from backbud_species.habits.judges import silver_leaf_about
from backbud_species.habits.works import (
    altered,
    at,
    by_warmth,
    checks_after,
    deadheads,
    watches_for,
    weeks,
    without,
)

_POISONS = (
    "Veterinary Poisons Information Service, Cherry laurel and other cyanide-containing plants"
)
SILVER_LEAF = "No thick cut now: silver leaf enters wet winter wounds; leave it for early summer."


class StoneFruit(SpringBlossom):
    """A tree of the genus Prunus: it flowers on bare wood and gums where it is hurt."""

    judges: ClassVar[tuple[Judge, ...]] = (silver_leaf_about,)
    usual_mix = Fact("akadama 3, pumice 1, lava 1", COMMON_PRACTICE)
    repot_years = Fact((1, 2, 4), COMMON_PRACTICE)
    repot_interval = Fact(RepotInterval((1, 1, 2), (2, 3, 5)), COMMON_PRACTICE)
    root_share = Fact((0.4, 0.6), COMMON_PRACTICE)
    wire_check_weeks = Fact((3, 5, 7), COMMON_PRACTICE)
    toxicity = Fact(
        "Leaves, twigs and stones give off cyanide when chewed or wilted: a danger to cattle, "
        "sheep and goats above all, seldom to dogs and cats.",
        _POISONS,
    )
    never: ClassVar[tuple[str, ...]] = (
        *SpringBlossom.never,
        "Never make a thick cut from autumn to spring: silver leaf enters wet wounds.",
        "Never leave a wound unsealed: the wood behind it dies back and gums.",
    )
    works: ClassVar[tuple[Rule, ...]] = altered(
        without(SpringBlossom.works, "late-frost"),
        covers_blossom(
            "blossom",
            because="It flowers while frosts still come, and a frozen flower browns within the "
            "day.",
        ),
        spares_flowers(
            "disbud",
            at(60, -21, -10, -1),
            what="part of the flower buds",
            because="Flowers come before any leaf feeds the tree, so it pays for them from its "
            "store.",
        ),
        deadheads(
            "deadhead",
            at(69, 0, 5, 14),
            what="spent flowers with the young fruit",
            because="A stone takes more of a small tree than its flowers did.",
        ),
        checks_after(
            "gum",
            ("pruned",),
            weeks(4, 8, 16),
            look_at="wounds",
            what="the wounds, for gum and sunken bark",
            because="Large wounds of stone fruit heal badly, and gum shows where the bark behind "
            "them dies.",
            cautions=("Cut sunken bark back to living green in dry weather, and seal it again.",),
            only_after=is_hard_pruning,
            each_part=True,
        ),
        watches_for(
            "silver",
            by_warmth((6, 20), (7, 10), (8, 20)),
            where="leaves with a leaden sheen, first on one branch",
            because="Silver leaf kills branch by branch from an old wound, and its wood is stained "
            "brown inside.",
            cautions=("Cut below the stain in dry weather, and burn what comes off.",),
        ),
    )
