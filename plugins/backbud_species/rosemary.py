"""The care of a rosemary, never cut behind its last green, and at its roots as little as can be.

Unless a rule says otherwise, its figures are common practice, no source.
"""

from __future__ import annotations

from typing import ClassVar

from backbud.species import COMMON_PRACTICE, FROM_MEMORY, Fact, RepotInterval, Rule, StageMonths
from backbud_species.habits.flushes import trims_again
from backbud_species.habits.mediterranean import MediterraneanEvergreen
from backbud_species.habits.works import (
    HARD_WORK,
    altered,
    at,
    by_warmth,
    checks_after,
    feeds,
    repots,
    trims,
    watches_for,
    weeks,
    wires,
    without,
    work,
)

_RHS = "RHS, Salvia rosmarinus Salem"


class Rosemary(MediterraneanEvergreen):
    """A fragrant shrub that never shoots from bare wood and hardly forgives a root cut."""

    rule_prefix = "rosemary"
    botanical = "Salvia rosmarinus"
    common = ("rosemary",)
    also = ("Rosmarinus officinalis", "mannenro")
    habit = "A grey-green shrub of needle leaves on brittle stems, bare inside with age."
    hardiness = Fact("H4", _RHS)
    # The RHS says any but too acid, without figures.
    soil_ph = Fact((6.0, 7.5), "FAO, EcoCrop: Rosmarinus officinalis")
    usual_mix = Fact("pumice 2, lava 2, akadama 1", COMMON_PRACTICE)
    repot_years = Fact((2, 3, 4), COMMON_PRACTICE)
    repot_interval = Fact(RepotInterval((1, 2, 3), (2, 3, 5)), COMMON_PRACTICE)
    root_share = Fact((0.15, 0.25), COMMON_PRACTICE)
    light = Fact("Full sun.", _RHS)
    water = Fact("Well drained above all; yet its tips must never hang.", COMMON_PRACTICE)
    toxicity = Fact(
        "A skin allergen: wear gloves; not known to harm pets.", f"{_RHS}; for pets {FROM_MEMORY}"
    )
    bark = Fact("Its bark shreds and its wood splits along the stem.", COMMON_PRACTICE)
    wire_check_weeks = Fact((5, 8, 12), COMMON_PRACTICE)
    girth_growth_mm = Fact(4.0, COMMON_PRACTICE)
    # For a cool temperate place; from memory.
    stage_months: ClassVar[StageMonths] = {
        1: ((3, 8), (3, 26), (4, 12)),
        7: ((3, 25), (4, 12), (4, 28)),
        10: ((4, 8), (4, 25), (5, 12)),
        19: ((6, 1), (6, 16), (7, 1)),
        60: ((3, 15), (4, 3), (4, 22)),
        65: ((4, 3), (4, 20), (5, 8)),
        69: ((4, 28), (5, 15), (6, 1)),
        91: ((9, 10), (9, 28), (10, 18)),
    }
    advice = (
        *MediterraneanEvergreen.advice,
        "Let air through it: mildew comes in still damp air.",
        "It shows thirst late and does not come back from it: look at it daily in heat.",
    )
    never = (
        "Never cut behind the last green: bare wood does not shoot.",
        "Never bare its roots, nor take more than a quarter of the ball: it dies weeks later.",
        "Never winter it in a warm or a dark room.",
        "Never prune in autumn: the new shoots do not ripen before the frost.",
    )
    works: ClassVar[tuple[Rule, ...]] = altered(
        without(MediterraneanEvergreen.works, "feed-autumn", "pests"),
        *repots(
            "repot",
            at(10, 0, 10, 21),
            because="Its roots hate the knife, so a wedge or two is opened as growth runs, and "
            "the rest stays whole.",
            cautions=("Shade, still air and no cut above for two months.",),
        ),
        checks_after(
            "after-roots",
            ("repotted", "root-pruned"),
            weeks(3, 5, 8),
            look_at="shoots",
            what="whether the tips still grow",
            because="After a root cut it looks well for weeks and then collapses, so tips that "
            "stop are the first sign.",
            only_after=lambda done: not done.has("no root work"),
        ),
        trims(
            "trim",
            at(69, 0, 6, 18),
            what="green shoots by half, each with green left",
            because="It flowers on shoots of last year, so it is cut right after, and only green "
            "wood shoots again.",
            gate=HARD_WORK,
        ),
        trims_again(
            "trim-late",
            by_warmth((7, 10), (7, 25), (8, 15)),
            what="soft tips that outgrew the outline",
            because="What grows after it still ripens and flowers in spring.",
        ),
        work(
            "thin",
            "thinned",
            by_warmth((5, 25), (6, 15), (7, 15)),
            what="shoots where they crowd, and clean out dead leaves",
            because="Inner twigs that stand in shade go bare, and what is bare never greens again.",
        ),
        feeds(
            "feed",
            at(10, 0, 14, 30),
            what="weakly",
            because="It comes from poor soil, and rich feed makes long soft shoots.",
        ),
        wires(
            "wire",
            at(10, 0, 14, 42),
            because="Young wood bends in growth, and what has turned brown splits.",
            cautions=("Wrap what is thicker than a pencil, and bend it in several sittings.",),
        ),
        watches_for(
            "beetle",
            by_warmth((8, 15), (9, 10), (10, 31)),
            where="metallic striped beetles and grey grubs at the tips, and white mildew inside",
            because="Rosemary beetles feed on it from late summer through mild winters.",
            cautions=("Pick them off, or shake them onto a cloth.",),
        ),
    )
