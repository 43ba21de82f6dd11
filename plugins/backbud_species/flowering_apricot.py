"""The care of a flowering apricot: it flowers before it feeds, and its old wood seldom buds.

Unless a rule says otherwise, its figures are common practice, no source.
"""

from __future__ import annotations

from typing import ClassVar

from backbud.species import COMMON_PRACTICE, FROM_MEMORY, Fact, Rule, StageMonths
from backbud_species.habits.stone_fruit import SILVER_LEAF, StoneFruit
from backbud_species.habits.works import (
    altered,
    at,
    by_warmth,
    feeds,
    prunes,
    repots,
    trims,
    watches_for,
    wires,
)


class FloweringApricot(StoneFruit):
    """The tree of the Far East that flowers in late winter on bare green twigs."""

    rule_prefix = "apricot"
    botanical = "Prunus mume"
    common = ("flowering apricot", "Japanese flowering apricot")
    also = (
        "Japanese apricot",
        "Japanese plum",
        "Armeniaca mume",
        "ume",
        "yabai",
        "hibai",
        "mume",
    )
    habit = "A rugged tree that flowers in late winter on green twigs, strongest at the top."
    # The RHS list itself was not at hand.
    hardiness = Fact("H5", FROM_MEMORY)
    soil_ph = Fact((5.0, 6.5), "FAO, EcoCrop: Prunus mume")
    why_frost = "It wakes in winter, and roots that have begun to grow bear little frost."
    water = Fact(
        "Plenty from leaf to midsummer, then less: a little thirst sets flower buds.",
        COMMON_PRACTICE,
    )
    bark = Fact("Old bark is rough and precious, and old wood snaps.", COMMON_PRACTICE)
    # It starts at low temperatures, so a low base.
    base_c = Fact(0.0, FROM_MEMORY)
    chill_portions = Fact(30.0, FROM_MEMORY)
    # For a cool temperate place; from memory. Flowers come six weeks before the leaves.
    stage_months: ClassVar[StageMonths] = {
        1: ((3, 6), (3, 20), (4, 5)),
        7: ((3, 22), (4, 5), (4, 20)),
        10: ((4, 1), (4, 14), (4, 28)),
        19: ((5, 18), (6, 1), (6, 15)),
        60: ((2, 5), (2, 22), (3, 10)),
        65: ((2, 14), (3, 2), (3, 19)),
        69: ((2, 26), (3, 13), (3, 30)),
        91: ((7, 20), (8, 8), (8, 30)),
        93: ((10, 1), (10, 18), (11, 4)),
        97: ((10, 28), (11, 13), (11, 30)),
    }
    advice = (
        "Full sun and air: shaded twigs inside die within a year.",
        "Keep it cool and frost-free while in flower; warmth ends the flowers in days.",
        "Water a little less in early summer, when flower buds are made, but let no leaf wilt.",
        "Expect whole branches to weaken with age, and keep a young shoot in reserve for each.",
    )
    never = (
        *StoneFruit.never,
        "Never cut a twig back to flower buds alone: without a leaf bud it dies.",
    )
    works: ClassVar[tuple[Rule, ...]] = altered(
        StoneFruit.works,
        *repots(
            "repot",
            at(69, 0, 7, 21, end=7),
            because="Between the last flower and the first leaf its roots regrow at once, and no "
            "flower is lost.",
            cautions=("Keep it frost-free until it is in leaf.",),
        ),
        trims(
            "trim",
            at(69, 0, 8, 24, end=7),
            what="twigs that flowered to one or two leaf buds",
            because="A flower bud makes no shoot, and twigs left long grow bare at the base for "
            "good, since old wood seldom buds.",
            cautions=("Find the slim leaf bud first: cut in front of it.",),
        ),
        trims(
            "trim-summer",
            by_warmth((6, 8), (6, 20), (7, 8)),
            what="tips of long shoots at six to eight leaves; short ones left whole",
            because="Shoots that stop before midsummer set flower buds, and those that run on set "
            "none.",
        ),
        feeds(
            "feed",
            at(10, 14, 28, 60),
            because="All its growth of the year comes in ten weeks, and bare flowering twigs take "
            "up nothing.",
        ),
        feeds(
            "feed-autumn",
            by_warmth((8, 25), (9, 10), (10, 5)),
            what="with little nitrogen",
            because="Its flower buds fill in autumn, for it flowers before it can feed again.",
        ),
        prunes(
            "prune",
            at(97, 0, 14, 45),
            what="thin tips beyond the last flower bud, and thin twigs that cross",
            because="On bare twigs the round flower buds, often two beside a slim leaf bud, show "
            "what to keep.",
            cautions=(SILVER_LEAF,),
        ),
        wires(
            "wire",
            by_warmth((5, 25), (6, 12), (7, 5)),
            because="Green shoots set within weeks, and older wood is brittle and cracks.",
        ),
        watches_for(
            "pests",
            at(10, 5, 18, 45),
            where="curled tips, and pale rings on leaves",
            because="Aphids curl its first leaves, and carry plum pox, which shows as pale rings.",
            cautions=("Plum pox has to be reported in many countries.",),
        ),
    )
