"""The care of a bald cypress, the one conifer that may stand in water and be cut hard.

Unless a rule says otherwise, its figures are common practice, no source.
"""

from __future__ import annotations

from typing import ClassVar

from backbud.species import COMMON_PRACTICE, FROM_MEMORY, Fact, RepotInterval, Rule, StageMonths
from backbud_species.habits.conifers import Conifer
from backbud_species.habits.done import is_hard_pruning
from backbud_species.habits.flushes import trims_again
from backbud_species.habits.works import (
    altered,
    at,
    between,
    by_warmth,
    checks_after,
    feeds,
    pinches,
    prunes,
    repots,
    trims,
    watches_for,
    weeks,
    wires,
    without,
)
from backbud_species.habits.yearly import CUT_ROOTS_FREEZE, FROZEN_WOOD_SNAPS


class BaldCypress(Conifer):
    """A deciduous conifer of swamps: it buds from old wood and drinks more than any other."""

    evergreen = False
    rule_prefix = "bald-cypress"
    botanical = "Taxodium distichum"
    common = ("bald cypress", "swamp cypress")
    also = ("Taxodium ascendens", "pond cypress", "Taxodium distichum var. imbricarium")
    habit = (
        "A straight conifer of feathery leaves that fall with their twigs, strongest at the top."
    )
    # Read of a weeping form.
    rests_under_c = None
    hardiness = Fact("H7", "RHS, Taxodium distichum Cascade Falls")
    frost_limit_c = Fact(-6.0, FROM_MEMORY)
    soil_ph = Fact((4.5, 6.5), FROM_MEMORY)
    usual_mix = Fact("akadama 3, pumice 1", COMMON_PRACTICE)
    repot_years = Fact((1, 2, 4), COMMON_PRACTICE)
    repot_interval = Fact(RepotInterval((1, 2, 3), (2, 3, 5)), COMMON_PRACTICE)
    root_share = Fact((0.5, 0.7), COMMON_PRACTICE)
    light = Fact("Full sun.", COMMON_PRACTICE)
    water = Fact("As much as it wants: in summer its pot may stand in water.", COMMON_PRACTICE)
    bark = Fact("Its bark is soft and thickens fast, so wire bites within weeks.", COMMON_PRACTICE)
    toxicity = Fact("Not known to be poisonous.", FROM_MEMORY)
    why_frost = "Its top is hardy, but its roots are thick and full of water and burst in a pot."
    wire_check_weeks = Fact((3, 5, 8), COMMON_PRACTICE)
    girth_growth_mm = Fact(9.0, FROM_MEMORY)
    # For a cool temperate place; from memory. 10: the feathers part from the bud.
    stage_months: ClassVar[StageMonths] = {
        1: ((3, 20), (4, 5), (4, 20)),
        7: ((4, 8), (4, 22), (5, 6)),
        10: ((4, 20), (5, 4), (5, 18)),
        91: ((9, 1), (9, 20), (10, 8)),
        93: ((10, 12), (10, 28), (11, 12)),
        97: ((11, 8), (11, 22), (12, 8)),
    }
    advice = (
        "Stand the pot in a tray of water through the summer, and take it out in autumn.",
        "It turns rust-red and stands bare in winter: it is not dead.",
    )
    never = (
        "Never let it dry out in leaf: the feathers brown in a day.",
        "Never let its pot freeze through while it stands in water.",
    )
    works: ClassVar[tuple[Rule, ...]] = altered(
        without(Conifer.works, "mites"),
        *repots(
            "repot",
            between(1, 7),
            because="It bears hard root work as its buds swell, and fills a pot in two summers.",
            cautions=(CUT_ROOTS_FREEZE,),
        ),
        pinches(
            "pinch",
            at(10, 7, 18, 40),
            what="the soft feathers of strong shoots to half, the top first",
            because="The top outgrows all else, and what is stopped while soft branches at once.",
        ),
        trims(
            "trim",
            at(10, 35, 50, 75),
            what="long shoots to two or three side shoots; those on the trunk rubbed off",
            because="It buds from trunk and branch all summer, and light must reach the low ones.",
        ),
        trims_again(
            "trim-late",
            by_warmth((8, 1), (8, 14), (8, 31)),
            what="the second growth to its first side shoots",
            because="What follows a late summer cut still ripens before the frost.",
        ),
        prunes(
            "prune",
            at(97, 0, 28, 100),
            what="branches that cross, rise or outgrow, back to a bud or a side twig",
            because="Bare branches show their line, and it shoots from old wood in spring.",
        ),
        feeds(
            "feed-autumn",
            at(91, -28, -10, 7),
            because="Fed while the feathers are still green, it goes strong into spring.",
        ),
        wires(
            "wire",
            at(97, 0, 28, 100),
            because="Bare branches are seen and set best, and bend down as those of old trees "
            "hang.",
            cautions=(FROZEN_WOOD_SNAPS,),
        ),
        checks_after(
            "new-shoots",
            ("pruned",),
            weeks(16, 24, 40),
            look_at="buds",
            what="buds round the cuts, all but two rubbed off",
            because="Many shoots come where a branch was cut, and two of them make the next fork.",
            only_after=is_hard_pruning,
            each_part=True,
        ),
        watches_for(
            "pests",
            by_warmth((6, 1), (6, 25), (8, 10)),
            where="feathers that dull or brown inside, tapped over white paper for mites",
            because="Mites dull it in hot dry air, which is told from thirst by the speckled leaf.",
        ),
    )
