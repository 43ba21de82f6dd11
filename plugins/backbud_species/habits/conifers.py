"""What evergreen conifers have in common: facts and a year of works. Figures: common practice."""

from __future__ import annotations

from typing import ClassVar

from backbud.species import COMMON_PRACTICE, Fact, RepotInterval, Rule, Species, StageMonths
from backbud_species.habits.works import (
    at,
    balances,
    between,
    by_warmth,
    feeds,
    repots,
    watches_for,
    wires,
)
from backbud_species.habits.yearly import FROZEN_WOOD_SNAPS


class Conifer(Species):
    """An evergreen conifer: slow roots, wood that sets slowly, life only where it is green."""

    evergreen = True
    rests_under_c: ClassVar[Fact[float] | None] = Fact(15.0, COMMON_PRACTICE)
    usual_mix = Fact("akadama 1, pumice 1, lava 1", COMMON_PRACTICE)
    repot_years = Fact((2, 4, 6), COMMON_PRACTICE)
    repot_interval: ClassVar[Fact[RepotInterval] | None] = Fact(
        RepotInterval((1, 2, 4), (3, 5, 8)), COMMON_PRACTICE
    )
    root_share = Fact((0.33, 0.5), COMMON_PRACTICE)
    why_frost = (
        "The top is hardy, but roots in a shallow pot and dry wind on frozen soil are not safe."
    )
    wire_check_weeks = Fact((8, 12, 16), COMMON_PRACTICE)
    light = Fact("Full sun, and the pot turned so that every side has it.", COMMON_PRACTICE)
    water = Fact("Let the surface dry a little between waterings.", COMMON_PRACTICE)
    stage_months: ClassVar[StageMonths] = {
        1: ((3, 10), (3, 25), (4, 10)),
        7: ((4, 5), (4, 20), (5, 5)),
        10: ((5, 1), (5, 15), (6, 1)),
        91: ((9, 20), (10, 8), (10, 28)),
    }
    advice: ClassVar[tuple[str, ...]] = (
        "Full sun and moving air, all year outside.",
        "Water when the surface begins to dry, and never let the pot stand wet.",
    )
    never: ClassVar[tuple[str, ...]] = (
        "Never cut a branch back to where no green is left: it dies.",
        "Never wash out all the old soil in one go.",
    )
    works: ClassVar[tuple[Rule, ...]] = (
        *repots(
            "repot",
            between(1, 7),
            autumn_too=True,
            because="It is repotted as the buds swell and keeps part of its old soil, with the "
            "fungus threads that feed its roots.",
        ),
        feeds(
            "feed-spring",
            at(7, 0, 10, 21),
            because="Food is taken up from the first growth on, evenly and not too much: rich feed "
            "makes coarse shoots.",
        ),
        feeds(
            "feed-autumn",
            by_warmth((9, 10), (9, 25), (10, 20)),
            because="Conifers store in autumn what they grow from in spring.",
        ),
        balances("balance", at(10, 14, 28, 56)),
        wires(
            "wire",
            at(91, 28, 56, 110),
            because="From late autumn on the bark is firm and the sap slow, so branches can be set "
            "without tearing.",
            cautions=(FROZEN_WOOD_SNAPS,),
        ),
        watches_for(
            "mites",
            by_warmth((6, 10), (7, 1), (8, 20)),
            where="tap foliage over white paper for mites",
            because="Spider mites dull the foliage in hot, dry weather before anybody sees them.",
        ),
    )
