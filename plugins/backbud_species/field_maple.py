"""The care of a field maple, whose long joints are cut to one pair and whose cork is spared.

Unless a rule says otherwise, its figures are common practice, no source.
"""

from __future__ import annotations

from typing import ClassVar

from backbud.species import COMMON_PRACTICE, FROM_MEMORY, Fact, Rule, StageMonths
from backbud_species.habits.flushes import trims_again
from backbud_species.habits.maples import SpreadingMaple
from backbud_species.habits.works import (
    Way,
    altered,
    at,
    by_warmth,
    defoliates,
    looks_for_new_leaves,
    protects_leaves,
    trims,
    watches_for,
    wires,
)
from backbud_species.habits.yearly import FROZEN_WOOD_SNAPS

_MAINE = "Maine Forest Service, Gall mites"


class FieldMaple(SpreadingMaple):
    """A hedge maple that buds back from old wood, with long joints that want cutting short."""

    rule_prefix = "field-maple"
    botanical = "Acer campestre"
    common = ("field maple", "hedge maple")
    also = ("common maple", "kobukaede")
    habit = "A dense tree of paired twigs, often corky, strongest at the top and the outside."
    hardiness = Fact("H6", "RHS, AGM Plants July 2021, ornamental")
    soil_ph = Fact(
        (5.0, 8.2),
        "Michigan State University Extension, E-2925, Alternatives to Ash Trees, January 2006",
    )
    usual_mix = Fact("akadama 2, pumice 1, lava 1", COMMON_PRACTICE)
    root_share = Fact((0.5, 0.8), COMMON_PRACTICE)
    # Its roots are far hardier than those of the maples of the Far East.
    frost_limit_c = Fact(-10.0, COMMON_PRACTICE)
    why_frost = "It is hardy, but roots in a shallow pot freeze through sooner than in the soil."
    light = Fact("Full sun; light shade only in a heat wave.", COMMON_PRACTICE)
    water = Fact("Plenty in leaf; it bears a dry day better than other maples.", COMMON_PRACTICE)
    bark = Fact(
        "Corky ridges are part of its worth and rub off: pad wire, and take it off early.",
        COMMON_PRACTICE,
    )
    toxicity = Fact("Not known to harm people; keep maple leaves away from horses.", FROM_MEMORY)
    # For a cool temperate place; from memory. 19: first leaves full size and hardened.
    stage_months: ClassVar[StageMonths] = {
        1: ((3, 8), (3, 24), (4, 8)),
        7: ((3, 28), (4, 10), (4, 25)),
        10: ((4, 6), (4, 18), (5, 3)),
        19: ((5, 24), (6, 7), (6, 21)),
        91: ((8, 28), (9, 15), (10, 5)),
        93: ((10, 15), (10, 30), (11, 16)),
        97: ((11, 8), (11, 22), (12, 10)),
    }
    advice = (
        "Full sun keeps its joints short and its leaves small.",
        "Hard water does it no harm: it is a tree of chalk.",
        "Keep old leaves off the soil: mildew winters on them.",
    )
    sources: ClassVar[dict[str, str]] = {"pests": _MAINE}
    works: ClassVar[tuple[Rule, ...]] = altered(
        SpreadingMaple.works,
        trims(
            "trim",
            at(19, -7, 0, 10),
            what="shoots of three pairs and more to one pair, from the top down",
            because="Its joints are long, so only shoots cut to the first pair make a fine twig, "
            "and it answers from old wood too.",
        ),
        trims_again(
            "trim-late",
            by_warmth((7, 20), (8, 5), (8, 25)),
            what="the second flush to one pair",
            because="What grows after a late summer trim still ripens before the frost.",
        ),
        protects_leaves(
            "late-frost",
            10,
            frost_c=-2.0,
            because="Its leaves bear a touch of frost, and a hard one costs the first flush.",
        ),
        defoliates(
            "defoliate",
            at(19, 3, 10, 20),
            full=Way(
                "fully, the stalks left on",
                "A strong one in a warm place makes a second set of half the size.",
            ),
            part=Way(
                "in part: the largest leaves, and one of each outer pair",
                "Its leaves are broad and shade the inner twigs, which die first.",
            ),
        ),
        looks_for_new_leaves(
            "new-leaves",
            because="New leaves stand about four weeks after a stripping; until then it drinks "
            "little.",
        ),
        wires(
            "wire",
            at(97, 0, 14, 40),
            because="Bare twigs are seen best, and its branches set within a season.",
            cautions=(FROZEN_WOOD_SNAPS,),
        ),
        watches_for(
            "pests",
            at(10, 7, 20, 40),
            where="soft tips, and red or felted spots on the leaves",
            because="Aphids are wiped off early, while gall mites only disfigure the leaf and do "
            f"the tree no harm ({_MAINE}).",
        ),
        watches_for(
            "mildew",
            by_warmth((7, 10), (7, 28), (9, 10)),
            where="late shoots and inner leaves, for white film",
            because="Mildew is the trouble of this maple in dry soil and still air, on the second "
            "flush above all.",
        ),
    )
