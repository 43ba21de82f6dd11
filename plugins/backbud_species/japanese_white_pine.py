"""The care of a Japanese white pine, with one short flush a year, and roots slow to come back.

Unless a rule says otherwise, its figures are common practice, no source.
"""

from __future__ import annotations

from typing import ClassVar

from backbud.species import COMMON_PRACTICE, FROM_MEMORY, Fact, RepotInterval, Rule, StageMonths
from backbud_species.habits.heat import shades_in_heat
from backbud_species.habits.pines import OneFlushPine
from backbud_species.habits.works import (
    altered,
    at,
    between,
    by_warmth,
    feeds,
    pinches,
    repots,
    watches_for,
    wires,
    work,
)
from backbud_species.habits.yearly import FROZEN_WOOD_SNAPS

_UTAH = "Utah State University Extension, Tree Browser: Japanese white pine"
_PURDUE = "Purdue Plant Doctor, pine bark adelgid"
_FOREST_SERVICE = "Zambino 2010, USDA Forest Service, Forest Pathology 40"


class JapaneseWhitePine(OneFlushPine):
    """A slow five-needle pine of one flush, often grafted, that hates a wet pot."""

    rule_prefix = "white-pine"
    botanical = "Pinus parviflora"
    common = ("Japanese white pine",)
    also = (
        "Japanese five-needle pine",
        "Pinus pentaphylla",
        "Pinus himekomatsu",
        "goyomatsu",
        "himekomatsu",
    )
    habit = "A slow pine of short blue-green needles in fives, layered, strongest at the top."
    # The RHS list itself was not at hand.
    hardiness = Fact("H7", FROM_MEMORY)
    soil_ph = Fact((5.0, 6.5), FROM_MEMORY)
    usual_mix = Fact("akadama 1, pumice 2, lava 1", COMMON_PRACTICE)
    repot_years = Fact((3, 5, 7), COMMON_PRACTICE)
    repot_interval = Fact(RepotInterval((2, 3, 5), (4, 6, 9)), COMMON_PRACTICE)
    root_share = Fact((0.25, 0.4), COMMON_PRACTICE)
    light = Fact("Full sun; it bears no shade.", _UTAH)
    water = Fact("Drier than other pines: its roots rot in a wet pot.", COMMON_PRACTICE)
    bark = Fact(
        "Its bark stays smooth and thin for decades and wire scars show for as long.",
        COMMON_PRACTICE,
    )
    wire_check_weeks = Fact((10, 16, 24), COMMON_PRACTICE)
    girth_growth_mm = Fact(4.0, FROM_MEMORY)
    why_frost = (
        "The top is very hardy, but cold wet soil rots its roots more than frost hurts them."
    )
    stage_months: ClassVar[StageMonths] = {
        1: ((3, 12), (3, 28), (4, 12)),
        7: ((4, 8), (4, 24), (5, 10)),
        10: ((5, 22), (6, 5), (6, 20)),
        91: ((9, 8), (9, 26), (10, 16)),
    }
    advice = (
        "Full sun and wind through the needles; out of the afternoon sun only in great heat.",
        "Water when the surface is dry, and tilt the pot in weeks of rain.",
        "Where it is grafted on black pine, rub off every long needled shoot below the graft.",
        "In autumn its oldest needles turn yellow all at once: that is no disease.",
    )
    never = (
        *OneFlushPine.never,
        "Never keep it beside currants or gooseberries: five-needle pines share a rust with them.",
    )
    sources: ClassVar[dict[str, str]] = {"pests": f"{_PURDUE}; {_FOREST_SERVICE}"}
    works: ClassVar[tuple[Rule, ...]] = altered(
        OneFlushPine.works,
        *repots(
            "repot",
            between(1, 7),
            autumn_too=True,
            because="It makes new roots slowly and lives with white threads in its soil, so little "
            "is cut at a time, as the buds swell, and half the old soil stays.",
            cautions=("No candle work and no heavy bend in the year of repotting.",),
        ),
        pinches(
            "candles",
            at(7, 16, 28, 38),
            what="candles twice as long as their neighbours, by half, while they are soft",
            because="It makes one short flush a year, so only strong candles are broken and the "
            "weak ones keep all of theirs.",
            cautions=("Break them with the fingers before the needles part.",),
        ),
        feeds(
            "feed-spring",
            at(10, 7, 18, 30),
            what="lightly",
            because="Fed before its needles have hardened it makes them long, and it cannot be cut "
            "back to a second, shorter flush.",
        ),
        feeds(
            "feed-autumn",
            by_warmth((9, 5), (9, 25), (10, 31)),
            what="well",
            because="Most of what next year's single flush is made of is taken up in autumn.",
        ),
        work(
            "needles",
            "plucked",
            at(91, -7, 14, 45),
            what="the yellow needles of the third year and those that hang, none of this year's",
            because="Its oldest needles fall by themselves in autumn, and light then reaches the "
            "buds inside; every green one counts on so slow a tree.",
        ),
        wires(
            "wire",
            at(91, 14, 49, 130),
            because="It is wired from autumn to late winter, once the old needles are out, and its "
            "supple wood takes long to set.",
            cautions=(FROZEN_WOOD_SNAPS,),
        ),
        watches_for(
            "pests",
            by_warmth((4, 10), (5, 3), (6, 5)),
            where="white wool on bark and between the needles, swollen bark with yellow blisters",
            because="Bark adelgids lay in early spring under wool that a jet of water takes off "
            f"({_PURDUE}), and blister rust from currants shows in spring ({_FOREST_SERVICE}).",
        ),
        shades_in_heat(
            "shade",
            because="It comes from cool mountains, and a pot that heats up hurts its roots.",
        ),
    )
