"""The care of a Korean hornbeam: as of all hornbeams, its catkins off and its autumn kept red.

Unless a rule says otherwise, its figures are common practice, no source.
"""

from __future__ import annotations

from datetime import date
from typing import ClassVar

from backbud.species import (
    COMMON_PRACTICE,
    FROM_MEMORY,
    Fact,
    RepotInterval,
    Rule,
    StageMonths,
    Tree,
    Year,
)
from backbud_species.habits.hornbeams import Hornbeam
from backbud_species.habits.intervals import known_age_years
from backbud_species.habits.works import altered, at, feeds, work

_DENDROLOGY = "International Dendrology Society, Trees and Shrubs Online: Carpinus turczaninovii"


_OLD_FROM_YEARS = 20


def _may_be_old(tree: Tree, day: date, year: Year) -> bool:
    """Whether it is old enough to flower hard, as far as anybody knows."""
    age = known_age_years(tree, day)
    return age is None or not age.exact or age.years >= _OLD_FROM_YEARS


class KoreanHornbeam(Hornbeam):
    """A small-leaved hornbeam, mostly collected, with fine twigs and red autumn leaves."""

    rule_prefix = "korean-hornbeam"
    # Carpinus coreana, the name of the trade, is held a synonym.
    botanical = "Carpinus turczaninovii"
    common = ("Korean hornbeam", "rock hornbeam", "Turczaninow hornbeam")
    also = (
        "Carpinus coreana",
        "Carpinus turczaninowii",
        "Carpinus turczaninovii var. coreana",
        "Carpinus paxii",
        "Carpinus tanakaeana",
        "iwashide",
    )
    habit = "A small-leaved tree of fine slender twigs, strongest at the top and the outside."
    hardiness = Fact("H6", _DENDROLOGY)
    soil_ph = Fact((6.0, 7.5), FROM_MEMORY)
    usual_mix = Fact("akadama 3, pumice 1, lava 1", COMMON_PRACTICE)
    repot_years = Fact((2, 3, 5), COMMON_PRACTICE)
    repot_interval = Fact(RepotInterval((1, 2, 3), (3, 5, 8)), COMMON_PRACTICE)
    root_share = Fact((0.4, 0.6), COMMON_PRACTICE)
    why_frost = "Old collected trunks stand on few roots, and those lie shallow in the pot."
    light = Fact("Full sun: it reddens in autumn only where it had light.", COMMON_PRACTICE)
    water = Fact("Even moisture, though it bears a dry day.", COMMON_PRACTICE)
    wire_check_weeks = Fact((4, 6, 9), COMMON_PRACTICE)
    girth_growth_mm = Fact(3.0, COMMON_PRACTICE)
    # For a cool temperate place; from memory. 19: first leaves full size and hardened.
    stage_months: ClassVar[StageMonths] = {
        1: ((3, 1), (3, 17), (4, 1)),
        7: ((3, 20), (4, 3), (4, 18)),
        10: ((3, 30), (4, 12), (4, 27)),
        19: ((5, 20), (6, 3), (6, 17)),
        91: ((8, 28), (9, 15), (10, 4)),
        93: ((10, 20), (11, 5), (11, 22)),
        97: ((11, 12), (11, 26), (12, 14)),
    }
    advice = (
        "Sun, even moisture and cool autumn nights give its red leaves.",
        "Its old trunks are mostly part dead: look at the living strips before any work.",
        "Let a weak branch run for a year; a strong one is stopped.",
    )
    never = (
        *Hornbeam.never,
        "Never cut away a living strip that feeds a branch.",
    )
    works: ClassVar[tuple[Rule, ...]] = altered(
        Hornbeam.works,
        feeds(
            "feed-autumn",
            at(91, -14, -5, 7),
            what="with little nitrogen, and no more once the leaves colour",
            because="Nitrogen late in the year keeps the leaves green when they should redden.",
        ),
        work(
            "catkins",
            "disbudded",
            at(10, -10, 0, 12),
            what="catkins, where they hang in numbers",
            because="An old tree flowers hard, and twigs that carry catkins make no leaf of their "
            "own and die.",
            only_if=_may_be_old,
        ),
    )
