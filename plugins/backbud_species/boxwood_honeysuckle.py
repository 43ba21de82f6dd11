"""The care of a boxwood honeysuckle, trimmed again and again, for it flushes until autumn.

Unless a rule says otherwise, its figures are common practice, no source.
"""

from __future__ import annotations

from typing import ClassVar

from backbud.species import COMMON_PRACTICE, FROM_MEMORY, Fact, RepotInterval, Rule, StageMonths
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
    prunes,
    repots,
    trims,
    watches_for,
    weeks,
    work,
)

_RHS = "RHS, Lonicera ligustrina var. yunnanensis Silver Beauty"
_MISSOURI = "Missouri Botanical Garden, Lonicera ligustrina"


class BoxwoodHoneysuckle(BroadleafEvergreen):
    """A hedge shrub of tiny paired leaves that shoots from any wood and flushes till autumn."""

    rule_prefix = "box-honeysuckle"
    botanical = "Lonicera ligustrina var. yunnanensis"
    common = ("boxwood honeysuckle", "box honeysuckle", "boxleaf honeysuckle")
    also = (
        "Lonicera nitida",
        "Lonicera ligustrina subsp. yunnanensis",
        "shrubby honeysuckle",
        "poor man's box",
    )
    strongest = "basitonic"
    habit = "A fast dense evergreen of tiny paired leaves, with long whips from its base."
    hardiness = Fact("H6", _RHS)
    # The RHS says acid, neutral or alkaline, without figures.
    soil_ph = Fact((5.5, 7.8), FROM_MEMORY)
    usual_mix = Fact("akadama 1, pumice 1, lava 1", COMMON_PRACTICE)
    repot_years = Fact((1, 2, 4), COMMON_PRACTICE)
    repot_interval = Fact(RepotInterval((1, 1, 2), (2, 4, 6)), COMMON_PRACTICE)
    root_share = Fact((0.6, 0.8), COMMON_PRACTICE)
    why_frost = "Fine roots fill the rim of the pot, and frozen wind takes its leaves."
    light = Fact("Full sun to part shade, which it likes best in hot summers.", _MISSOURI)
    water = Fact("Evenly moist; once settled it bears some drought.", _MISSOURI)
    toxicity = Fact("The berries are not to be eaten by people or pets.", _RHS)
    bark = Fact("Its bark flakes, and older branches tear out at the fork.", COMMON_PRACTICE)
    wire_check_weeks = Fact((4, 6, 8), COMMON_PRACTICE)
    girth_growth_mm = Fact(4.0, COMMON_PRACTICE)
    # For a cool temperate place; from memory. 19: first leaves of the year dark and firm.
    stage_months: ClassVar[StageMonths] = {
        1: ((2, 20), (3, 8), (3, 24)),
        7: ((3, 8), (3, 22), (4, 6)),
        10: ((3, 18), (4, 2), (4, 17)),
        19: ((5, 8), (5, 22), (6, 5)),
        60: ((4, 25), (5, 8), (5, 22)),
        65: ((5, 3), (5, 16), (5, 30)),
        69: ((5, 14), (5, 27), (6, 10)),
        91: ((9, 18), (10, 6), (10, 26)),
    }
    advice = (
        *BroadleafEvergreen.advice,
        "Trim it every few weeks in growth, or whips from the base take over.",
        "In a hard winter it drops leaves and comes again in spring.",
        "Its deadwood is soft: hollows keep, points rot.",
    )
    never = (
        *BroadleafEvergreen.never,
        "Never pull a branch down at the fork: it tears out of the trunk.",
        "Never let a pad close over: what stands in shade inside dies.",
    )
    sources: ClassVar[dict[str, str]] = {"pests": _MISSOURI}
    works: ClassVar[tuple[Rule, ...]] = altered(
        BroadleafEvergreen.works,
        *repots(
            "repot",
            between(1, 7),
            because="It roots from any piece, best as the buds swell, and bears a hard root cut.",
            cautions=("Shade and still air afterwards, for the leaves stay on.",),
        ),
        prunes(
            "prune",
            at(1, -7, 0, 7),
            what="whips and doubled branches, to bare wood where shoots are wanted",
            because="It shoots from wood of any age, and a cut before growth has the whole year "
            "to answer.",
            cautions=("Next to no flowers follow: they sit on twigs of last year.",),
        ),
        checks_after(
            "thin-shoots",
            ("pruned",),
            weeks(5, 7, 10),
            look_at="shoots",
            what="shoots at the cuts, and rub out all but those wanted",
            because="A hard cut answers with a bunch of shoots, and a bunch left alone makes a "
            "knob.",
            only_after=is_hard_pruning,
            each_part=True,
        ),
        trims(
            "trim",
            at(19, -14, -5, 7),
            what="shoots to one or two pairs, the whips from the base first",
            because="It grows strongest at the base and flushes from each pair that is left.",
        ),
        trims_again(
            "trim-next",
            by_warmth((6, 25), (7, 8), (7, 25)),
            what="the next flush to one or two pairs",
            because="It flushes till autumn, and each trim doubles the twigs.",
        ),
        trims_again(
            "trim-late",
            by_warmth((8, 12), (8, 25), (9, 10)),
            what="what outgrew the outline",
            because="Shoots that follow a later cut stay soft into the frost.",
        ),
        work(
            "thin",
            "thinned",
            at(19, 7, 18, 35),
            what="shoots on top of and below each pad",
            because="It keeps leaves only where light comes, so a pad that closes is bare within a "
            "year.",
        ),
        feeds(
            "feed",
            at(10, 0, 14, 35),
            because="A tree that makes four flushes a year lives on what it takes up early.",
        ),
        watches_for(
            "pests",
            by_warmth((5, 1), (5, 25), (7, 15)),
            where="curled soft tips, and white dust on leaves inside the crown",
            because="Aphids curl the soft tips, and in hot and humid summers mildew may come "
            f"({_MISSOURI}).",
        ),
    )
