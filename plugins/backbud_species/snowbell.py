"""The care of a Japanese snowbell, whose short shoots are left until their bells have hung.

Unless a rule says otherwise, its figures are common practice, no source.
"""

from __future__ import annotations

from typing import ClassVar

from backbud.species import COMMON_PRACTICE, FROM_MEMORY, Fact, RepotInterval, Rule, StageMonths
from backbud_species.habits.blossom import spares_flowers
from backbud_species.habits.flowering import SpringBlossom
from backbud_species.habits.heat import shades_in_heat
from backbud_species.habits.works import (
    altered,
    at,
    between,
    by_warmth,
    deadheads,
    feeds,
    pinches,
    protects_leaves,
    prunes,
    repots,
    trims,
    watches_for,
    wires,
)


class JapaneseSnowbell(SpringBlossom):
    """A fine-twigged tree whose white bells hang in June from short shoots of the year."""

    rule_prefix = "snowbell"
    botanical = "Styrax japonicus"
    common = ("Japanese snowbell", "snowbell")
    also = ("Styrax japonica", "Japanese storax", "egonoki", "akabana egonoki", "ego")
    habit = "A fine-twigged tree with bells hanging under its branches, strongest at the top."
    # The RHS list itself was not at hand.
    hardiness = Fact("H5", FROM_MEMORY)
    soil_ph = Fact((5.0, 6.5), FROM_MEMORY)
    usual_mix = Fact("akadama 3, kanuma 1", COMMON_PRACTICE)
    repot_years = Fact((1, 2, 4), COMMON_PRACTICE)
    repot_interval = Fact(RepotInterval((1, 1, 2), (2, 4, 6)), COMMON_PRACTICE)
    root_share = Fact((0.4, 0.6), COMMON_PRACTICE)
    why_frost = "Its roots lie fine and shallow and freeze before its twigs do."
    light = Fact("Sun, with shade from noon in summer.", COMMON_PRACTICE)
    water = Fact("Evenly moist: a dry day in summer browns its leaf edges.", COMMON_PRACTICE)
    bark = Fact("Smooth dark bark that splits in fine lines and marks easily.", COMMON_PRACTICE)
    toxicity = Fact("The skin of the fruit holds saponins that burn mouth and throat.", FROM_MEMORY)
    wire_check_weeks = Fact((3, 5, 7), COMMON_PRACTICE)
    # For a cool temperate place; from memory. Flowers follow the leaves.
    stage_months: ClassVar[StageMonths] = {
        1: ((3, 10), (3, 26), (4, 10)),
        7: ((3, 30), (4, 13), (4, 28)),
        10: ((4, 10), (4, 24), (5, 8)),
        19: ((5, 28), (6, 11), (6, 25)),
        60: ((5, 24), (6, 6), (6, 19)),
        65: ((6, 1), (6, 14), (6, 27)),
        69: ((6, 12), (6, 25), (7, 8)),
        91: ((8, 25), (9, 12), (10, 2)),
        93: ((10, 8), (10, 24), (11, 9)),
        97: ((11, 1), (11, 16), (12, 2)),
    }
    advice = (
        "Keep it out of drying wind, for its thin leaves scorch.",
        "Water with soft water where the tap gives lime.",
        "Look after the thin twigs inside: shaded ones die first, and they carry the bells.",
    )
    never = (
        *SpringBlossom.never,
        "Never cut short side shoots before they have flowered: the bells hang at their ends.",
    )
    works: ClassVar[tuple[Rule, ...]] = altered(
        SpringBlossom.works,
        *repots(
            "repot",
            between(1, 7),
            because="Its naked buds move early, and roots cut as they swell feed the first leaves.",
            cautions=("Keep it from frost and wind until the leaves are out.",),
        ),
        protects_leaves(
            "late-frost",
            10,
            because="Its buds have no scales, and the shoots that carry the bells freeze while "
            "soft.",
        ),
        spares_flowers(
            "disbud",
            at(60, -14, -5, 0),
            what="part of the flower buds",
            because="It flowers from every bud, and shoots that flower hardly lengthen.",
        ),
        pinches(
            "pinch",
            at(10, 10, 20, 35),
            what="long soft shoots to three leaves; short ones with buds at the tip left",
            because="Long shoots of spring carry no bells, and take the strength of those that do.",
        ),
        deadheads(
            "deadhead",
            at(69, 3, 12, 28),
            what="young fruit, but for a few to be seen",
            because="It sets hundreds of seeds, and next year's flowering twigs starve.",
        ),
        trims(
            "trim",
            at(69, 3, 12, 28),
            what="long shoots to two or three leaves",
            because="Twigs made from now on still ripen, and flower next year.",
        ),
        feeds(
            "feed",
            at(69, 3, 12, 35),
            because="Fed before it flowers, it makes long shoots and few bells.",
        ),
        prunes(
            "prune",
            at(1, -24, -14, -3),
            what="twigs that winter killed, and what crosses",
            because="Thin twigs die back in frost, and just before growth the dead ones show.",
        ),
        wires(
            "wire",
            at(1, -24, -14, -3),
            because="Its twigs bend well while bare, and only gently once the naked buds swell.",
        ),
        watches_for(
            "pests",
            by_warmth((5, 25), (6, 20), (8, 5)),
            where="tips, for galls like bunches of fingers, and trunk, for sawdust",
            because="A gall aphid turns buds into finger-like galls, and borers enter weak stems.",
            cautions=("Cut the galls off while they are closed.",),
        ),
        shades_in_heat(
            "shade", because="Its thin leaves scorch at the edge in hot sun, even in a wet pot."
        ),
    )
