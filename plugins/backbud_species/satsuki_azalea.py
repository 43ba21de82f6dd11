"""The care of a satsuki azalea: spent flowers off, low shoots cut first, roots opened by wedges.

Unless a rule says otherwise, its figures are common practice, no source.
"""

from __future__ import annotations

from typing import ClassVar

from backbud.species import COMMON_PRACTICE, FROM_MEMORY, Fact, Rule, StageMonths
from backbud_species.habits.done import is_hard_pruning
from backbud_species.habits.flowering import LateFloweringEvergreen
from backbud_species.habits.gates import REGROWN
from backbud_species.habits.glass import comes_out_of_glass, goes_under_glass
from backbud_species.habits.low_first import trims_low_first
from backbud_species.habits.potting import moss_on_top, soaks_fresh_mix, ties_in
from backbud_species.habits.strength import by_strength, left_to_grow
from backbud_species.habits.surface import opens_hard_surface, tries_opened_surface
from backbud_species.habits.works import (
    altered,
    at,
    by_warmth,
    checks_after,
    deadheads,
    disbuds,
    feeds,
    repots,
    trims,
    weeks,
    wires,
    without,
    work,
)

_STRONGER = "Without its flowers the tree has more strength and answers hard pruning better."


class SatsukiAzalea(LateFloweringEvergreen):
    """Late-flowering evergreen azaleas of Japan, strongest low down."""

    rule_prefix = "satsuki"
    botanical = "Rhododendron indicum"
    common = ("satsuki azalea", "satsuki")
    also = (
        "Rhododendron Satsuki Group",
        "Rhododendron eriocarpum",
        "Rhododendron tamurae",
        "Azalea Satsuki Group",
    )
    habit = "A twiggy evergreen shrub, strongest at the base and slowest at the top."
    # A gardening reference gives H4 for R. indicum; the RHS list itself was not at hand.
    hardiness = Fact("H4", FROM_MEMORY)
    soil_ph = Fact((4.5, 6.0), "The Dillon Herald, Azaleas, 10 August 2019")
    # Nobody has yet told apart its years for a young and for an old tree.
    repot_interval = None
    root_share = Fact((0.5, 1.0), COMMON_PRACTICE)
    bark = Fact("Its wood is brittle and its bark thin: bend little by little.", COMMON_PRACTICE)
    toxicity = Fact(
        "All parts are highly poisonous if eaten.",
        "North Carolina State University, Poisonous Plants: Rhododendron spp.",
    )
    why_frost = "Azalea roots lie fine and shallow and die in a pot that freezes through."
    advice = (
        "Never let the root ball dry out; a deeper pot forgives missed watering and is better for "
        "a beginner.",
        "Water with rain or soft water: lime makes the leaves yellow.",
        "Morning sun and light shade in the afternoon keep flowers and leaves fresh.",
        "Take spent flowers off together with the ovary.",
        "Keep children and animals from eating any part of it.",
    )
    never = (
        "Never rake the roots with a metal hook: they are very fine.",
        "Never prune hard in autumn: the new shoots do not ripen before the frost.",
        "Never prune the top as hard as the low branches: it grows slowest.",
        "Never give it lime.",
    )
    # Fitted: it flowers at Kanuma, far warmer in spring, hardly earlier than in a cool place.
    base_c = Fact(0.0, "Kanuma, satsuki festival dates of 2024 and 2025; fitted by us")
    # For a cool temperate place; from memory.
    stage_months: ClassVar[StageMonths] = {
        1: ((3, 10), (3, 25), (4, 10)),
        7: ((3, 25), (4, 10), (4, 25)),
        10: ((4, 5), (4, 20), (5, 5)),
        60: ((5, 15), (5, 25), (6, 8)),
        65: ((5, 25), (6, 5), (6, 18)),
        69: ((6, 8), (6, 18), (7, 2)),
        91: ((9, 5), (9, 20), (10, 10)),
    }
    works: ClassVar[tuple[Rule, ...]] = altered(
        without(LateFloweringEvergreen.works, "repot", "feed", "balance", "seal"),
        by_strength(
            disbuds("disbud", at(60, -35, -14, -1), because=_STRONGER),
            weak=disbuds(
                "disbud",
                at(60, -35, -14, -1),
                what="all of it, before the flowers open",
                because="Flower buds taken off before they open leave a weak tree its strength.",
            ),
            strong=disbuds(
                "disbud",
                at(60, -35, -14, -1),
                what="what crowds before the flowers open, and all of it only before hard pruning",
                because=_STRONGER,
            ),
        ),
        deadheads(
            "deadhead",
            at(69, 0, 3, 10),
            what="spent flowers with the ovary",
            because="Spent flowers come off together with the ovary soon after flowering, so that "
            "no strength goes into seed.",
            cautions=("Brown, slimy petals are petal blight: take them away from the bench.",),
        ),
        trims_low_first(
            "low-first",
            at(69, 0, 4, 8),
            because="It grows strongest low down and slowest at the top, so low shoots are "
            "shortened first and the top is left to catch up.",
            gate=REGROWN,
        ),
        by_strength(
            trims(
                "trim",
                at(69, 2, 8, 10),
                what="lightly, secondary shoots to three or four leaves",
                because="From the top down, secondary shoots go back to three or four leaves, of "
                "two or three from one point the strongest comes out, and bare tips go back to the "
                "first leaf; after that next year's flower buds are set.",
                gate=REGROWN,
            ),
            weak=left_to_grow(
                "trim",
                at(69, 0, 14, 28),
                because="A weak azalea is left untrimmed until it grows again.",
            ),
        ),
        work(
            "trunk-buds",
            "rubbed",
            at(69, 10, 18, 42),
            what="trunk buds",
            because="Buds on the trunk are rubbed off unless a branch is wanted there.",
        ),
        checks_after(
            "new-buds",
            ("pruned",),
            weeks(7, 8, 10),
            once_it_grows=True,
            look_at="buds",
            what="buds on the old wood",
            because="Hard pruning answers with buds along the old wood in about eight weeks.",
            only_after=is_hard_pruning,
            each_part=True,
        ),
        wires(
            "wire",
            by_warmth((2, 1), (3, 1), (3, 31)),
            because="Its wood is brittle, so it is wired before growth starts, with the soil on "
            "the dry side, and bent little by little.",
            cautions=("Branches tear at the fork: hold both sides of the bend.",),
        ),
        *repots(
            "root-work",
            at(69, 0, 10, 28),
            without_flowers=(1, 7),
            because="Root work follows flowering, or comes in spring where the buds came off, with "
            "other wedges each time, so that over a few repottings the whole ball is renewed up to "
            "the trunk.",
            cautions=(
                "About 5 cm off the underside of a deep ball and some wedges out of the side is "
                "enough in a cool place; a warm place bears more, up to bare roots.",
                "Every old tie and scrap of wire found in the root ball comes out; two ties of "
                "2.5 mm aluminium hold a medium tree, and mesh goes over each hole.",
            ),
            for_owners=(
                "A deeper pot forgives missed watering: better where the owner is a beginner.",
            ),
        ),
        soaks_fresh_mix("soak"),
        moss_on_top("moss"),
        ties_in("ties"),
        opens_hard_surface("hard-surface"),
        tries_opened_surface("drains-again"),
        goes_under_glass("glass"),
        comes_out_of_glass("glass-out"),
        feeds(
            "feed-spring",
            at(10, 0, 7, 14),
            what="weakly, without lime",
            because="A weak acid feed in spring is enough: none while the flowers are open.",
        ),
        feeds(
            "feed-after-flowering",
            at(69, 10, 18, 28),
            what="without lime",
            because="After flowering it makes its shoots and next year's buds, so the main feed "
            "comes then and ends with the summer.",
        ),
    )
