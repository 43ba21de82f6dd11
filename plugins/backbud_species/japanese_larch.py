"""A Japanese larch's facts and year: the group's, for the larch that wakes first."""

from __future__ import annotations

from typing import ClassVar

from backbud.species import FROM_MEMORY, Fact, Rule, StageMonths
from backbud_species.habits.larches import Larch
from backbud_species.habits.works import altered, by_warmth, watches_for

_MISSOURI = "Missouri Botanical Garden, Plant Finder: Larix kaempferi"
_FORESTRY = "Forestry Commission, Phytophthora ramorum: questions and answers"


class JapaneseLarch(Larch):
    """The larch of Japan: red-brown twigs, blue-green tufts, early and strong."""

    rule_prefix = "japanese-larch"
    botanical = "Larix kaempferi"
    common = ("Japanese larch",)
    also = ("Larix leptolepis", "Larix japonica", "karamatsu")
    habit = "A strong tree of red-brown twigs and blue-green tufts, first to wake, bare in winter."
    # The RHS list itself was not at hand.
    hardiness = Fact("H7", FROM_MEMORY)
    # Missouri says acidic, without figures.
    soil_ph = Fact((5.0, 6.5), FROM_MEMORY)
    light = Fact("Full sun; it bears a little shade.", _MISSOURI)
    water = Fact("Moist and well drained; it does not bear dry soil.", _MISSOURI)
    stage_months: ClassVar[StageMonths] = {
        1: ((2, 16), (3, 4), (3, 19)),
        7: ((3, 6), (3, 21), (4, 4)),
        10: ((3, 21), (4, 3), (4, 18)),
        91: ((8, 28), (9, 15), (10, 4)),
        93: ((10, 18), (11, 2), (11, 17)),
        97: ((11, 10), (11, 25), (12, 10)),
    }
    sources: ClassVar[dict[str, str]] = {"ramorum": _FORESTRY}
    works: ClassVar[tuple[Rule, ...]] = altered(
        Larch.works,
        watches_for(
            "ramorum",
            by_warmth((6, 10), (7, 5), (9, 5)),
            where="withered shoot tips, blackened needles, bleeding bark",
            because="Ramorum disease kills this larch above all others, and its needles spread far "
            f"more spores than other hosts ({_FORESTRY}).",
            cautions=("It must be reported: call plant health, and move no tree.",),
        ),
    )
