"""The care of a ginkgo, whose thick roots freeze first and whose cuts hardly ever close.

Unless a rule says otherwise, its figures are common practice, no source.
"""

from __future__ import annotations

from typing import ClassVar

from backbud.species import (
    COMMON_PRACTICE,
    FROM_MEMORY,
    Fact,
    Judge,
    RepotInterval,
    Rule,
    StageMonths,
)
from backbud_species.habits.broadleaves import BroadleafDeciduous
from backbud_species.habits.judges import never_stripped
from backbud_species.habits.works import (
    ALWAYS,
    altered,
    at,
    between,
    feeds,
    prunes,
    repots,
    seals_cuts,
    trims,
    wires,
    without,
    work,
)
from backbud_species.habits.yearly import CUT_ROOTS_FREEZE

_OKLAHOMA = "Oklahoma State University Extension, Ginkgo biloba"
_HONG_KONG = "Hospital Authority of Hong Kong, Toxic plants: Ginkgo biloba"


class Ginkgo(BroadleafDeciduous):
    """An upright tree of spurs and few long shoots, whose cuts never close."""

    judges: ClassVar[tuple[Judge, ...]] = (never_stripped,)
    rule_prefix = "ginkgo"
    botanical = "Ginkgo biloba"
    common = ("ginkgo", "maidenhair tree")
    also = ("Salisburia adiantifolia", "gingko", "icho", "ichou", "chichi icho")
    habit = "A stiff upright tree of spurs and few long shoots, strongest at the top."
    # The RHS list itself was not at hand.
    hardiness = Fact("H6", FROM_MEMORY)
    # Texas A&M Forest Service has it in alkaline soils over pH 7.5 too.
    # What it tolerates in open ground.
    soil_ph = Fact((5.0, 8.2), "Michigan State University Extension, Ginkgo, 11 March 2016")
    usual_mix = Fact("akadama 2, pumice 1, lava 1, free of dust", COMMON_PRACTICE)
    repot_years = Fact((2, 3, 5), COMMON_PRACTICE)
    repot_interval = Fact(RepotInterval((1, 2, 3), (3, 4, 6)), COMMON_PRACTICE)
    root_share = Fact((0.33, 0.5), COMMON_PRACTICE)
    frost_limit_c = Fact(-5.0, COMMON_PRACTICE)
    why_frost = "Its roots are thick and full of water, and burst long before its top is harmed."
    light = Fact("Full sun to part shade.", _OKLAHOMA)
    water = Fact("Moist and well drained.", _OKLAHOMA)
    bark = Fact(
        "Young bark is soft and marks at once; thick branches break rather than bend.",
        COMMON_PRACTICE,
    )
    toxicity = Fact("Ten of its seeds can poison a person, raw ones above all.", _HONG_KONG)
    wire_check_weeks = Fact((4, 6, 8), COMMON_PRACTICE)
    girth_growth_mm = Fact(4.0, COMMON_PRACTICE)
    # For a cool temperate place; from memory. 19: leaves full size and leathery.
    stage_months: ClassVar[StageMonths] = {
        1: ((3, 18), (4, 2), (4, 16)),
        7: ((4, 8), (4, 20), (5, 4)),
        10: ((4, 16), (4, 29), (5, 12)),
        19: ((5, 30), (6, 14), (6, 28)),
        91: ((8, 20), (9, 8), (9, 28)),
        93: ((10, 22), (11, 5), (11, 20)),
        97: ((10, 30), (11, 14), (11, 30)),
    }
    advice = (
        "Bring the pot where it cannot freeze through: the roots go first, and show it in late "
        "spring.",
        "Water when the surface dries, and little after leaf fall: thick roots rot in a wet pot.",
        "Male and female are different trees, and a female makes seed only after decades.",
        "Keep its seeds from children and pets.",
    )
    never = (
        *BroadleafDeciduous.never,
        "Never take its leaves off: it answers with few new ones, or none.",
        "Never make a large cut on the front: it does not roll over.",
        "Never let wire bite: the mark stays.",
    )
    works: ClassVar[tuple[Rule, ...]] = altered(
        without(BroadleafDeciduous.works, "trim-late", "seal", "pests"),
        *repots(
            "repot",
            between(1, 7),
            because="Thick roots regrow only in warming soil, so it is repotted as the buds at "
            "the spurs swell and not before.",
            cautions=(
                "Shorten thick roots a little at a time and let no cut root stand wet.",
                CUT_ROOTS_FREEZE,
            ),
        ),
        trims(
            "trim",
            at(19, -14, 0, 14),
            what="long shoots to two or three leaves; spurs left alone",
            because="Only long shoots outgrow it, while spurs lengthen by a hair each year and "
            "make its outline.",
        ),
        prunes(
            "prune",
            at(1, -28, -20, -12),
            what="long shoots to one or two buds, and twigs that died",
            because="Twigs often die back over winter, so it is cut when the living buds show, and "
            "an open cut then meets no frost.",
            cautions=("Cut hollow and close: it makes hardly any callus.",),
        ),
        seals_cuts(
            "seal",
            what="the large cuts, hollowed",
            because="Its cuts stay open for years, and water that stands in them rots the heart.",
        ),
        wires(
            "wire",
            at(19, 0, 10, 28),
            because="Shoots of this year bend while they are green, and are brittle by winter.",
        ),
        feeds(
            "feed",
            at(10, 14, 24, 40),
            because="It makes one flush from its spurs and hardens early, so feed after midsummer "
            "comes too late.",
        ),
        work(
            "dieback",
            "checked",
            at(10, 7, 14, 35),
            what="buds, and scratch the twigs that stay bare",
            because="Frozen roots and dead twigs show only when the others are in leaf; it may "
            "still bud from old wood below.",
            gate=ALWAYS,
            settled_by=("checked buds", "checked shoots"),
        ),
    )
