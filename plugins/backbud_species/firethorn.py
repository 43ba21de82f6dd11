"""The care of a firethorn: it fruits on twigs of last year, and its few roots are spared.

Unless a rule says otherwise, its figures are common practice, no source.
"""

from __future__ import annotations

from typing import ClassVar

from backbud.species import COMMON_PRACTICE, FROM_MEMORY, Fact, Rule, StageMonths
from backbud_species.habits.blossom import spares_flowers, thins_fruit, watches_for_fireblight
from backbud_species.habits.broadleaves import BroadleafEvergreen
from backbud_species.habits.done import is_hard_pruning
from backbud_species.habits.flushes import trims_again
from backbud_species.habits.works import (
    altered,
    at,
    between,
    by_warmth,
    checks_after,
    feeds,
    repots,
    trims,
    watches_for,
    weeks,
    wires,
)

_ROOTS = "Dirr & Smith, Ornamentals Northwest Archives"
_BEAN = "Bean, in Trees and Shrubs Online: Pyracantha coccinea"
_WASHINGTON = "Washington State University, Hortsense: Pyracantha scab"
_TEXAS = "Texas A&M, Texas Plant Disease Handbook: Pyracantha"


class Firethorn(BroadleafEvergreen):
    """A thorny evergreen that flowers in June on wood of last year and fruits all winter."""

    rule_prefix = "firethorn"
    botanical = "Pyracantha coccinea"
    common = ("firethorn", "scarlet firethorn", "pyracantha")
    also = (
        "Cotoneaster pyracantha",
        "Pyracantha angustifolia",
        "Pyracantha crenulata",
        "Pyracantha koidzumii",
        "pirakansa",
        "tokiwa sanzashi",
        "tachibana modoki",
    )
    habit = "A dense thorny evergreen, red with fruit into winter, strongest at the top."
    # The RHS list itself was not at hand; P. angustifolia is less hardy.
    hardiness = Fact("H6", FROM_MEMORY)
    soil_ph = Fact((5.5, 7.5), FROM_MEMORY)
    frost_limit_c = Fact(-16.7, _ROOTS)
    young_frost_limit_c = Fact(-5.6, _ROOTS)
    why_frost = "Its roots are far more tender than its top, and few."
    light = Fact("Full sun: it lives in shade, and does not fruit there.", COMMON_PRACTICE)
    water = Fact("Evenly moist, and never waterlogged: its roots rot.", _TEXAS)
    bark = Fact("Its wood is hard and stiff by its second year.", COMMON_PRACTICE)
    toxicity = Fact(
        "Much of the fruit upsets the stomach; thorn wounds swell and fester.", FROM_MEMORY
    )
    girth_growth_mm = Fact(5.0, FROM_MEMORY)
    # For a cool temperate place; from memory, but for the flowers of early June (Bean).
    stage_months: ClassVar[StageMonths] = {
        1: ((3, 5), (3, 22), (4, 8)),
        7: ((3, 24), (4, 10), (4, 26)),
        10: ((4, 6), (4, 22), (5, 8)),
        19: ((5, 25), (6, 8), (6, 22)),
        60: ((5, 22), (6, 3), (6, 15)),
        65: ((5, 29), (6, 10), (6, 22)),
        69: ((6, 10), (6, 22), (7, 4)),
        91: ((9, 5), (9, 24), (10, 14)),
    }
    advice = (
        "Net it when the fruit reddens, or blackbirds have it in a day.",
        "Let side shoots of last year stand where it is to fruit: they carry the flowers.",
        "Wear gloves and glasses, and draw out every thorn.",
    )
    never = (
        *BroadleafEvergreen.never,
        "Never shorten every twig in spring: the flowers, and so the fruit, go with them.",
        "Never wash or tear all the soil from an old one: it has few fine roots.",
    )
    sources: ClassVar[dict[str, str]] = {
        "fruit-off": _WASHINGTON,
        "feed": _TEXAS,
        "bare-wood-buds": _BEAN,
        "pests": _TEXAS,
        "repot": _BEAN,
    }
    works: ClassVar[tuple[Rule, ...]] = altered(
        BroadleafEvergreen.works,
        *repots(
            "repot",
            between(1, 7),
            because=f"It moves badly once it is old ({_BEAN}), so its few fine roots are spared "
            "and cut only as growth begins.",
            cautions=("Shade and still air for a month, and no wet soil.",),
        ),
        spares_flowers(
            "disbud",
            at(60, -10, -4, 3),
            what="half of the flower clusters",
            because="It fruits so heavily that a tree of middling strength makes no shoots.",
        ),
        trims(
            "trim",
            at(69, 10, 24, 45),
            what="new shoots to two or three leaves, just beyond the green fruit",
            because="Shoots of the year hide the fruit and carry none: shortened, they become next "
            "year's flowering twigs.",
            cautions=("Leave the clusters whole.",),
        ),
        trims_again(
            "trim-late",
            by_warmth((8, 12), (8, 26), (9, 10)),
            what="what has grown over the fruit",
            because="Fruit reddens in the sun, and what is left still ripens before the frost.",
        ),
        thins_fruit(
            "fruit",
            at(69, 28, 42, 63),
            what="clusters to a few berries each, and none on weak branches",
            because="Every berry is set on a twig that should carry flowers again next year.",
        ),
        thins_fruit(
            "fruit-off",
            at(1, -67, -53, -34),
            what="all old fruit off",
            because="Berries that hang until spring drain the twigs and carry scab over the winter "
            f"({_WASHINGTON}).",
        ),
        feeds(
            "feed",
            at(69, 5, 14, 35),
            what="with little nitrogen",
            because="Much nitrogen before the fruit has set makes soft shoots that take "
            f"fireblight ({_TEXAS}).",
        ),
        checks_after(
            "bare-wood-buds",
            ("pruned",),
            weeks(5, 8, 14),
            look_at="buds",
            what="buds on the old wood",
            because=f"It bears pruning well ({_BEAN}) and shoots from thick bare wood.",
            only_after=is_hard_pruning,
            each_part=True,
        ),
        wires(
            "wire",
            at(69, 10, 28, 50),
            because="Only shoots of this year bend, and older wood is guyed or cut.",
            cautions=("Take off the thorns where the wire goes.",),
        ),
        watches_for_fireblight("fireblight", at(65, 0, 14, 45)),
        watches_for(
            "pests",
            at(10, 7, 28, 60),
            where="leaves and young fruit, for olive-black scab, and forks, for white wool",
            because="Scab comes with rain in mild weather from last year's leaves, and blackens "
            f"the fruit ({_TEXAS}).",
            cautions=("Gather fallen leaves and fruit.",),
        ),
    )
