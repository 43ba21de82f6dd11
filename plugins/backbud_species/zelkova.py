"""The care of a zelkova, stopped shoot by shoot so that its twigs make one even broom.

Unless a rule says otherwise, its figures are common practice, no source.
"""

from __future__ import annotations

from typing import ClassVar

from backbud.species import COMMON_PRACTICE, FROM_MEMORY, Fact, Rule, StageMonths
from backbud_species.habits.elms import Elm
from backbud_species.habits.works import (
    Way,
    altered,
    at,
    defoliates,
    looks_for_new_leaves,
    pinches,
    prunes,
    trims,
    wires,
    without,
)
from backbud_species.habits.yearly import FROZEN_WOOD_SNAPS

_DELAWARE = "University of Delaware Botanic Gardens, Zelkova serrata"


class Zelkova(Elm):
    """The tree of the broom: even fine twigs that are stopped again and again."""

    rule_prefix = "zelkova"
    botanical = "Zelkova serrata"
    common = ("Japanese zelkova", "zelkova")
    also = (
        "Zelkova acuminata",
        "Zelkova keaki",
        "Planera acuminata",
        "Japanese grey-bark elm",
        "keyaki",
        "keaki",
    )
    habit = "A broom of upright branches that fork into fine even twigs, strongest at the top."
    # The RHS list itself was not at hand.
    rests_under_c = Fact(18.0, COMMON_PRACTICE)
    hardiness = Fact("H6", FROM_MEMORY)
    # What it tolerates in open ground.
    soil_ph = Fact(
        (5.0, 8.0), "Vineland Research and Innovation Centre, tree selector: Zelkova serrata"
    )
    light = Fact("Full sun.", _DELAWARE)
    water = Fact("Moist and well drained; it bears some drought.", _DELAWARE)
    bark = Fact(
        "Its bark is thin and grey, and a broom wants tying more than wire.", COMMON_PRACTICE
    )
    wire_check_weeks = Fact((3, 4, 6), COMMON_PRACTICE)
    why_frost = "Its fine surface roots, the pride of the tree, freeze before the top does."
    # For a cool temperate place; from memory. 19: first leaves full size and hardened.
    stage_months: ClassVar[StageMonths] = {
        1: ((3, 12), (3, 28), (4, 12)),
        7: ((4, 1), (4, 15), (4, 30)),
        10: ((4, 10), (4, 23), (5, 8)),
        19: ((5, 28), (6, 11), (6, 25)),
        91: ((8, 25), (9, 12), (10, 1)),
        93: ((10, 12), (10, 28), (11, 14)),
        97: ((11, 6), (11, 20), (12, 8)),
    }
    advice = (
        "Turn it every week in growth: its outline shows every side that had less light.",
        "Tie the branches together in winter, and untie them before the buds swell.",
        "Even moisture keeps the leaves small; a dried-out twig dies back.",
    )
    works: ClassVar[tuple[Rule, ...]] = altered(
        # Stopped shoot by shoot all spring, it has no long second flush to be shortened.
        without(Elm.works, "trim-next"),
        pinches(
            "pinch",
            at(10, 4, 12, 30),
            what="the growing tip of each shoot behind its second leaf, the top and outside first",
            because="A shoot left to run makes one long joint, and the broom lives from many short "
            "ones of one length.",
            cautions=("Let a twig that must thicken or lengthen run.",),
        ),
        defoliates(
            "defoliate",
            at(19, 0, 7, 18),
            full=Way(
                "fully, the stalks left on",
                "A strong one in a warm place answers with finer twigs and leaves of half the "
                "size.",
            ),
            part=Way(
                "in part: the largest leaves, at the outside of the crown",
                "The outside shades the inner twigs, and a broom with dead inner twigs is lost.",
            ),
        ),
        trims(
            "trim",
            at(19, -7, 3, 14),
            what="shoots that got away, to two leaves and to one even outline",
            because="Once the first leaves are hard a shortened shoot makes two, and a single long "
            "one spoils the fan.",
        ),
        looks_for_new_leaves(
            "new-leaves",
            because="New leaves stand about four weeks after a stripping; until then it drinks "
            "little.",
        ),
        prunes(
            "prune",
            at(97, 0, 10, 40),
            what="knots, threes at a fork, and twigs thicker than their neighbours",
            because="On the bare tree each fork is seen, and two even twigs at each make the fan.",
            cautions=("Cut back to a thin side twig: a stub swells into a knot.",),
        ),
        wires(
            "wire",
            at(97, 7, 21, 60),
            because="Bare twigs are seen best; most are drawn together with a tie instead.",
            cautions=(FROZEN_WOOD_SNAPS,),
        ),
    )
