"""What trees grown for their flowers have in common. Figures: common practice."""

from __future__ import annotations

from typing import ClassVar

from backbud.species import COMMON_PRACTICE, Fact, Judge, Rule, StageMonths
from backbud_species.habits.blossom import spares_flowers
from backbud_species.habits.broadleaves import BroadleafDeciduous, BroadleafEvergreen
from backbud_species.habits.flowers import renews_without_flowers
from backbud_species.habits.for_a_show import thins_for_show
from backbud_species.habits.heat import shades_in_heat
from backbud_species.habits.judges import hard_before_winter
from backbud_species.habits.new_roots import NEW_ROOTS
from backbud_species.habits.vine_weevils import (
    WEEVIL_GRUBS,
    WEEVIL_GRUBS_IN_SPRING,
    WEEVIL_SOURCES,
)
from backbud_species.habits.works import (
    altered,
    at,
    balances,
    between,
    by_warmth,
    deadheads,
    disbuds,
    feeds,
    protects_leaves,
    prunes,
    repots,
    trims,
    watches_for,
    without,
)

_SEED = "Seed takes the strength that next year's flower buds are made of."
_BUDS = "Without its flowers a tree has more strength for roots and shoots."


class SpringBlossom(BroadleafDeciduous):
    """A tree that flowers in spring on wood of last year, before or with its leaves."""

    light = Fact("Full sun: flower buds are set by light.", COMMON_PRACTICE)
    # For a cool temperate place; from memory. Flowers run beside the leaves, not after them.
    stage_months: ClassVar[StageMonths] = {
        **BroadleafDeciduous.stage_months,
        60: ((3, 25), (4, 8), (4, 24)),
        65: ((4, 2), (4, 15), (5, 1)),
        69: ((4, 12), (4, 25), (5, 12)),
    }
    advice: ClassVar[tuple[str, ...]] = (
        "Do not let it dry out in summer, when next year's flower buds are made.",
        "Take spent flowers off; let a strong tree carry a few fruits at most.",
        *BroadleafDeciduous.advice,
    )
    never: ClassVar[tuple[str, ...]] = (
        *BroadleafDeciduous.never,
        "Never shorten every shoot in late summer: next spring's flower buds sit on them.",
    )
    works: ClassVar[tuple[Rule, ...]] = altered(
        without(BroadleafDeciduous.works, "trim-late"),
        spares_flowers(
            "disbud", at(60, -21, -10, -1), because=_BUDS, what="part of the flower buds"
        ),
        deadheads(
            "deadhead",
            at(69, 0, 4, 14),
            what="spent flowers",
            because=_SEED,
        ),
        trims(
            "trim",
            at(69, 3, 10, 28),
            what="shoots that flowered to two or three buds",
            because="Next year's flowers sit on shoots that grow now, so shoots are cut right "
            "after flowering and then left to set buds.",
        ),
        feeds(
            "feed",
            at(69, 5, 14, 35),
            because="Feed goes into shoots and next year's flower buds once the flowers are over.",
        ),
        prunes(
            "prune",
            at(97, 0, 10, 45),
            what="twigs without flower buds: what crosses or doubles",
            because="On the bare tree the round flower buds are told from the slim leaf buds, and "
            "what carries flowers stays.",
        ),
    )


