"""The care of a Scots pine, of one flush: its candles are broken or its shoots cut, never both.

Unless a rule says otherwise, its figures are common practice, no source.
"""

from __future__ import annotations

from typing import ClassVar

from backbud.species import COMMON_PRACTICE, FROM_MEMORY, Fact, RepotInterval, Rule, StageMonths
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

_ROOTS = "Lindstrom & Nystrom, Canadian Journal of Forest Research 17:787, 1987"
_ILLINOIS = "University of Illinois, Woody Plants: Pinus sylvestris"
_FORESTRY = "Forestry Commission, Dothistroma needle blight"


class ScotsPine(OneFlushPine):
    """A pine of one flush that buds back well on young wood, with red bark at the top."""

    rule_prefix = "scots-pine"
    botanical = "Pinus sylvestris"
    common = ("Scots pine",)
    also = ("Scotch pine", "Baltic pine", "Pinus rubra")
    habit = "A pine of short twisted needles and flaking red bark, strongest at the top."
    # The RHS list itself was not at hand.
    hardiness = Fact("H7", FROM_MEMORY)
    # Seedlings lived through -15 to -25 °C; their regrowth was stunted well above that.
    frost_limit_c = Fact(-15.0, _ROOTS)
    young_frost_limit_c = Fact(-15.0, _ROOTS)
    # Illinois says acid, without figures.
    soil_ph = Fact((5.0, 7.5), "FAO, EcoCrop: Pinus sylvestris")
    usual_mix = Fact("pumice 2, lava 1, akadama 1", COMMON_PRACTICE)
    repot_years = Fact((3, 4, 7), COMMON_PRACTICE)
    repot_interval = Fact(RepotInterval((2, 3, 4), (4, 6, 9)), COMMON_PRACTICE)
    light = Fact("Full sun.", _ILLINOIS)
    water = Fact("Well drained above all; it grows in many soils that are.", _ILLINOIS)
    bark = Fact(
        "Flaking bark is part of its worth: pad it, and take wire off before it bites.",
        COMMON_PRACTICE,
    )
    wire_check_weeks = Fact((8, 14, 20), COMMON_PRACTICE)
    # For a cool temperate place; from memory. 10: the needles part from the candle.
    stage_months: ClassVar[StageMonths] = {
        1: ((3, 12), (3, 28), (4, 12)),
        7: ((4, 5), (4, 22), (5, 8)),
        10: ((5, 20), (6, 2), (6, 16)),
        91: ((9, 10), (9, 28), (10, 18)),
    }
    advice = (
        "Full sun all day and wind through the needles, in winter too.",
        "Water when the surface is dry, and keep the needles dry in the evening.",
        "Leave candles and needles to whoever trains the tree.",
    )
    sources: ClassVar[dict[str, str]] = {"needle-blight": _FORESTRY}
    works: ClassVar[tuple[Rule, ...]] = altered(
        OneFlushPine.works,
        pinches(
            "candles",
            at(7, 16, 28, 38),
            what="strong candles by half to two thirds, while they are soft; weak ones left",
            because="It makes one flush a year, so the strong candles give way to the weak ones "
            "before the needles part, the top hardest.",
            cautions=(
                "Break them with the fingers: scissors brown the needles that are left.",
                "Either this or cut shoots in summer, not both.",
            ),
        ),
        trims(
            "shoots",
            at(10, 49, 63, 84),
            what="strong new shoots whose candles were left whole, to a few pairs of needles",
            because="Where candles were left whole, a shoot cut as its needles harden sets several "
            "buds behind the cut for next year.",
            cautions=("Every cut shoot keeps needles: it does not bud from bare wood.",),
            gate=HARD_WORK,
            only_if=candles_left_whole,
        ),
        checks_after(
            "summer-buds",
            ("trimmed",),
            weeks(6, 9, 14),
            look_at="buds",
            what="buds behind the cuts, and rub those that point down",
            because="Buds set behind a summer cut show by autumn, and two at each point are "
            "enough.",
        ),
        work(
            "needles",
            "plucked",
            at(91, 0, 21, 56),
            what="needles of last year and older, fewest left at the top",
            because="Its old needles yellow by themselves in autumn, and light then wakes the buds "
            "on last year's wood.",
        ),
        watches_for(
            "needle-blight",
            by_warmth((6, 1), (6, 20), (7, 31)),
            where="old needles low in the crown, for red bands with black dots",
            because="Red bands on needles whose base stays green are needle blight, seen best in "
            f"early summer ({_FORESTRY}).",
            cautions=(
                "In some countries a nursery has to report it: ask the plant-health service.",
            ),
        ),
    )
