"""The care of a European beech: as of all beeches, with shade, for a lost leaf is not replaced.

Unless a rule says otherwise, its figures are common practice, no source.
"""

from __future__ import annotations

from typing import ClassVar

from backbud.species import FROM_MEMORY, Fact, Rule, StageMonths
from backbud_species.habits.beeches import Beech
from backbud_species.habits.heat import shades_in_heat
from backbud_species.habits.works import altered

_FORESTRY = "Forest Research, Tree species database: Beech"


class EuropeanBeech(Beech):
    """A beech of broad leaves, late to open, that waits for long days."""

    rule_prefix = "beech"
    botanical = "Fagus sylvatica"
    common = ("European beech", "common beech", "beech")
    also = ("copper beech", "Fagus sylvatica f. purpurea", "yoroppa buna")
    habit = "A tree of one flush a year from long buds, with pale smooth bark, strong at the top."
    # The RHS list itself was not at hand.
    hardiness = Fact("H6", FROM_MEMORY)
    # A list that does not say of what age the roots were.
    frost_limit_c = Fact(-9.4, "Oregon State list as quoted on a growers' forum")
    soil_ph = Fact((6.0, 7.5), _FORESTRY)
    water = Fact("Never dry, never waterlogged: its shallow roots bear neither.", _FORESTRY)
    toxicity = Fact(
        "Raw beechnuts upset the stomach; they are dangerous to horses in numbers.", FROM_MEMORY
    )
    # Its buds want much chill and then long days (Heide 1993, Physiologia Plantarum 89: 187); the
    # number is no more than a guess from its rank among trees.
    chill_portions = Fact(60.0, FROM_MEMORY)
    # For a cool temperate place; from memory. 19: leaves full size and hardened. It keeps brown
    # leaves: 97 is when what will fall has fallen.
    stage_months: ClassVar[StageMonths] = {
        1: ((3, 22), (4, 5), (4, 18)),
        7: ((4, 10), (4, 21), (5, 4)),
        10: ((4, 18), (4, 28), (5, 10)),
        19: ((5, 28), (6, 10), (6, 24)),
        91: ((8, 10), (8, 30), (9, 20)),
        93: ((10, 15), (10, 31), (11, 16)),
        97: ((11, 12), (11, 28), (12, 15)),
    }
    sources: ClassVar[dict[str, str]] = {"shade": _FORESTRY}
    works: ClassVar[tuple[Rule, ...]] = altered(
        Beech.works,
        shades_in_heat(
            "shade",
            because=f"It suffers in drought years even in woods ({_FORESTRY}), and a scorched leaf "
            "is not replaced.",
        ),
    )
