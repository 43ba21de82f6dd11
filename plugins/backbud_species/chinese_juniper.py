"""The care of a Chinese juniper, which lives from its tips: they stay, and only runners are cut.

Unless a rule says otherwise, its figures are common practice, no source.
"""

from __future__ import annotations

from typing import ClassVar

from backbud.species import COMMON_PRACTICE, FROM_MEMORY, Fact, Rule, StageMonths
from backbud_species.habits.done import is_hard_pruning
from backbud_species.habits.junipers import DEADWOOD_YEARLY, Juniper
from backbud_species.habits.strength import by_strength, left_to_grow
from backbud_species.habits.works import (
    LEAF_WORK,
    altered,
    at,
    balances,
    between,
    by_warmth,
    checks_after,
    feeds,
    repots,
    trims,
    watches_for,
    weeks,
    wires,
    without,
)
from backbud_species.habits.yearly import FROZEN_WOOD_SNAPS


class ChineseJuniper(Juniper):
    """A scale juniper that lives from its foliage, with live veins beside deadwood."""

    rule_prefix = "juniper"
    botanical = "Juniperus chinensis"
    common = ("Chinese juniper", "shimpaku")
    also = ("Juniperus chinensis var. sargentii", "Juniperus sargentii", "Sargent juniper")
    habit = "A juniper of scale foliage and stringy bark, strongest at its tips."
    # Another plant list gives H6 for one cultivar; the RHS list itself was not at hand.
    rests_under_c = None
    hardiness = Fact("H6", FROM_MEMORY)
    # Of Pfitzer juniper, a cross of it.
    frost_limit_c = Fact(-17.8, "Gouin, Bay Weekly, Freezing to death")
    soil_ph = Fact((5.5, 7.5), FROM_MEMORY)
    # Nobody has yet told apart its years for a young and for an old tree.
    repot_interval = None
    light = Fact("Full sun and moving air.", COMMON_PRACTICE)
    why_frost = (
        "The top is hardy, but roots in a pot are less so, and sun and wind on a "
        "frozen pot dry the foliage."
    )
    # Its wood sets slowly; live veins swell over the wire by the second summer.
    wire_check_weeks = Fact((8, 12, 20), COMMON_PRACTICE)
    advice = (
        "Full sun and moving air; mist the foliage on hot evenings.",
        "Let the surface dry a little between waterings.",
        "Bronze foliage in winter is no harm: it greens again in spring.",
        "Leave the tips alone: they feed the tree.",
    )
    never = (
        "Never pinch every tip: the tree lives from them and answers with needle foliage.",
        "Never cut a branch back to where no green is left: it dies.",
        "Never wash out all the old soil in one go.",
        "Never keep it beside pears: they share a rust.",
    )
    # For a cool temperate place; from memory. 7: the tips turn light green.
    stage_months: ClassVar[StageMonths] = {
        1: ((3, 12), (3, 28), (4, 12)),
        7: ((4, 5), (4, 20), (5, 5)),
        10: ((4, 25), (5, 10), (5, 28)),
        91: ((9, 20), (10, 8), (10, 28)),
    }
    works: ClassVar[tuple[Rule, ...]] = altered(
        without(Juniper.works, "after-pruning"),
        *repots(
            "repot",
            between(1, 7),
            autumn_too=True,
            because="It is repotted as growth begins, one half of the ball at a time and with all "
            "its foliage on: foliage makes the new roots.",
            cautions=("No heavy bending and no carving in the year of repotting.",),
        ),
        balances("balance", at(10, 28, 42, 63)),
        by_strength(
            trims(
                "trim",
                at(10, 28, 42, 63),
                what="runners, with scissors at their base",
                because="Shoots that run out of the outline are cut at their base with scissors; "
                "the other tips stay, for the tree lives from them.",
                gate=LEAF_WORK,
            ),
            weak=left_to_grow(
                "trim",
                at(10, 28, 42, 63),
                because="A weak juniper keeps all its foliage, for it lives from it.",
            ),
        ),
        checks_after(
            "needle-foliage",
            ("pruned",),
            weeks(10, 12, 16),
            look_at="strength",
            what="strength, and leave the needle foliage on",
            because="After hard pruning a juniper makes needle foliage; it stays on until scale "
            "foliage grows out of it.",
            only_after=is_hard_pruning,
        ),
        wires(
            "wire",
            at(91, 14, 42, 120),
            because="It is wired from autumn to early spring, while the bark is firm; in spring "
            "growth the live vein slips under the hand.",
            cautions=(FROZEN_WOOD_SNAPS,),
        ),
        DEADWOOD_YEARLY,
        feeds(
            "feed-spring",
            at(7, 0, 10, 21),
            because="It is fed from the first light green tips on, evenly and not too much: rich "
            "feed makes coarse shoots.",
        ),
        feeds(
            "feed-autumn",
            by_warmth((9, 5), (9, 20), (10, 15)),
            because="Junipers grow on into autumn and store the last feed for spring.",
        ),
        # Gymnosporangium: orange jelly in wet spring weather (WSU Hortsense: pear trellis rust).
        # On bonsai junipers from abroad: EPPO Reporting Service 1974/10.
        watches_for(
            "rust",
            at(7, -14, 0, 14),
            where="orange jelly on twigs after rain",
            because="Rust shows in wet spring weather as orange jelly on swollen twigs and goes "
            "from there to pears.",
            cautions=("Some of these rusts must be reported: ask the plant-health service.",),
        ),
        watches_for(
            "mites",
            by_warmth((6, 10), (7, 1), (8, 20)),
            where="tap foliage over white paper for mites",
            because="Spider mites grey the foliage in hot, dry weather before anybody sees them; "
            "brown tips after a wet spring are tip blight and are cut out on a dry day.",
        ),
    )
