"""The care of a Japanese red pine: candles cut early, and with years of rest, as it tires soon.

Unless a rule says otherwise, its figures are common practice, no source.
"""

from __future__ import annotations

from typing import ClassVar

from backbud.species import COMMON_PRACTICE, FROM_MEMORY, Fact, Rule, StageMonths
from backbud_species.habits.candles import decandles, evens_candles, keeps_candles, with_rest
from backbud_species.habits.pines import TwoFlushPine
from backbud_species.habits.works import (
    altered,
    at,
    by_warmth,
    watches_for,
    work,
)

_OREGON = "Oregon State University, Landscape Plants: Pinus densiflora"
_ILLINOIS = "University of Illinois Extension, Selecting Trees: Diplodia tip blight"
_EPPO = "EPPO Global Database, Bursaphelenchus xylophilus: hosts"


class JapaneseRedPine(TwoFlushPine):
    """A two-flush pine, weaker in its second flush than the black pine, with thin red bark."""

    rule_prefix = "red-pine"
    botanical = "Pinus densiflora"
    common = ("Japanese red pine",)
    also = ("Korean red pine", "Pinus funebris", "akamatsu", "mematsu")
    habit = "A slender pine of fine soft needles and thin red bark, strongest at the top."
    # The RHS list itself was not at hand.
    hardiness = Fact("H7", FROM_MEMORY)
    # Oregon says slightly acid, without figures.
    soil_ph = Fact((5.0, 6.5), FROM_MEMORY)
    usual_mix = Fact("pumice 2, akadama 1, lava 1", COMMON_PRACTICE)
    root_share = Fact((0.3, 0.45), COMMON_PRACTICE)
    light = Fact("Full sun.", _OREGON)
    water = Fact("Well drained above all; leaner and drier than a black pine.", COMMON_PRACTICE)
    bark = Fact(
        "The red bark of the upper trunk is thin and flakes off under wire and brush: pad it.",
        COMMON_PRACTICE,
    )
    wire_check_weeks = Fact((6, 10, 14), COMMON_PRACTICE)
    stage_months: ClassVar[StageMonths] = {
        1: ((3, 8), (3, 23), (4, 8)),
        7: ((4, 1), (4, 17), (5, 3)),
        10: ((5, 14), (5, 27), (6, 10)),
        91: ((9, 22), (10, 10), (10, 30)),
    }
    advice = (
        "Full sun all day and moving air.",
        "Let the surface dry between waterings: it bears drought better than a wet pot.",
        "Keep hands and brushes off the red bark.",
        "Leave candles and needles to whoever trains the tree.",
    )
    never = (
        "Never cut its candles three years running: its second flush tires sooner than a black "
        "pine's.",
        *TwoFlushPine.never,
    )
    sources: ClassVar[dict[str, str]] = {"pests": _ILLINOIS, "wilt": _EPPO}
    works: ClassVar[tuple[Rule, ...]] = altered(
        TwoFlushPine.works,
        evens_candles(
            "candles",
            at(7, 18, 30, 40),
            because="In a year in which its candles are not cut in summer, the longest are broken "
            "in spring, so that the top does not outgrow the low branches.",
            unless_cut=keeps_candles,
        ),
        with_rest(
            decandles(
                "decandle",
                at(10, 0, 7, 18),
                more_days=10,
                what="weak candles first, short stubs left",
                because="Its second flush is weaker than a black pine's, so the candles of a "
                "strong tree are cut about ten days sooner and the new shoots have longer.",
            )
        ),
        work(
            "needles",
            "plucked",
            at(91, 7, 28, 70),
            what="old needles: about seven pairs a shoot stay at the top, twelve low down",
            because="Old needles shade the inner buds; it is weaker than a black pine and keeps "
            "more of them.",
        ),
        watches_for(
            "pests",
            at(10, -14, 3, 24),
            where="brown stunted candles with beads of resin, white scale where needles begin",
            because=f"Tip blight kills the young needles in a wet spring ({_ILLINOIS}), and scale "
            "hatches at that time.",
            cautions=("Cut them out on a dry day and take old cones off: spores come from them.",),
        ),
        watches_for(
            "wilt",
            by_warmth((7, 15), (8, 20), (9, 30)),
            where="needles that turn dull and hang while the pot is moist",
            because="The pinewood nematode kills a red pine within weeks of summer, and this is "
            f"one of its chief hosts ({_EPPO}).",
            cautions=("Where it is not yet known it must be reported: call plant health at once.",),
        ),
    )