class LateFloweringEvergreen(BroadleafEvergreen):
    """An evergreen that flowers in early summer on last year's tips, strongest at the base."""

    rests_under_c: ClassVar[Fact[float] | None] = Fact(18.0, COMMON_PRACTICE)
    strongest = "basitonic"
    judges: ClassVar[tuple[Judge, ...]] = (hard_before_winter,)
    usual_mix = Fact("kanuma, acid and granular", COMMON_PRACTICE)
    root_share = Fact((0.4, 0.7), COMMON_PRACTICE)
    why_frost = "Fine roots lie shallow and die in a pot that freezes through."
    wire_check_weeks = Fact((4, 6, 8), COMMON_PRACTICE)
    light = Fact("Morning sun and light shade in the afternoon.", COMMON_PRACTICE)
    water = Fact("Rain or soft water, and never dry.", COMMON_PRACTICE)
    # For a cool temperate place; from memory.
    stage_months: ClassVar[StageMonths] = {
        1: ((3, 10), (3, 25), (4, 10)),
        7: ((3, 25), (4, 10), (4, 25)),
        10: ((4, 5), (4, 20), (5, 5)),
        60: ((5, 5), (5, 16), (5, 30)),
        65: ((5, 14), (5, 25), (6, 8)),
        69: ((5, 28), (6, 8), (6, 22)),
        91: ((9, 5), (9, 20), (10, 10)),
    }
    never: ClassVar[tuple[str, ...]] = (
        "Never prune after midsummer: next year's flower buds are set on the new tips by then.",
        "Never prune the top as hard as the low branches: it grows slowest.",
        "Never give it lime.",
    )
    sources: ClassVar[dict[str, str]] = {
        "gall": "University of Georgia, azalea leaf gall, 2020 (as gathered for the trade's facts)",
        **WEEVIL_SOURCES,
    }
    works: ClassVar[tuple[Rule, ...]] = altered(
        without(BroadleafEvergreen.works, "trim-late"),
        NEW_ROOTS,
        *repots(
            "repot",
            between(1, 7),
            because="Fine roots regrow fast as growth begins, some wedges of the ball at a time.",
            cautions=("Open the ball with a wooden stick: a metal hook tears fine roots.",),
        ),
        disbuds("disbud", at(60, -35, -14, -1), because=_BUDS),
        deadheads("deadhead", at(69, 0, 3, 10), what="spent flowers with the ovary", because=_SEED),
        trims(
            "trim",
            at(69, 5, 14, 28),
            what="low shoots first, the top lightly",
            because="Next year's flower buds are set on the shoots of this summer, so it is "
            "trimmed right after flowering and then left alone.",
        ),
        balances("balance", at(69, 0, 7, 21)),
        feeds(
            "feed",
            at(69, 10, 18, 35),
            what="without lime",
            because="Shoots and next year's flower buds grow after flowering, and feed given "
            "while it flowers shortens the bloom.",
        ),
        feeds(
            "feed-autumn",
            at(91, -14, 0, 14),
            what="weakly, without lime",
            because="Fed as the shoots ripen, it winters well without soft growth.",
        ),
        protects_leaves(
            "late-frost",
            10,
            frost_c=-1.0,
            because="Frost browns the soft new shoots, which stand open from bud burst on.",
        ),
        shades_in_heat(
            "shade",
            because="Its fine roots lie just under the surface, where a pot in the sun dries and "
            "heats first.",
        ),
        thins_for_show(
            "show",
            what="flower buds to one at each tip, most at the base and least at the top",
            because="Buds thinned in time open large, even and together, and none hides another.",
        ),
        watches_for(
            "gall",
            at(10, 0, 20, 45),
            where="thick pale swollen leaves and buds, picked before they turn white",
            because="Leaf gall swells opening leaves in a wet cool spring, and spreads once it "
            "has turned white.",
        ),
        watches_for(
            "pests",
            by_warmth((6, 20), (7, 10), (8, 20)),
            where="undersides of the leaves, and edges notched by vine weevils",
            because="Lace bug and mites silver the leaves in hot, dry weather, and where edges are "
            "notched weevils lay their eggs in the pot.",
            cautions=("Weevils are caught by lamp light, on a sheet under the tree.",),
        ),
        WEEVIL_GRUBS,
        renews_without_flowers(
            "renew",
            because="A strong azalea without flowers has all its strength for shoots from old wood "
            "and the whole summer to ripen them.",
            cautions=(
                "Low branches may go harder than the top, which grows slowest.",
                "No root work in the same year.",
            ),
        ),
        WEEVIL_GRUBS_IN_SPRING,
    )
