"""The care of a Japanese black pine: cut candles bring a strong one a second, shorter flush.

Unless a rule says otherwise, its figures are common practice, no source.
"""

from __future__ import annotations

from typing import ClassVar

from backbud.species import COMMON_PRACTICE, FROM_MEMORY, Fact, Rule, StageMonths
from backbud_species.habits.candles import decandles, only_asks_strength
from backbud_species.habits.gates import WRITTEN_WEAK
from backbud_species.habits.pines import TwoFlushPine
from backbud_species.habits.strength import by_strength
from backbud_species.habits.works import (
    ALWAYS,
    altered,
    at,
    balances,
    between,
    by_warmth,
    feeds,
    renamed,
    repots,
    wires,
    work,
)
from backbud_species.habits.yearly import FROZEN_WOOD_SNAPS


class JapaneseBlackPine(TwoFlushPine):
    """A two-flush pine, strongest at the top, that answers candle cutting with a second flush."""

    rule_prefix = "black-pine"
    botanical = "Pinus thunbergii"
    common = ("Japanese black pine", "black pine")
    also = ("Pinus thunbergiana", "kuromatsu")
    habit = "A pine of long stiff needles and rough bark, strongest at the top."
    hardiness = Fact("H6", FROM_MEMORY)
    # A USDA NRCS plant sheet says slightly acid, without figures.
    soil_ph = Fact((5.5, 6.5), FROM_MEMORY)
    # Nobody has yet told apart its years for a young and for an old tree.
    repot_interval = None
    light = Fact("Full sun all day.", COMMON_PRACTICE)
    advice = (
        "Full sun all day, and turn the pot so that every side has it.",
        "Let the surface dry a little between waterings, and never let it stand wet.",
        "Leave candles and needles to whoever trains the tree.",
        "It stays out in winter; only the pot is kept from hard frost.",
    )
    # For a cool temperate place; from memory. 10: the needles part from the candle.
    stage_months: ClassVar[StageMonths] = {
        1: ((3, 5), (3, 20), (4, 5)),
        7: ((3, 28), (4, 14), (4, 30)),
        10: ((5, 12), (5, 25), (6, 8)),
        91: ((9, 25), (10, 12), (11, 1)),
    }
    works: ClassVar[tuple[Rule, ...]] = altered(
        renamed(TwoFlushPine.works, {"second-flush": "shoots", "thin": "shoots-autumn"}),
        *repots(
            "repot",
            between(1, 7),
            autumn_too=True,
            because="It is repotted as the buds swell and keeps half of its old soil, with the "
            "white threads that live on its roots.",
            cautions=("No decandling in the year of repotting.",),
        ),
        balances("balance", at(7, 7, 18, 28), act="pinched"),
        only_asks_strength(
            decandles(
                "decandle",
                at(10, 7, 14, 25),
                what="weak candles first",
                because="A strong black pine answers the cutting of its spring candles with a "
                "second flush and short needles; where the summer is short they are cut early.",
            )
        ),
        by_strength(
            work(
                "needles",
                "plucked",
                at(91, 7, 28, 70),
                what="old needles, fewest pairs left at the top",
                because="Old needles come out so that light reaches the inner buds; the top keeps "
                "about five pairs a shoot, the low branches about ten.",
            ),
            weak=work(
                "needles",
                "cleaned",
                at(91, 7, 28, 70),
                what="brown needles out, every green one stays",
                because="A weak pine lives on its old needles, so only the brown ones come out.",
                gate=ALWAYS,
                datum=WRITTEN_WEAK,
            ),
        ),
        wires(
            "wire",
            at(91, 28, 56, 100),
            because="It is wired from late autumn, after the needles are plucked and while the "
            "bark is firm.",
            cautions=(FROZEN_WOOD_SNAPS, "Needles are stiff: mind your eyes."),
        ),
        feeds(
            "feed-autumn",
            by_warmth((9, 15), (10, 1), (10, 31)),
            because="Autumn feed makes next year's buds and ends with the first hard frosts.",
        ),
    )
