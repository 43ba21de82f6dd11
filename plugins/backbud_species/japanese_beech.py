"""The care of a Japanese beech, thinned in leaf and bud for the sake of its fine winter twigs.

Unless a rule says otherwise, its figures are common practice, no source.
"""

from __future__ import annotations

from typing import ClassVar

from backbud.species import COMMON_PRACTICE, FROM_MEMORY, Fact, Rule, StageMonths
from backbud_species.habits.beeches import Beech, thins_leaves
from backbud_species.habits.works import altered, at, prunes

_DENDROLOGY = "International Dendrology Society, Trees and Shrubs Online: Fagus crenata"
_BOONE = "Boone County Arboretum, Fagus crenata"


class JapaneseBeech(Beech):
    """A beech of small leaves and white bark, grown for its winter twigs."""

    rule_prefix = "japanese-beech"
    botanical = "Fagus crenata"
    common = ("Japanese beech", "Siebold's beech", "Japanese white beech")
    also = ("Fagus sieboldii", "buna", "shirobuna", "fuji buna")
    habit = "A small-leaved tree of one flush a year, with white bark, strongest at the top."
    hardiness = Fact("H7", _DENDROLOGY)
    # The arboretum has it in acid, neutral and alkaline soils, without figures.
    soil_ph = Fact((5.0, 7.0), FROM_MEMORY)
    usual_mix = Fact("akadama 4, pumice 1, some old soil with its fungus threads", COMMON_PRACTICE)
    water = Fact("Well drained, moist or dry, but never heavy and wet.", _BOONE)
    toxicity = Fact("Unripe raw nuts upset the stomach.", _BOONE)
    # Less chill than its European cousin, and less need of long days: it opens a week or more
    # before. The number is a guess from that.
    chill_portions = Fact(50.0, FROM_MEMORY)
    # For a cool temperate place; from memory. 19: leaves full size and hardened. It keeps brown
    # leaves: 97 is when what will fall has fallen.
    stage_months: ClassVar[StageMonths] = {
        1: ((3, 12), (3, 27), (4, 10)),
        7: ((3, 31), (4, 12), (4, 26)),
        10: ((4, 8), (4, 19), (5, 2)),
        19: ((5, 20), (6, 2), (6, 16)),
        91: ((8, 10), (8, 30), (9, 20)),
        93: ((10, 15), (10, 30), (11, 14)),
        97: ((11, 10), (11, 25), (12, 12)),
    }
    works: ClassVar[tuple[Rule, ...]] = altered(
        Beech.works,
        thins_leaves(
            what="leaves of the outer twigs to one in two, the stalks left on",
            because="Buds behind a taken leaf stay slim, and those inside fill out in the light.",
        ),
        prunes(
            "prune",
            at(1, -38, -30, -22),
            what="twigs to two buds, and the thickest bud of each strong tip rubbed out",
            because="The thick bud at the tip makes the long coarse shoot, and two slim ones in "
            "its stead make short fine twigs.",
            cautions=("Cut the top and the outside; inside every bud is needed.",),
        ),
    )
