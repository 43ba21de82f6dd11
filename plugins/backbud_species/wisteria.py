"""The care of a wisteria, whose long shoots are shortened twice, for flower buds at their base.

Unless a rule says otherwise, its figures are common practice, no source.
"""

from __future__ import annotations

from typing import ClassVar

from backbud.species import COMMON_PRACTICE, FROM_MEMORY, Fact, RepotInterval, Rule, StageMonths
from backbud_species.habits.blossom import covers_blossom, spares_flowers
from backbud_species.habits.flowering import SpringBlossom
from backbud_species.habits.works import (
    altered,
    at,
    between,
    by_warmth,
    deadheads,
    feeds,
    prunes,
    repots,
    trims,
    watches_for,
    wires,
    without,
    work,
)

_PENNSYLVANIA = "University of Pennsylvania Veterinary Medicine, Poisonous plants: Wisteria"


class Wisteria(SpringBlossom):
    """A twining climber held as a tree for its hanging flowers, from short spurs of old wood."""

    rule_prefix = "wisteria"
    botanical = "Wisteria floribunda"
    common = ("wisteria", "Japanese wisteria")
    also = (
        "Wisteria sinensis",
        "Chinese wisteria",
        "Wisteria brachybotrys",
        "Wisteria venusta",
        "silky wisteria",
        "fuji",
        "noda fuji",
        "yama fuji",
    )
    habit = "A twining climber with hanging flowers on short spurs, strongest at its long ends."
    # The RHS list itself was not at hand.
    rests_under_c = Fact(18.0, COMMON_PRACTICE)
    hardiness = Fact("H6", FROM_MEMORY)
    soil_ph = Fact((5.5, 7.5), FROM_MEMORY)
    usual_mix = Fact("akadama 3, pumice 1", COMMON_PRACTICE)
    repot_years = Fact((2, 3, 5), COMMON_PRACTICE)
    repot_interval = Fact(RepotInterval((1, 2, 3), (3, 4, 6)), COMMON_PRACTICE)
    root_share = Fact((0.25, 0.4), COMMON_PRACTICE)
    why_frost = "Its roots are thick and fleshy and rot where they freeze."
    water = Fact(
        "More than any other tree: in high summer its pot may stand in a shallow tray of water.",
        COMMON_PRACTICE,
    )
    bark = Fact("Young stems mark fast, and old stems are stiff and split.", COMMON_PRACTICE)
    toxicity = Fact(
        "Seeds and pods are poisonous: one or two seeds make a child seriously ill; pets too.",
        _PENNSYLVANIA,
    )
    wire_check_weeks = Fact((3, 4, 6), COMMON_PRACTICE)
    base_c = Fact(13.0, "Kameido, wisteria in bloom 20 to 30 April; fitted by us")
    # For a cool temperate place; from memory. W. sinensis flowers before its leaves, two weeks
    # earlier.
    stage_months: ClassVar[StageMonths] = {
        1: ((3, 15), (3, 31), (4, 15)),
        7: ((4, 2), (4, 16), (4, 30)),
        10: ((4, 22), (5, 4), (5, 17)),
        19: ((6, 1), (6, 14), (6, 28)),
        60: ((5, 6), (5, 18), (5, 30)),
        65: ((5, 15), (5, 27), (6, 8)),
        69: ((5, 27), (6, 8), (6, 20)),
        91: ((8, 25), (9, 12), (10, 1)),
        93: ((10, 12), (10, 29), (11, 14)),
        97: ((11, 5), (11, 20), (12, 6)),
    }
    advice = (
        "Give it all the sun there is, and never let it dry in high and late summer, or "
        "next year's flower buds drop.",
        "Grow it from a grafted or layered plant that has flowered: a seedling may take twenty "
        "years.",
        "Let it fill its pot: a pot-bound wisteria flowers best.",
        "It leafs weeks after other trees: do not give it up before summer.",
    )
    never = (
        *SpringBlossom.never[:2],
        "Never cut this year's shoots to less than five leaves in summer: next year's flower buds "
        "form at their base.",
        "Never cut its thick roots hard: it sulks for years without a flower.",
        "Never let pods ripen where children or animals come.",
        "Never feed it much nitrogen: it climbs and does not flower.",
    )
    works: ClassVar[tuple[Rule, ...]] = altered(
        without(SpringBlossom.works, "late-frost"),
        *repots(
            "repot",
            between(1, 7),
            because="Its fleshy roots break easily and rot in cold soil, so they are touched only "
            "as the buds swell, and little.",
            cautions=("Long thick roots are wound in and kept where they can be.",),
        ),
        covers_blossom(
            "blossom",
            because="Swollen flower buds and lengthening clusters die in a frost that the leaves "
            "outlive.",
            frost_c=-1.0,
            buds_days=28,
        ),
        spares_flowers(
            "disbud",
            at(60, -21, -10, -1),
            what="clusters on thin branches",
            because="A hanging cluster weighs down and drains a thin branch.",
        ),
        deadheads(
            "deadhead",
            at(69, 0, 4, 14),
            what="faded clusters with their stalks, before pods set",
            because="Pods take what next year's flowers are made of, and they are poisonous.",
        ),
        work(
            "suckers",
            "rubbed",
            at(19, -14, 0, 42),
            what="suckers from the roots and from under the graft",
            because="The rootstock grows faster than the flowering sort and takes over.",
        ),
        trims(
            "trim",
            by_warmth((7, 8), (7, 25), (8, 20)),
            what="this year's long shoots to five or six leaves",
            because="Shortened when growth slackens, the buds at their base fatten into flower "
            "buds.",
            cautions=("A shoot cut in spring only runs again: let the whips hang until now.",),
        ),
        feeds(
            "feed",
            at(69, 0, 8, 35),
            what="with little nitrogen and much potash",
            because="It feeds hungrily after flowering, and then makes the buds of next year.",
        ),
        prunes(
            "prune",
            at(1, -63, -51, -38),
            what="the shortened shoots again to two or three buds; fat round buds kept",
            because="In winter the fat flower buds at the base are told from flat leaf buds.",
        ),
        wires(
            "wire",
            at(69, 7, 21, 42),
            because="New shoots bend as they harden, and the old stem can only be guyed.",
        ),
        watches_for(
            "pests",
            by_warmth((5, 15), (6, 8), (7, 10)),
            where="old stems, for brown limpets of scale, and undersides of the leaves",
            because="Scale sits by the hundred on old wisteria stems and weakens branch by branch.",
        ),
    )
