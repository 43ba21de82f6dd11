"""The care of a rock cotoneaster, kept to flat fans of twigs, with its small fruit off by spring.

Unless a rule says otherwise, its figures are common practice, no source.
"""

from __future__ import annotations

from typing import ClassVar

from backbud.species import COMMON_PRACTICE, FROM_MEMORY, Fact, RepotInterval, Rule, StageMonths
from backbud_species.habits.blossom import spares_flowers, thins_fruit, watches_for_fireblight
from backbud_species.habits.done import is_hard_pruning
from backbud_species.habits.flowering import SpringBlossom
from backbud_species.habits.flushes import trims_again
from backbud_species.habits.works import (
    altered,
    at,
    between,
    by_warmth,
    checks_after,
    feeds,
    prunes,
    repots,
    trims,
    watches_for,
    weeks,
    wires,
    without,
)
from backbud_species.habits.yearly import FROZEN_WOOD_SNAPS

_RHS = "RHS, Cotoneaster horizontalis"


class RockCotoneaster(SpringBlossom):
    """A low shrub of fishbone twigs with small leaves, flowers and fruit, strongest at the base."""

    rule_prefix = "cotoneaster"
    botanical = "Cotoneaster horizontalis"
    common: ClassVar[tuple[str, ...]] = ("cotoneaster", "rock cotoneaster", "wall cotoneaster")
    also: ClassVar[tuple[str, ...]] = (
        "wallspray",
        "fishbone cotoneaster",
        "Cotoneaster adpressus",
        "Cotoneaster perpusillus",
        "beni shitan",
    )
    habit = "A spreading shrub of flat fishbone twigs with small leaves, strongest at the base."
    strongest = "basitonic"
    hardiness = Fact("H7", _RHS)
    # The RHS says acid, neutral and alkaline, without figures.
    soil_ph = Fact((5.5, 7.8), FROM_MEMORY)
    usual_mix = Fact("akadama 2, pumice 1, lava 1", COMMON_PRACTICE)
    repot_years = Fact((1, 2, 4), COMMON_PRACTICE)
    repot_interval = Fact(RepotInterval((1, 1, 2), (2, 3, 5)), COMMON_PRACTICE)
    root_share = Fact((0.5, 0.7), COMMON_PRACTICE)
    # Between -8 and -9 °C.
    frost_limit_c = Fact(-8.0, f"{FROM_MEMORY} of Havis 1976")
    why_frost = "Its top is as hardy as any, and its young roots are not."
    light = Fact("Full sun.", _RHS)
    water = Fact("Well drained; in the ground it stands drought.", _RHS)
    bark = Fact("Its bark is thin and dark, and old stems are stiff.", COMMON_PRACTICE)
    toxicity = Fact("The fruit may upset the stomach a little if eaten.", _RHS)
    girth_growth_mm = Fact(4.0, FROM_MEMORY)
    # For a cool temperate place; from memory.
    stage_months: ClassVar[StageMonths] = {
        1: ((2, 24), (3, 12), (3, 28)),
        7: ((3, 14), (3, 29), (4, 13)),
        10: ((3, 25), (4, 8), (4, 23)),
        19: ((5, 12), (5, 26), (6, 9)),
        60: ((5, 8), (5, 20), (6, 1)),
        65: ((5, 16), (5, 28), (6, 9)),
        69: ((5, 28), (6, 9), (6, 21)),
        91: ((9, 5), (9, 22), (10, 12)),
        93: ((10, 25), (11, 10), (11, 27)),
        97: ((11, 22), (12, 6), (12, 24)),
    }
    advice: ClassVar[tuple[str, ...]] = (
        "It suits small trees: leaf, flower and fruit are in scale from the first year.",
        "Gather the fruit that falls: birds sow it, and it is listed as invasive in the United "
        f"Kingdom ({_RHS}).",
        "Water a shallow pot every day in summer, for a dry one sheds its twigs.",
    )
    never: ClassVar[tuple[str, ...]] = (
        *SpringBlossom.never[:2],
        "Never plant it out, or throw it away, where it can seed itself.",
        "Never shorten every twig in winter: next spring's flowers sit on them.",
    )
    works: ClassVar[tuple[Rule, ...]] = altered(
        without(SpringBlossom.works, "late-frost", "deadhead"),
        *repots(
            "repot",
            between(1, 7),
            because="It fills a small pot with fine roots in a year or two, and these regrow "
            "fastest as the buds swell.",
            cautions=("Keep it from hard frost afterwards.",),
        ),
        spares_flowers(
            "disbud",
            at(60, -10, -4, 3),
            what="part of the flower buds",
            because="Each flower makes a berry, and berries stop the twig that carries them.",
        ),
        trims(
            "trim",
            at(69, 0, 10, 28),
            what="long shoots to two or three leaves, low ones first; green fruit left",
            because="It runs from the base and along its ends, and a shortened shoot fills with "
            "side twigs.",
        ),
        trims_again(
            "trim-late",
            by_warmth((8, 1), (8, 15), (9, 1)),
            what="shoots that stick out, to one or two leaves",
            because="The last trim lets light to the fruit and still ripens before the frost.",
        ),
        feeds(
            "feed",
            at(69, 0, 10, 28),
            because="Fruit and next year's buds both draw on the tree from now on.",
        ),
        prunes(
            "prune",
            at(97, 0, 14, 75),
            what="twigs that cross or double the flat fans, and shoots from the base",
            because="Bare fans show which twigs lie over one another.",
        ),
        wires(
            "wire",
            at(97, 0, 21, 75),
            because="Thin twigs take any line while it is bare, and soon grow too stiff.",
            cautions=(FROZEN_WOOD_SNAPS,),
        ),
        checks_after(
            "bare-wood-buds",
            ("pruned",),
            weeks(4, 7, 12),
            look_at="buds",
            what="buds on the bare wood, and rub off those at the base",
            because="It buds freely from old wood, most of all from the base of the stem.",
            only_after=is_hard_pruning,
            each_part=True,
        ),
        watches_for_fireblight("fireblight", at(65, 3, 18, 50)),
        watches_for(
            "pests",
            by_warmth((6, 1), (6, 20), (7, 25)),
            where="webs along the twigs, white wool in forks, and pale speckled leaves",
            because="Caterpillars in webs brown whole fans, woolly aphids swell the twigs, and "
            "mites come with heat.",
        ),
        thins_fruit(
            "fruit-off",
            at(1, -70, -56, -36),
            what="all old fruit off",
            because="Old fruit drains the twigs that are to flower, and birds sow what is left.",
        ),
    )
