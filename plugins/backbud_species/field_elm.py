"""The care of a field elm, pruned in the cold, when no beetle carries elm wilt to its cuts.

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
    by_warmth,
    defoliates,
    protects_leaves,
    prunes,
    watches_for,
    wires,
    work,
)
from backbud_species.habits.yearly import FROZEN_WOOD_SNAPS

_EAST_LANSING = "City of East Lansing, Oak wilt and Dutch elm disease"


class FieldElm(Elm):
    """An elm of hedges, corky when young, that suckers from its roots."""

    rule_prefix = "field-elm"
    botanical = "Ulmus minor"
    common = ("field elm", "European field elm", "smooth-leaved elm")
    also = (
        "Ulmus carpinifolia",
        "Ulmus campestris",
        "Ulmus procera",
        "Ulmus minor var. vulgaris",
        "Ulmus suberosa",
        "English elm",
        "European elm",
        "cork-barked elm",
    )
    habit = "A vigorous tree, often corky, that suckers from its roots and grows most at the top."
    # The RHS list itself was not at hand.
    hardiness = Fact("H6", FROM_MEMORY)
    soil_ph = Fact((6.0, 7.8), FROM_MEMORY)
    root_share = Fact((0.6, 0.8), COMMON_PRACTICE)
    light = Fact("Full sun: it keeps leaves small and joints short.", COMMON_PRACTICE)
    water = Fact("Plenty in leaf; hard water does it no harm.", COMMON_PRACTICE)
    bark = Fact("Corky wings break under wire: pad it, and guy what can be guyed.", COMMON_PRACTICE)
    wire_check_weeks = Fact((3, 5, 8), COMMON_PRACTICE)
    why_frost = "The tree is very hardy, but its thick roots near the rim of a pot freeze through."
    # For a cool temperate place; from memory. 19: first leaves full size and hardened. Its
    # flowers open on bare wood in February and March, before anything is done to it.
    stage_months: ClassVar[StageMonths] = {
        1: ((3, 5), (3, 22), (4, 6)),
        7: ((3, 27), (4, 10), (4, 26)),
        10: ((4, 5), (4, 18), (5, 3)),
        19: ((5, 24), (6, 7), (6, 21)),
        91: ((8, 28), (9, 15), (10, 5)),
        93: ((10, 18), (11, 3), (11, 20)),
        97: ((11, 10), (11, 25), (12, 12)),
    }
    advice = (
        "Feed and water a young one hard and cut it hard: it thickens fast.",
        "Small trees rarely take elm wilt, but make no fresh cuts while the beetles fly.",
        "Rub off suckers and buds at the base unless one is wanted.",
    )
    never = (
        *Elm.never,
        "Never make large cuts between spring and autumn: their scent draws bark beetles.",
        "Never keep dead elm wood with bark on near it.",
    )
    sources: ClassVar[dict[str, str]] = {"prune": _EAST_LANSING}
    works: ClassVar[tuple[Rule, ...]] = altered(
        Elm.works,
        protects_leaves(
            "late-frost",
            10,
            frost_c=-2.0,
            because="Its leaves bear a touch of frost, and a hard one costs the first flush.",
        ),
        defoliates(
            "defoliate",
            at(19, 3, 12, 24),
            part=Way(
                "in part: the largest leaves, at the top and the outside",
                "First leaves are the largest, and those that follow are smaller and let light in.",
            ),
        ),
        work(
            "suckers",
            "rubbed",
            at(19, -14, 0, 28),
            what="suckers off at the root, and buds at the base of the trunk",
            because="Suckers take what the crown should have, and are torn off green where cut "
            "ones come back.",
        ),
        prunes(
            "prune",
            at(97, 0, 14, 75),
            what="branches, and twigs that cross, double or outgrow the outline",
            because="On the bare tree the twigs are seen, and no bark beetle flies to a fresh cut "
            f"in the cold ({_EAST_LANSING}).",
            cautions=("Cut slightly hollow: its callus swells above the bark.",),
        ),
        wires(
            "wire",
            at(97, 7, 21, 60),
            because="Bare branches are seen best, and set within the spring's growth.",
            cautions=(FROZEN_WOOD_SNAPS,),
        ),
        watches_for(
            "elm-wilt",
            by_warmth((6, 5), (6, 25), (8, 15)),
            where="single shoots that wilt and yellow from the tip, and brown rings in a cut twig",
            because="Elm wilt is carried by bark beetles and shows from early summer on, one "
            "branch after another.",
            cautions=("Cut well below the stain at once, burn it, and clean the tools.",),
        ),
    )
