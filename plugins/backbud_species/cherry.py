"""The care of a flowering cherry: its spurs stay whole and its cuts small, as they heal badly.

Unless a rule says otherwise, its figures are common practice, no source.
"""

from __future__ import annotations

from typing import ClassVar

from backbud.species import COMMON_PRACTICE, FROM_MEMORY, Fact, Rule, StageMonths
from backbud_species.habits.stone_fruit import StoneFruit
from backbud_species.habits.works import (
    altered,
    at,
    between,
    by_warmth,
    feeds,
    prunes,
    repots,
    trims,
    watches_for,
    wires,
)

_RHS = "RHS, Plant of the month: Prunus incisa ‘Kojo-no-mai’"


class FloweringCherry(StoneFruit):
    """A small-leaved cherry that flowers on short spurs just before its leaves."""

    rule_prefix = "cherry"
    botanical = "Prunus incisa"
    common = ("flowering cherry", "Fuji cherry", "cherry")
    also = (
        "Japanese cherry",
        "Prunus serrulata",
        "Prunus jamasakura",
        "Prunus × subhirtella",
        "Cerasus incisa",
        "Cerasus serrulata",
        "sakura",
        "mamezakura",
        "fujizakura",
        "yamazakura",
    )
    habit = "A twiggy tree that flowers on short spurs before its leaves, strongest at the top."
    # The RHS page says fully hardy to frost hardy, without a rating.
    hardiness = Fact("H6", FROM_MEMORY)
    # The RHS page says any moist but well-drained soil, without figures.
    soil_ph = Fact((5.5, 7.5), FROM_MEMORY)
    why_frost = "Its fine roots lie shallow and wake early, and freeze in a thin pot."
    light = Fact("Open and in full sun.", _RHS)
    water = Fact("Moist but well drained.", _RHS)
    bark = Fact(
        "Its banded bark peels and scars where wire bites, and gums where it is bruised.",
        COMMON_PRACTICE,
    )
    girth_growth_mm = Fact(7.0, FROM_MEMORY)
    chill_portions = Fact(50.0, FROM_MEMORY)
    # For a cool temperate place; from memory. P. serrulata is three weeks later in flower.
    stage_months: ClassVar[StageMonths] = {
        1: ((2, 26), (3, 13), (3, 29)),
        7: ((3, 18), (4, 2), (4, 17)),
        10: ((3, 30), (4, 13), (4, 28)),
        19: ((5, 15), (5, 29), (6, 12)),
        60: ((3, 16), (3, 29), (4, 13)),
        65: ((3, 23), (4, 5), (4, 20)),
        69: ((4, 2), (4, 15), (4, 30)),
        91: ((8, 5), (8, 24), (9, 12)),
        93: ((10, 5), (10, 22), (11, 8)),
        97: ((10, 30), (11, 15), (12, 2)),
    }
    advice = (
        "Do not let it dry out in high summer, when next spring's flower buds are made.",
        "Leave short spurs alone: they flower for years.",
        "Train it from young wood with small cuts: a large wound seldom closes.",
    )
    works: ClassVar[tuple[Rule, ...]] = altered(
        StoneFruit.works,
        *repots(
            "repot",
            between(1, 7),
            because="As the buds swell its roots wake, and flowers already made open all the same.",
            cautions=("Rotten and knobbed roots come off: crown gall sits in the knobs.",),
        ),
        trims(
            "trim",
            at(69, 14, 25, 38),
            what="long shoots to three or four leaves; spurs left whole",
            because="Shortened early, a long shoot makes flower spurs at its base by autumn.",
        ),
        feeds(
            "feed",
            at(69, 7, 18, 42),
            because="Shoots and flower buds of the year grow in the weeks after flowering.",
        ),
        prunes(
            "prune",
            by_warmth((6, 15), (7, 1), (7, 31)),
            what="what crosses, doubles or outgrows the outline",
            because="In dry midsummer its wounds close and few spores fly, while winter cuts let "
            "in silver leaf and canker.",
            cautions=("Seal every cut.",),
        ),
        wires(
            "wire",
            by_warmth((5, 25), (6, 15), (7, 10)),
            because="Shoots of the year bend while they are green, and winter wood snaps.",
        ),
        watches_for(
            "pests",
            at(69, 7, 21, 45),
            where="curled tips, shot holes in leaves, and gum on the bark",
            because="Black aphids curl the tips, and holes with dead buds and gum are bacterial "
            "canker.",
        ),
    )
