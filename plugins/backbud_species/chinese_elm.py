"""The care of a Chinese elm, bare or half green in winter as the cold decides.

Unless a rule says otherwise, its figures are common practice, no source.
"""

from __future__ import annotations

from typing import ClassVar

from backbud.species import COMMON_PRACTICE, FROM_MEMORY, Fact, RepotInterval, Rule, StageMonths
from backbud_species.habits.elms import Elm
from backbud_species.habits.works import (
    altered,
    at,
    between,
    by_warmth,
    prunes,
    repots,
    watches_for,
    wires,
    without,
)
from backbud_species.habits.yearly import CUT_ROOTS_FREEZE, FROZEN_WOOD_SNAPS

_PENN_STATE = "Penn State Extension, Elm leaf beetle, 2017"


class ChineseElm(Elm):
    """A small-leaved elm that keeps its leaves as long as the winter lets it."""

    rule_prefix = "chinese-elm"
    botanical = "Ulmus parvifolia"
    common = ("Chinese elm", "lacebark elm")
    also = ("Ulmus chinensis", "small-leaved Chinese elm", "nire keyaki", "nire", "akinire")
    # Deciduous or evergreen (University of Florida IFAS Extension, fact sheet ST-652, 1994).
    habit = "A vigorous small-leaved tree, bare or half green in winter, strongest at the top."
    # The RHS list itself was not at hand; stock from the far south is less hardy.
    rests_under_c = None
    hardiness = Fact("H6", FROM_MEMORY)
    soil_ph = Fact((5.5, 7.5), FROM_MEMORY)
    repot_years = Fact((1, 2, 4), COMMON_PRACTICE)
    repot_interval = Fact(RepotInterval((1, 1, 2), (2, 4, 6)), COMMON_PRACTICE)
    root_share = Fact((0.6, 0.9), COMMON_PRACTICE)
    frost_limit_c = Fact(-5.0, COMMON_PRACTICE)
    why_frost = "Its roots are fleshy, and those of a tree that wintered warm are tender too."
    light = Fact("Full sun; indoors it grows thin and takes mites.", COMMON_PRACTICE)
    water = Fact("Plenty in leaf, and never dry: a dry twig drops its leaves.", COMMON_PRACTICE)
    bark = Fact(
        "Its bark flakes in plates or is corky, both part of its worth: wire bites within a month.",
        COMMON_PRACTICE,
    )
    wire_check_weeks = Fact((3, 4, 6), COMMON_PRACTICE)
    # For a cool temperate place; from memory. 19: first leaves full size and hardened.
    stage_months: ClassVar[StageMonths] = {
        1: ((3, 10), (3, 26), (4, 10)),
        7: ((3, 30), (4, 14), (4, 30)),
        10: ((4, 8), (4, 22), (5, 8)),
        19: ((5, 25), (6, 8), (6, 22)),
        91: ((9, 10), (9, 28), (10, 18)),
        93: ((10, 25), (11, 12), (11, 30)),
        97: ((11, 25), (12, 12), (12, 31)),
    }
    advice = (
        "It is an outdoor tree: keep one that came from indoors cool and light in its first winter "
        "and let it out after the frosts.",
        "Let the roots freeze lightly at most, and do not worry about leaves it keeps or drops.",
        "Trim often: an untrimmed crown shades its inner twigs, and they die within a summer.",
    )
    never = (
        *Elm.never,
        "Never move it from a warm room into frost.",
        "Never spray it untested: some products make it drop every leaf.",
    )
    sources: ClassVar[dict[str, str]] = {"pests": _PENN_STATE}
    works: ClassVar[tuple[Rule, ...]] = altered(
        without(Elm.works, "prune"),
        *repots(
            "repot",
            between(1, 7),
            because="It regrows roots faster than almost any other tree, best as its buds swell, "
            "and thick ones may go for the sake of the root flare.",
            cautions=(
                "Cut roots clean with a sharp blade: their bark tears and slips.",
                CUT_ROOTS_FREEZE,
            ),
        ),
        prunes(
            "prune-spring",
            at(1, -21, -16, -10),
            what="branches and doubled twigs, before the buds swell",
            because="It buds back freely from old wood, and a cut made just before growth closes "
            "within the year.",
            cautions=("Cut slightly hollow: its callus swells above the bark.",),
        ),
        wires(
            "wire",
            at(97, 0, 21, 60),
            because="It is bare or thin in leaf, and its branches set within weeks of growth.",
            cautions=(FROZEN_WOOD_SNAPS,),
        ),
        watches_for(
            "pests",
            by_warmth((5, 1), (5, 25), (7, 31)),
            where="undersides of the leaves, for aphids, yellow eggs in rows, and fine webs",
            because="Aphids come with the soft leaves, grubs of the elm leaf beetle then eat them "
            f"to the veins ({_PENN_STATE}), and mites come in dry heat.",
        ),
        watches_for(
            "leaf-spot",
            by_warmth((6, 10), (7, 5), (9, 15)),
            where="black spots on leaves that yellow and fall",
            because="Black spot of elm lives in wet leaves, and a bad year strips the inner twigs.",
            cautions=("Let no fallen leaf lie on the soil, and water under the leaves.",),
        ),
    )
