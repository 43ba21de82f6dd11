"""The care of a silver birch, which drops branches it does not need and bleeds when cut in spring.

Unless a rule says otherwise, its figures are common practice, no source.
"""

from __future__ import annotations

from typing import ClassVar

from backbud.species import (
    COMMON_PRACTICE,
    FROM_MEMORY,
    Fact,
    Judge,
    RepotInterval,
    Rule,
    StageMonths,
)
from backbud_species.habits.broadleaves import BroadleafDeciduous
from backbud_species.habits.done import is_hard_pruning
from backbud_species.habits.judges import sap_is_rising
from backbud_species.habits.times import bare_before_the_sap_rises
from backbud_species.habits.works import (
    altered,
    at,
    between,
    checks_after,
    pinches,
    prunes,
    repots,
    trims,
    watches_for,
    weeks,
    wires,
    without,
)


class SilverBirch(BroadleafDeciduous):
    """A light tree of white bark that sheds branches in shade or after hard cuts."""

    rule_prefix = "birch"
    botanical = "Betula pendula"
    common = ("silver birch", "birch")
    also = ("Betula verrucosa", "Betula alba", "European white birch", "weeping birch")
    habit = "A light quick tree of thin hanging twigs and white bark, strongest at the top."
    # The RHS list itself was not at hand.
    rests_under_c = Fact(13.0, COMMON_PRACTICE)
    hardiness = Fact("H7", FROM_MEMORY)
    # Mature roots of birches survived it.
    frost_limit_c = Fact(-17.8, "Gouin, Bay Weekly, Freezing to death")
    soil_ph = Fact(
        (5.5, 7.0),
        "Desired pH Ranges and Salt Tolerance of Common Nursery Plants, revised 9 September 2010",
    )
    repot_years = Fact((1, 2, 3), COMMON_PRACTICE)
    repot_interval = Fact(RepotInterval((1, 1, 2), (2, 3, 5)), COMMON_PRACTICE)
    root_share = Fact((0.33, 0.5), COMMON_PRACTICE)
    light = Fact("Full sun: a shaded branch is dropped.", COMMON_PRACTICE)
    water = Fact("Plenty in leaf: it wilts sooner than most and drops leaves.", COMMON_PRACTICE)
    bark = Fact("Its bark is thin, peels and keeps every wire mark.", COMMON_PRACTICE)
    toxicity = Fact("Not known to harm people or pets; its pollen troubles many.", FROM_MEMORY)
    why_frost = "It is hardy to the twigs, and only roots cut this year are in danger in a pot."
    wire_check_weeks = Fact((3, 5, 8), COMMON_PRACTICE)
    judges: ClassVar[tuple[Judge, ...]] = (sap_is_rising,)
    # For a cool temperate place; from memory. 19: first leaves full size and hardened.
    stage_months: ClassVar[StageMonths] = {
        1: ((3, 5), (3, 22), (4, 5)),
        7: ((3, 28), (4, 10), (4, 24)),
        10: ((4, 6), (4, 19), (5, 2)),
        19: ((5, 20), (6, 3), (6, 18)),
        91: ((8, 15), (9, 5), (9, 25)),
        93: ((10, 1), (10, 15), (10, 30)),
        97: ((10, 28), (11, 12), (11, 28)),
    }
    advice = (
        "Full sun and water: it drops leaves and whole twigs when it wants for either.",
        "Keep a spare shoot beside each branch: it gives up branches of its own accord.",
    )
    never = (
        *BroadleafDeciduous.never,
        "Never cut it from midwinter until the leaves are hard: it bleeds for days.",
        "Never take a large branch at once: the cut rots, and the trunk below it dies back.",
    )
    works: ClassVar[tuple[Rule, ...]] = altered(
        without(BroadleafDeciduous.works, "late-frost"),
        *repots(
            "repot",
            between(1, 7),
            because="It regrows roots fast as its buds swell, and keeps part of the old soil with "
            "the fungus threads that feed it.",
            cautions=("No branch is cut in the same weeks: it bleeds.",),
        ),
        pinches(
            "pinch",
            at(10, 4, 12, 28),
            what="the tips of strong shoots behind their third leaf; weak ones left to run",
            because="A shoot that runs makes one long joint, and each tip stopped makes two twigs.",
        ),
        trims(
            "trim",
            at(19, 0, 7, 21),
            what="long shoots to two or three leaves, always in front of a bud",
            because="Leaves have hardened and the sap no longer runs from the cut; a twig cut "
            "behind its last bud dies.",
        ),
        prunes(
            "prune",
            bare_before_the_sap_rises(),
            what="thin twigs that cross or double, in small cuts",
            because="From colour on the cuts stay dry, and its sap rises before that of most "
            "trees.",
        ),
        checks_after(
            "dieback",
            ("pruned",),
            weeks(20, 30, 52),
            look_at="wounds",
            what="wounds, and cut back to living wood what died",
            because="A large cut on birch dies back before it closes, and rots if it is not seen.",
            only_after=is_hard_pruning,
            each_part=True,
        ),
        wires(
            "wire",
            at(19, 0, 14, 42),
            because="Green shoots set within weeks, and bare twigs are brittle and dry out.",
        ),
        watches_for(
            "pests",
            at(10, 10, 24, 50),
            where="soft tips, for aphids, and leaves, for orange dust below",
            because="Aphids drop honeydew from the first leaves on, and birch rust bares it early.",
        ),
    )
