"""The care of a crab apple, thinned in flower and fruit so that it bears again the year after.

Unless a rule says otherwise, its figures are common practice, no source.
"""

from __future__ import annotations

from typing import ClassVar

from backbud.species import COMMON_PRACTICE, FROM_MEMORY, Fact, RepotInterval, Rule, StageMonths
from backbud_species.habits.blossom import (
    covers_blossom,
    spares_flowers,
    thins_fruit,
    watches_for_fireblight,
)
from backbud_species.habits.flowering import SpringBlossom
from backbud_species.habits.works import (
    altered,
    at,
    between,
    by_warmth,
    feeds,
    prunes,
    repots,
    trims,
    watches_for,
    wires,
    without,
)

# The page of a sister species: the RHS says this of it as of other crabs.
_RHS = "RHS, Malus transitoria"
_CONNECTICUT = "Connecticut Agricultural Experiment Station, Gymnosporangium rusts"


class CrabApple(SpringBlossom):
    """A small-fruited apple that flowers with its leaves on spurs of older wood."""

    rule_prefix = "crab-apple"
    # The name that Kew's Plants of the World Online accepts; M. sieboldii is the same tree.
    botanical = "Malus toringo"
    common = ("crab apple", "Toringo crab apple")
    also = (
        "crabapple",
        "Siebold's crab",
        "Malus sieboldii",
        "Malus zumi",
        "Malus × zumi",
        "Malus halliana",
        "Hall crab apple",
        "Malus sargentii",
        "Malus × cerasifera",
        "zumi",
        "koringo",
        "mitsuba kaido",
        "kaido",
        "hana kaido",
        "hime ringo",
    )
    habit = "A spreading tree that flowers and fruits on short spurs, strongest at the top."
    # The RHS gives H6 for M. transitoria; its list was not at hand.
    hardiness = Fact("H6", FROM_MEMORY)
    # The RHS says acid, neutral and alkaline, without figures.
    soil_ph = Fact((5.5, 7.5), FROM_MEMORY)
    usual_mix = Fact("akadama 3, pumice 1, lava 1", COMMON_PRACTICE)
    repot_years = Fact((1, 2, 4), COMMON_PRACTICE)
    repot_interval = Fact(RepotInterval((1, 1, 2), (2, 3, 5)), COMMON_PRACTICE)
    why_frost = "Its roots are thick and sappy and suffer in a pot that freezes through."
    light = Fact("Full sun, or part shade with fewer flowers.", _RHS)
    water = Fact("Plenty, most of all in fruit; a dry day drops the fruit.", COMMON_PRACTICE)
    bark = Fact("Smooth grey bark that wire marks by midsummer.", COMMON_PRACTICE)
    toxicity = Fact("Its seeds contain toxins; the flesh is harmless but sour.", _RHS)
    chill_portions = Fact(50.0, FROM_MEMORY)
    # For a cool temperate place; from memory. 60 and 10 as the BBCH scale of pome fruit has them.
    stage_months: ClassVar[StageMonths] = {
        1: ((3, 3), (3, 18), (4, 2)),
        7: ((3, 20), (4, 3), (4, 17)),
        10: ((3, 30), (4, 12), (4, 26)),
        19: ((5, 18), (6, 1), (6, 14)),
        60: ((4, 20), (5, 2), (5, 14)),
        65: ((4, 27), (5, 9), (5, 21)),
        69: ((5, 6), (5, 18), (5, 30)),
        91: ((8, 20), (9, 8), (9, 28)),
        93: ((10, 8), (10, 25), (11, 11)),
        97: ((11, 3), (11, 19), (12, 5)),
    }
    advice = (
        "Many bear only with pollen of another: keep two kinds, or lend it a flowering branch.",
        "Water twice a day in fruit and in heat, and never over the open flowers.",
        "Keep it away from junipers in wet spring weather, for they give it rust.",
        "A full crop costs next year's flowers: thin it, and take the rest off before winter.",
    )
    sources: ClassVar[dict[str, str]] = {"pests": _CONNECTICUT}
    works: ClassVar[tuple[Rule, ...]] = altered(
        without(SpringBlossom.works, "late-frost", "deadhead"),
        *repots(
            "repot",
            between(1, 7),
            because="Roots cut as the buds swell have made new ones before the flowers drink.",
            cautions=("Cut off knobs on the roots: they are crown gall; clean the tools after.",),
        ),
        covers_blossom(
            "blossom",
            because="A frost in flower blackens the middle of each one, and no fruit sets.",
        ),
        spares_flowers(
            "disbud",
            at(60, -14, -7, 0),
            what="half of the clusters",
            because="A tree that flowers and fruits in full one year rests the next.",
        ),
        thins_fruit(
            "fruit",
            at(69, 21, 35, 56),
            what="fruit to one of a cluster, and few clusters to a branch",
            because="Seed inhibits the flower buds that the same spurs would make in midsummer.",
        ),
        trims(
            "trim",
            at(69, 14, 28, 49),
            what="long shoots to two or three leaves; short spurs left whole",
            because="Growth cut back once it slows turns the buds at its base into flower buds.",
        ),
        feeds(
            "feed",
            at(69, 7, 18, 42),
            because="Fed before fruit has set, it runs to shoots and drops its fruit.",
        ),
        prunes(
            "prune",
            at(1, -28, -19, -8),
            what="last year's shoots to two or three buds; plump buds on spurs left",
            because="In late winter the plump flower buds are told from flat leaf buds, and small "
            "cuts soon close.",
        ),
        wires(
            "wire",
            at(1, -18, -9, 0),
            because="Bare wood still bends before the sap rises; spurs break off at a touch.",
        ),
        watches_for_fireblight("fireblight", at(65, 3, 20, 60)),
        watches_for(
            "pests",
            at(10, 21, 40, 75),
            where="leaves, for orange spots and white film, and forks, for white wool, brushed off",
            because="Spores from junipers near by make orange rust spots "
            f"({_CONNECTICUT}), and mildew and woolly aphids come in the same weeks.",
        ),
        thins_fruit(
            "fruit-off",
            by_warmth((11, 5), (11, 25), (12, 20)),
            what="all fruit off once it has been seen",
            because="Fruit left to shrivel draws on the spurs until spring, and carries rot.",
        ),
    )
