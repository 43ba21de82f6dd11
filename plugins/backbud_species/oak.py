"""The care of an English oak, whose buds crowd at the tips and make knots where they are left.

Unless a rule says otherwise, its figures are common practice, no source.
"""

from __future__ import annotations

from typing import ClassVar

from backbud.species import COMMON_PRACTICE, Fact, RepotInterval, Rule, StageMonths
from backbud_species.habits.broadleaves import BroadleafDeciduous
from backbud_species.habits.flushes import trims_again
from backbud_species.habits.works import (
    Way,
    altered,
    at,
    between,
    by_warmth,
    defoliates,
    feeds,
    pinches,
    prunes,
    repots,
    trims,
    watches_for,
    wires,
)
from backbud_species.habits.yearly import FROZEN_WOOD_SNAPS

_RHS = "RHS, Quercus robur"
_MASSEY = "Massey University, Poisonous plants: Quercus robur"
_MOTH = "EU LIFE programme, Field identification guide: oak processionary moth"


class EnglishOak(BroadleafDeciduous):
    """A slow stiff tree that grows in flushes from buds crowded at the tips."""

    rule_prefix = "oak"
    botanical = "Quercus robur"
    common = ("English oak", "pedunculate oak", "common oak", "oak")
    also = ("Quercus pedunculata", "yoroppa nara")
    habit = "A stiff tree that grows in flushes from buds crowded at the tips, strong at the top."
    hardiness = Fact("H6", _RHS)
    # The RHS says acid, neutral and alkaline, without figures.
    soil_ph = Fact((4.5, 7.5), "FAO, EcoCrop: Quercus robur")
    usual_mix = Fact("akadama 2, pumice 1, lava 1", COMMON_PRACTICE)
    repot_years = Fact((2, 4, 6), COMMON_PRACTICE)
    repot_interval = Fact(RepotInterval((2, 2, 4), (3, 5, 8)), COMMON_PRACTICE)
    root_share = Fact((0.33, 0.5), COMMON_PRACTICE)
    why_frost = "Its roots are few and thick, and those at the rim of the pot freeze through."
    light = Fact("Full sun, or shade for part of the day.", _RHS)
    water = Fact("Moist but well drained.", _RHS)
    bark = Fact(
        "Young bark is smooth and marks, old wood is stiff: bend it in steps.", COMMON_PRACTICE
    )
    toxicity = Fact(
        "Buds, young leaves and acorns poison all animals, cattle and sheep above all.", _MASSEY
    )
    wire_check_weeks = Fact((4, 6, 10), COMMON_PRACTICE)
    girth_growth_mm = Fact(4.0, COMMON_PRACTICE)
    # For a cool temperate place; from memory. 19: first leaves full size and hardened. A young
    # tree keeps brown leaves: 97 is when what will fall has fallen.
    stage_months: ClassVar[StageMonths] = {
        1: ((3, 20), (4, 4), (4, 17)),
        7: ((4, 6), (4, 18), (5, 2)),
        10: ((4, 16), (4, 27), (5, 10)),
        19: ((5, 30), (6, 13), (6, 27)),
        91: ((9, 1), (9, 18), (10, 8)),
        93: ((10, 22), (11, 6), (11, 22)),
        97: ((11, 18), (12, 2), (12, 20)),
    }
    advice = (
        "Keep it moist in high summer: mildew takes the second flush of a dry tree.",
        "Give it full sun and air, and room between its leaves.",
        "Feed it through both flushes while it is young; growth comes in bursts, not evenly.",
    )
    never = (
        *BroadleafDeciduous.never,
        "Never take the taproot and many side roots in one year.",
        "Never touch a nest of oak processionary moth: its hairs burn skin, eyes and lungs.",
    )
    sources: ClassVar[dict[str, str]] = {"pests": _MOTH}
    works: ClassVar[tuple[Rule, ...]] = altered(
        BroadleafDeciduous.works,
        *repots(
            "repot",
            between(1, 7),
            because="It is repotted late, as the crowded buds swell; it has few fine roots, so the "
            "thick ones are shortened over several repottings.",
            cautions=("Keep some old soil: its roots live with a fungus.",),
        ),
        pinches(
            "pinch",
            at(10, 4, 12, 24),
            what="strong soft shoots to two or three leaves, the top first",
            because="The buds of the next flush crowd at the tip of a shoot, and one stopped soft "
            "makes them lower down.",
        ),
        trims(
            "trim",
            at(19, 0, 7, 21),
            what="long shoots to two or three leaves, the crowded tip off",
            because="Left whole, the cluster at the tip makes a whorl of shoots and a knot; cut "
            "once hard, it flushes again from single buds.",
        ),
        defoliates(
            "defoliate",
            at(19, 5, 14, 24),
            part=Way(
                "in part: the largest leaves at the outside",
                "Its leaves are large and shade the inner buds, which sleep and then die.",
            ),
        ),
        trims_again(
            "trim-late",
            by_warmth((8, 1), (8, 14), (8, 31)),
            what="long shoots of the Lammas flush to two leaves",
            because="The second flush of summer runs long at the top, and what is left still "
            "ripens.",
        ),
        feeds(
            "feed",
            at(19, -14, 0, 21),
            because="It draws on its store for the first flush and feeds for the second.",
        ),
        prunes(
            "prune",
            at(97, 0, 21, 80),
            what="twigs to a side bud, and clusters at a tip to two buds",
            because="Clusters left whole make whorls and swellings, and on the bare tree each bud "
            "is seen.",
        ),
        wires(
            "wire",
            at(97, 0, 21, 80),
            because="Twigs of one and two years still bend, and old ones only little by little.",
            cautions=(FROZEN_WOOD_SNAPS,),
        ),
        watches_for(
            "pests",
            by_warmth((5, 5), (5, 25), (7, 10)),
            where="rolled leaves and caterpillars, without touching any that walk in a file",
            because="Caterpillars strip the first flush, and those of the processionary moth carry "
            f"burning hairs ({_MOTH}).",
            cautions=("In some countries a nest has to be reported.",),
        ),
        watches_for(
            "mildew",
            by_warmth((7, 10), (7, 28), (9, 5)),
            where="soft leaves of the second flush, for white film",
            because="Oak mildew lives on soft leaves in dry warm weather and cripples the second "
            "flush.",
        ),
    )
