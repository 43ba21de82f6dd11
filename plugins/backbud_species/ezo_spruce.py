"""An Ezo spruce's facts and year: the group's, for a slow spruce that flushes early."""

from __future__ import annotations

from typing import ClassVar

from backbud.species import COMMON_PRACTICE, FROM_MEMORY, Fact, RepotInterval, Rule, StageMonths
from backbud_species.habits.spruces import Spruce
from backbud_species.habits.works import altered, by_warmth, watches_for

_FOREST_RESEARCH = "Forest Research, green spruce aphid"
_MISSOURI = "Missouri Botanical Garden, Plant Finder: Picea jezoensis"


class EzoSpruce(Spruce):
    """A slow spruce of cold forests, with short needles silver beneath, early to flush."""

    rule_prefix = "ezo-spruce"
    botanical = "Picea jezoensis"
    common = ("Ezo spruce", "Yezo spruce")
    also = ("Jezo spruce", "Yeddo spruce", "Picea ajanensis", "Picea yezoensis", "ezomatsu")
    habit = "A slow dense tree of short flat needles, silver beneath, strongest at the top."
    # The RHS list itself was not at hand.
    hardiness = Fact("H7", FROM_MEMORY)
    soil_ph = Fact((4.5, 6.0), FROM_MEMORY)
    repot_years = Fact((3, 4, 7), COMMON_PRACTICE)
    repot_interval = Fact(RepotInterval((2, 3, 4), (3, 5, 8)), COMMON_PRACTICE)
    light = Fact("Full sun in a cool summer.", _MISSOURI)
    water = Fact("Moist and well drained; it bears no hot damp weeks.", _MISSOURI)
    girth_growth_mm = Fact(4.0, FROM_MEMORY)
    why_frost = "The top bears any cold while it sleeps, but it wakes early and is caught by frost."
    stage_months: ClassVar[StageMonths] = {
        1: ((3, 12), (3, 28), (4, 12)),
        7: ((4, 3), (4, 18), (5, 2)),
        10: ((4, 14), (4, 28), (5, 12)),
        91: ((8, 20), (9, 8), (9, 28)),
    }
    sources: ClassVar[dict[str, str]] = {"aphids": _FOREST_RESEARCH}
    works: ClassVar[tuple[Rule, ...]] = altered(
        Spruce.works,
        watches_for(
            "aphids",
            by_warmth((2, 10), (3, 10), (5, 5)),
            where="yellow bands on old needles low down, small green aphids beneath",
            because="The green spruce aphid feeds before the buds break, and spruces from outside "
            f"Europe lose their old needles to it ({_FOREST_RESEARCH}).",
        ),
    )
