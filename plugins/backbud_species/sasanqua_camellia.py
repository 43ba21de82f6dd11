"""The care of a sasanqua, which flowers in autumn, so that spring is free for its cuts.

Unless a rule says otherwise, its figures are common practice, no source.
"""

from __future__ import annotations

from typing import ClassVar

from backbud.species import COMMON_PRACTICE, FROM_MEMORY, Fact, Rule, StageMonths
from backbud_species.habits.camellias import Camellia
from backbud_species.habits.works import (
    altered,
    at,
    by_warmth,
    deadheads,
    disbuds,
    prunes,
    trims,
    watches_for,
)


class SasanquaCamellia(Camellia):
    """The small-leaved camellia that flowers in autumn and sheds its petals one by one."""

    rule_prefix = "sasanqua"
    botanical = "Camellia sasanqua"
    common = ("sasanqua camellia", "autumn camellia", "sasanqua")
    also = (
        "Camellia hiemalis",
        "Camellia × vernalis",
        "Camellia × hiemalis",
        "sazanka",
        "kantsubaki",
    )
    habit = "A twiggy small-leaved evergreen that flowers in autumn, strongest at the top."
    # Of one cultivar; the RHS list itself was not at hand.
    hardiness = Fact("H4", "RHS, Ten AGM winter shrubs and climbers: Camellia sasanqua Narumigata")
    frost_limit_c = Fact(-4.0, FROM_MEMORY)
    light = Fact("Full sun to light shade: it takes more sun than its sister.", COMMON_PRACTICE)
    # For a cool temperate place; from memory.
    stage_months: ClassVar[StageMonths] = {
        1: ((3, 22), (4, 6), (4, 22)),
        7: ((4, 8), (4, 23), (5, 8)),
        10: ((4, 20), (5, 5), (5, 20)),
        19: ((6, 8), (6, 22), (7, 6)),
        60: ((10, 8), (10, 22), (11, 6)),
        65: ((10, 24), (11, 8), (11, 24)),
        69: ((11, 18), (12, 3), (12, 18)),
        91: ((8, 15), (9, 3), (9, 22)),
    }
    works: ClassVar[tuple[Rule, ...]] = altered(
        Camellia.works,
        disbuds(
            "disbud",
            by_warmth((7, 25), (8, 14), (9, 10)),
            what="round flower buds to one at each tip, none on weak twigs or a weak tree",
            because="Buds swell for autumn, and crowded ones open small or drop.",
        ),
        deadheads(
            "deadhead",
            at(69, 0, 5, 13),
            what="seed pods and bare stalks; petals off the soil",
            because="It drops its petals by itself, and pods would ripen through the winter.",
        ),
        trims(
            "trim",
            by_warmth((3, 15), (4, 2), (4, 24)),
            what="last year's shoots to two or three leaves, the top hardest",
            because="Its flowers are long over, and its one flush has yet to start.",
            cautions=("Cut above a leaf with a plump bud.",),
        ),
        prunes(
            "prune",
            by_warmth((3, 10), (3, 25), (4, 15)),
            what="what crosses, and whorls at a tip to two twigs",
            because="Wounds made as growth nears close fastest, and no flower is lost.",
        ),
        watches_for(
            "gall",
            at(10, 0, 14, 35),
            where="thick pale swollen young leaves",
            because="Leaf gall swells soft leaves in cool wet springs and spreads once they turn "
            "white.",
            cautions=("Pick them off before they turn white.",),
        ),
    )
