"""The care of a mugo pine, strongest low down, so that its low candles are shortened first.

Unless a rule says otherwise, its figures are common practice, no source.
"""

from __future__ import annotations

from typing import ClassVar

from backbud.species import (
    COMMON_PRACTICE,
    FROM_MEMORY,
    Fact,
    RepotInterval,
    Rule,
    StageMonths,
)
from backbud_species.habits.candles import candles_left_whole
from backbud_species.habits.pines import OneFlushPine
from backbud_species.habits.works import (
    HARD_WORK,
    altered,
    at,
    by_warmth,
    checks_after,
    pinches,
    trims,
    watches_for,
    weeks,
    work,
)

_UTAH = "Utah State University Extension, Tree Browser: mugo or Swiss mountain pine"
_ILLINOIS = "University of Illinois Extension, sawfly"
_OHIO = "Ohio State University Extension, PLPATH-TREE-03"


class MugoPine(OneFlushPine):
    """A mountain pine of one flush, many-stemmed, strongest at its base, that buds back well."""

    rule_prefix = "mugo"
    botanical = "Pinus mugo"
    common = ("mugo pine", "dwarf mountain pine")
    also = (
        "mountain pine",
        "Swiss mountain pine",
        "mugho pine",
        "Pinus montana",
        "Pinus mughus",
        "Pinus pumilio",
    )
    habit = "A shrub of many rising stems and dense short needles, strongest in its low branches."
    strongest = "basitonic"
    # The RHS list itself was not at hand.
    hardiness = Fact("H7", FROM_MEMORY)
    soil_ph = Fact((5.0, 7.5), "FAO, EcoCrop: Pinus mugo")
    usual_mix = Fact("pumice 2, lava 1, akadama 1", COMMON_PRACTICE)
    repot_years = Fact((3, 5, 7), COMMON_PRACTICE)
    repot_interval = Fact(RepotInterval((2, 3, 5), (4, 6, 9)), COMMON_PRACTICE)
    root_share = Fact((0.25, 0.4), COMMON_PRACTICE)
    light = Fact("Full sun; it bears no shade.", _UTAH)
    water = Fact("Well drained; it bears some drought.", _UTAH)
    bark = Fact("Grey scaly bark that hides small marks, over wood that springs back.", FROM_MEMORY)
    wire_check_weeks = Fact((10, 16, 26), COMMON_PRACTICE)
    girth_growth_mm = Fact(3.0, FROM_MEMORY)
    stage_months: ClassVar[StageMonths] = {
        1: ((3, 15), (4, 1), (4, 16)),
        7: ((4, 10), (4, 26), (5, 12)),
        10: ((5, 22), (6, 5), (6, 20)),
        91: ((9, 5), (9, 24), (10, 14)),
    }
    advice = (
        "Full sun all day, outside in every winter.",
        "Water when the surface is dry; in summer it drinks more than it looks.",
        "A collected one keeps its field soil for two years and more.",
    )
    never = (
        *OneFlushPine.never,
        "Never take root and shoot from it in one year: it answers neither.",
    )
    sources: ClassVar[dict[str, str]] = {"needles": _UTAH, "sawfly": _ILLINOIS, "pests": _OHIO}
    works: ClassVar[tuple[Rule, ...]] = altered(
        OneFlushPine.works,
        pinches(
            "candles",
            at(7, 16, 28, 38),
            what="the longest candles by half, low and outer ones first",
            because="It makes one flush a year and grows strongest low down, so the low candles "
            "are shortened while they are soft and the top keeps all of its own.",
            cautions=("Either this or cut shoots in summer, not both.",),
        ),
        trims(
            "shoots",
            at(10, 42, 52, 63),
            what="new shoots whose candles were left whole, to six or eight pairs of needles",
            because="Where candles were left whole, a shoot cut as its needles have hardened sets "
            "buds behind the cut and on last year's wood.",
            cautions=("Every cut shoot keeps needles: it does not bud from bare wood.",),
            gate=HARD_WORK,
            only_if=candles_left_whole,
        ),
        checks_after(
            "summer-buds",
            ("trimmed",),
            weeks(6, 10, 30),
            look_at="buds",
            what="buds behind the cuts, two at each point are enough",
            because="It buds back freely on young wood, in bunches that make knobs if all stay.",
        ),
        work(
            "needles",
            "plucked",
            at(91, 0, 21, 56),
            what="needles of the third year and older, fewest left low down and outside",
            because="It holds its needles five years and more, and the old ones keep light from "
            f"the buds inside ({_UTAH}).",
        ),
        watches_for(
            "sawfly",
            by_warmth((4, 25), (5, 10), (6, 10)),
            where="crowds of striped larvae on last year's needles, which rear up together",
            because="European pine sawfly feeds in crowds from late spring to early summer and can "
            f"be picked off by hand ({_ILLINOIS}).",
        ),
        watches_for(
            "pests",
            by_warmth((6, 5), (6, 25), (7, 31)),
            where="brown stunted tips, and white scale on the needles",
            because=f"Tip blight browns new shoots before their needles are full size ({_OHIO}), "
            "and needle scale whitens old ones.",
        ),
    )
