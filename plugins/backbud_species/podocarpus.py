"""The care of a podocarpus, a slow conifer of long leaves that bears shade and no hard frost.

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
    protects_leaves,
    repots,
    trims,
    watches_for,
    weeks,
    wires,
    without,
    work,
)


class Podocarpus(Conifer):
    """A slow evergreen conifer of leathery strap leaves, which shoots from old wood."""

    rule_prefix = "podocarpus"
    botanical = "Podocarpus macrophyllus"
    common = ("podocarpus", "Buddhist pine")
    also = ("yew plum pine", "Podocarpus chinensis", "kusamaki", "inumaki", "rakanmaki")
    habit = "A slow dense conifer of strap leaves in whorls, strongest at the top."
    # The RHS list itself was not at hand.
    rests_under_c = None
    hardiness = Fact("H3", FROM_MEMORY)
    frost_limit_c = Fact(-3.0, COMMON_PRACTICE)
    soil_ph = Fact((5.5, 6.8), FROM_MEMORY)
    usual_mix = Fact("akadama 2, pumice 1, lava 1", COMMON_PRACTICE)
    repot_years = Fact((2, 3, 5), COMMON_PRACTICE)
    repot_interval = Fact(RepotInterval((2, 2, 3), (3, 5, 7)), COMMON_PRACTICE)
    root_share = Fact((0.25, 0.4), COMMON_PRACTICE)
    light = Fact("Sun to half shade.", COMMON_PRACTICE)
    water = Fact("Evenly moist and never sodden.", COMMON_PRACTICE)
    bark = Fact(
        "Thin grey bark that peels in strips; branches are supple for years.", COMMON_PRACTICE
    )
    toxicity = Fact("Leaves and seeds are poisonous if eaten; the red stalk is not.", FROM_MEMORY)
    why_frost = "It comes from mild coasts, and its roots die in a pot that freezes."
    wire_check_weeks = Fact((8, 12, 16), COMMON_PRACTICE)
    girth_growth_mm = Fact(3.0, FROM_MEMORY)
    # For a cool temperate place, under glass in frost; from memory. 10: the leaves part.
    stage_months: ClassVar[StageMonths] = {
        1: ((4, 1), (4, 16), (5, 1)),
        7: ((4, 20), (5, 4), (5, 18)),
        10: ((5, 8), (5, 22), (6, 6)),
        91: ((9, 10), (9, 28), (10, 16)),
    }
    advice = (
        "Winter it light and cool, free of frost; a warm dark room thins it.",
        "Its roots live with nodules and white threads: keep some old soil at each repotting.",
    )
    never = (
        "Never let its pot freeze through.",
        "Never wash out all the old soil in one go.",
        "Never cut through the leaves: each half browns.",
    )
    works: ClassVar[tuple[Rule, ...]] = altered(
        without(Conifer.works, "mites"),
        *repots(
            "repot",
            between(7, 10),
            autumn_too=True,
            because="Its slow roots regrow only in warm soil, so it is repotted as the buds open, "
            "and keeps half of its old soil.",
            cautions=("Shade and still air for a month afterwards.",),
        ),
        protects_leaves(
            "late-frost",
            7,
            because="New leaves are as soft as lettuce, and frost takes the whole flush.",
        ),
        trims(
            "trim",
            at(10, 14, 28, 50),
            what="the new candle-like shoots to a few leaves, cut between the leaves",
            because="Stopped while they harden, shoots break from two or three buds below the cut.",
        ),
        trims_again(
            "trim-late",
            by_warmth((8, 1), (8, 15), (9, 1)),
            what="second shoots, and leaves that hang below the branch",
            because="A warm summer brings a second growth, which has to ripen before the cold.",
        ),
        work(
            "leaves",
            "plucked",
            at(91, 0, 21, 49),
            what="old and hanging leaves, fewest left at the top",
            because="Long leaves hide the branch and shade the buds inside.",
        ),
        wires(
            "wire",
            by_warmth((3, 1), (3, 25), (4, 20)),
            because="Its branches are supple, and before growth no soft leaf is in the way.",
        ),
        checks_after(
            "bare-wood-buds",
            ("pruned",),
            weeks(8, 14, 26),
            look_at="buds",
            what="buds on the bare wood",
            because="It shoots from old wood, slowly, as few conifers do.",
            only_after=is_hard_pruning,
            each_part=True,
        ),
        watches_for(
            "pests",
            by_warmth((5, 20), (6, 15), (8, 15)),
            where="soft tips, for blue-grey aphids, and leaf bases, for scale and mould",
            because="Its own aphid sits on each new shoot, and black mould grows on what it drops.",
        ),
    )
