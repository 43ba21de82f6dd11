"""The care of a hawthorn: first into leaf, it is repotted first, and its spurs are left to flower.

Unless a rule says otherwise, its figures are common practice, no source.
"""

from __future__ import annotations

from typing import ClassVar

from backbud.species import COMMON_PRACTICE, FROM_MEMORY, Fact, RepotInterval, Rule, StageMonths
from backbud_species.habits.flowering import SpringBlossom
from backbud_species.habits.works import (
    altered,
    at,
    between,
    by_warmth,
    deadheads,
    feeds,
    protects_leaves,
    prunes,
    repots,
    trims,
    watches_for,
    wires,
)
from backbud_species.habits.yearly import FROZEN_WOOD_SNAPS

_RHS = "RHS, Crataegus monogyna"
_BACTERIA = "UK Bacterial Plant Diseases programme, Fireblight"


class Hawthorn(SpringBlossom):
    """A thorny tree that flowers in May, after its leaves, on short spurs of older wood."""

    rule_prefix = "hawthorn"
    botanical = "Crataegus monogyna"
    common = ("hawthorn", "common hawthorn")
    also = (
        "single-seeded hawthorn",
        "quickthorn",
        "whitethorn",
        "may tree",
        "Crataegus oxyacantha subsp. monogyna",
        "seiyo sanzashi",
    )
    habit = "A dense thorny tree that flowers on spurs after its leaves, strongest at the top."
    hardiness = Fact("H7", _RHS)
    # The RHS says acid, neutral and alkaline, without figures.
    soil_ph = Fact((5.5, 7.8), FROM_MEMORY)
    usual_mix = Fact("akadama 2, pumice 1, lava 1", COMMON_PRACTICE)
    repot_years = Fact((2, 3, 5), COMMON_PRACTICE)
    repot_interval = Fact(RepotInterval((1, 2, 3), (3, 5, 7)), COMMON_PRACTICE)
    root_share = Fact((0.4, 0.6), COMMON_PRACTICE)
    why_frost = "It is as hardy as any tree, and only roots at the rim of a shallow pot suffer."
    light = Fact("Full sun, or shade for part of the day.", _RHS)
    water = Fact("Moist but well drained, never waterlogged.", _RHS)
    bark = Fact("Bark marks little, but old wood is iron-hard and splits.", COMMON_PRACTICE)
    toxicity = Fact("Its seeds contain toxins, and pets should not eat the fruit.", _RHS)
    wire_check_weeks = Fact((4, 6, 10), COMMON_PRACTICE)
    girth_growth_mm = Fact(4.0, COMMON_PRACTICE)
    # For a cool temperate place; from memory. Flowers follow the leaves.
    stage_months: ClassVar[StageMonths] = {
        1: ((2, 20), (3, 8), (3, 24)),
        7: ((3, 6), (3, 20), (4, 4)),
        10: ((3, 14), (3, 28), (4, 12)),
        19: ((5, 14), (5, 28), (6, 12)),
        60: ((4, 28), (5, 9), (5, 21)),
        65: ((5, 6), (5, 17), (5, 29)),
        69: ((5, 17), (5, 28), (6, 9)),
        91: ((8, 20), (9, 8), (9, 28)),
        93: ((10, 8), (10, 24), (11, 10)),
        97: ((11, 2), (11, 17), (12, 4)),
    }
    advice = (
        "It leafs first of all: repot it early, before any other tree.",
        "Let some shoots stand whole if it is to flower: spurs are made in the second year.",
        "Wear gloves and glasses, and draw out every thorn: such wounds fester.",
    )
    never = (
        *SpringBlossom.never,
        "Never shorten every twig in winter: the flower buds go with them.",
        "Never hurry a collected one: it may stand two years before it grows.",
    )
    sources: ClassVar[dict[str, str]] = {"fireblight": _BACTERIA}
    works: ClassVar[tuple[Rule, ...]] = altered(
        SpringBlossom.works,
        *repots(
            "repot",
            between(1, 7),
            because="It opens earlier than any other tree on the bench, so its roots are done "
            "first, at the first swelling.",
            cautions=("Thick roots carry few fine ones: shorten them over several repottings.",),
        ),
        protects_leaves(
            "late-frost",
            10,
            frost_c=-4.0,
            because="It leafs early and bears frost, and only a hard one after warm weeks burns "
            "leaves and flower buds.",
        ),
        trims(
            "trim",
            at(69, 3, 10, 24),
            what="long shoots to two or three leaves; short spurs left whole",
            because="Spurs with a plump bud flower next spring, and shortened long shoots turn "
            "into spurs.",
            cautions=("Thorns are shoots too and may bud: cut those that hurt.",),
        ),
        feeds(
            "feed",
            at(69, 0, 7, 21),
            because="Feed in flower makes long shoots, and after it goes into spurs and next "
            "year's buds.",
        ),
        deadheads(
            "deadhead",
            at(69, 2, 8, 20),
            what="spent flowers, all of them on a young or tired tree",
            because="Haws take what next year's flower buds are made of, and a few clusters left "
            "on a strong tree show as well as many.",
        ),
        prunes(
            "prune",
            at(97, 0, 14, 60),
            what="what crosses or doubles, and water shoots; round buds left",
            because="On the bare tree round flower buds on spurs are told from pointed leaf buds.",
        ),
        wires(
            "wire",
            at(97, 0, 14, 60),
            because="Thin twigs still bend while it is bare; older wood splits and is guyed.",
            cautions=(FROZEN_WOOD_SNAPS, "Take the thorns off first where the wire goes."),
        ),
        watches_for(
            "fireblight",
            by_warmth((5, 20), (6, 12), (8, 15)),
            where="flowers and tips that blacken and hook as if burnt, and ooze on the bark",
            because="Fireblight is carried by insects, rain and tools, and there is no cure "
            f"({_BACTERIA}).",
            cautions=("In some countries it has to be reported; clean tools between cuts.",),
        ),
        watches_for(
            "pests",
            at(10, 14, 28, 50),
            where="curled tips, and white film or spots on the leaves",
            because="Aphids curl the tips in spring, and mildew follows on soft growth in dry "
            "soil.",
        ),
    )
