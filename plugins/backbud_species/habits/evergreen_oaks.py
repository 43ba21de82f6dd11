"""What evergreen oaks of dry woods have in common. Figures: common practice."""

from __future__ import annotations

from typing import ClassVar

from backbud.species import COMMON_PRACTICE, FROM_MEMORY, Fact, RepotInterval, Rule, StageMonths
from backbud_species.habits.mediterranean import MediterraneanEvergreen
from backbud_species.habits.works import altered, at, prunes, repots, trims, without


class EvergreenOak(MediterraneanEvergreen):
    """A slow evergreen oak: it wakes late, makes one flush, and keeps a share of its old soil."""

    repot_years = Fact((2, 4, 6), COMMON_PRACTICE)
    repot_interval = Fact(RepotInterval((2, 3, 4), (4, 5, 8)), COMMON_PRACTICE)
    root_share = Fact((0.25, 0.4), COMMON_PRACTICE)
    toxicity = Fact("Acorns and leaves upset stock and pets that eat many.", FROM_MEMORY)
    wire_check_weeks = Fact((6, 10, 16), COMMON_PRACTICE)
    girth_growth_mm = Fact(3.0, FROM_MEMORY)
    # For a cool temperate place, under glass in frost; from memory. It wakes late.
    stage_months: ClassVar[StageMonths] = {
        1: ((4, 5), (4, 20), (5, 5)),
        7: ((4, 22), (5, 6), (5, 20)),
        10: ((5, 5), (5, 18), (6, 2)),
        19: ((6, 16), (6, 30), (7, 14)),
        91: ((9, 8), (9, 26), (10, 14)),
    }
    works: ClassVar[tuple[Rule, ...]] = altered(
        without(MediterraneanEvergreen.works, "trim-late"),
        *repots(
            "repot",
            at(7, -7, 5, 18),
            because="An oak keeps a share of its old soil and fungus threads, and its roots regrow "
            "as the buds open in warm soil.",
            cautions=("Long thick roots are shortened over two repottings, never at once.",),
        ),
        prunes(
            "prune",
            at(1, -14, 0, 14),
            what="branches back to a green side twig, before the new growth",
            because="It answers from old wood with the spring flush, and a cut made then closes "
            "within the year.",
        ),
        trims(
            "trim",
            at(19, -7, 7, 28),
            what="shoots to two or three leaves",
            because="Once the flush has hardened a shortened shoot breaks from several buds; a "
            "second flush comes only to a strong tree.",
        ),
    )
