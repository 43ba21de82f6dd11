"""The care of a Japanese quince, repotted in autumn against crown gall and freed of suckers.

Unless a rule says otherwise, its figures are common practice, no source.
"""

from __future__ import annotations

from typing import ClassVar

from backbud.species import COMMON_PRACTICE, FROM_MEMORY, Fact, RepotInterval, Rule, StageMonths
from backbud_species.habits.blossom import covers_blossom, spares_flowers, watches_for_fireblight
from backbud_species.habits.cooled_soil import in_cooled_soil_or_spring
from backbud_species.habits.flowering import SpringBlossom
from backbud_species.habits.works import (
    altered,
    at,
    by_warmth,
    deadheads,
    feeds,
    prunes,
    repots,
    trims,
    watches_for,
    wires,
    without,
    work,
)

_RHS = "RHS, Chaenomeles speciosa"
_MORTON = "The Morton Arboretum, Cedar rust diseases"


class JapaneseQuince(SpringBlossom):
    """A thorny clump that flowers on bare old wood, strongest at the base."""

    rule_prefix = "quince"
    botanical = "Chaenomeles japonica"
    common = ("Japanese quince", "flowering quince")
    also = (
        "Chaenomeles speciosa",
        "Chaenomeles lagenaria",
        "Chaenomeles maulei",
        "Chaenomeles × superba",
        "Cydonia maulei",
        "Pyrus japonica",
        "Maule's quince",
        "boke",
        "kusaboke",
        "chojubai",
    )
    habit = "A thorny clump of many stems that flowers on bare wood, strongest at the base."
    strongest = "basitonic"
    hardiness = Fact("H6", _RHS)
    # The RHS says acid, neutral and alkaline, and yellow leaves on much lime, without figures.
    soil_ph = Fact((5.5, 7.5), FROM_MEMORY)
    usual_mix = Fact("akadama 2, pumice 1, lava 1", COMMON_PRACTICE)
    repot_years = Fact((1, 2, 4), COMMON_PRACTICE)
    repot_interval = Fact(RepotInterval((1, 1, 2), (2, 3, 5)), COMMON_PRACTICE)
    root_share = Fact((0.4, 0.6), COMMON_PRACTICE)
    why_frost = "Roots cut in autumn are still young when the frost comes."
    light = Fact("Full sun, or part shade with fewer flowers.", _RHS)
    water = Fact("Plenty in growth: a dry one drops its leaves at once.", COMMON_PRACTICE)
    bark = Fact("Stems stay thin and old ones are brittle; dwarf forms snap.", COMMON_PRACTICE)
    toxicity = Fact("Its seeds contain toxins, and pets should not eat the fruit.", _RHS)
    wire_check_weeks = Fact((4, 7, 12), COMMON_PRACTICE)
    girth_growth_mm = Fact(3.0, FROM_MEMORY)
    # It starts at low temperatures, so a low base.
    base_c = Fact(2.0, FROM_MEMORY)
    # For a cool temperate place; from memory. Some forms open flowers from autumn on.
    stage_months: ClassVar[StageMonths] = {
        1: ((2, 8), (2, 24), (3, 12)),
        7: ((2, 24), (3, 11), (3, 27)),
        10: ((3, 6), (3, 21), (4, 6)),
        19: ((5, 10), (5, 25), (6, 8)),
        60: ((2, 25), (3, 13), (3, 30)),
        65: ((3, 12), (3, 28), (4, 13)),
        69: ((4, 5), (4, 21), (5, 6)),
        91: ((8, 20), (9, 8), (9, 28)),
        93: ((10, 10), (10, 28), (11, 14)),
        97: ((11, 5), (11, 22), (12, 10)),
    }
    advice = (
        "Grow it as a clump: it replaces its stems from the base all its life.",
        "Let shoots that are to thicken grow unshortened, for its stems swell slowly.",
        "Keep it from rain in flower, and take the fruit off all but a strong plant.",
    )
    never = (
        *SpringBlossom.never[:1],
        "Never repot it in warm wet soil: crown gall enters its cut roots.",
        "Never leave every sucker: the old stems starve.",
        "Never shorten every shoot in autumn: the flowers sit on wood of last year and older.",
    )
    sources: ClassVar[dict[str, str]] = {"pests": _MORTON}
    works: ClassVar[tuple[Rule, ...]] = altered(
        without(SpringBlossom.works, "late-frost"),
        *repots(
            "repot",
            in_cooled_soil_or_spring(),
            because="In cooled autumn soil roots still grow, and crown gall, which enters cuts, "
            "does not; where frost comes within six weeks it waits for spring.",
            cautions=(
                "Knobs on the roots are crown gall: cut them off far back and clean the tools.",
                "Keep the pot frost-free this winter.",
            ),
        ),
        covers_blossom(
            "blossom",
            because="It flowers from late winter on, and open flowers brown in frost.",
            frost_c=-3.0,
            buds_days=7,
        ),
        spares_flowers(
            "disbud",
            at(60, -21, -7, 0),
            what="part of the flower buds",
            because="It flowers for weeks on what it stored, before a leaf feeds it.",
        ),
        deadheads(
            "deadhead",
            at(69, -10, 3, 20),
            what="spent flowers, and young fruit but one or two",
            because="The fruit is large for the plant and starves the shoots behind it.",
        ),
        work(
            "suckers",
            "rubbed",
            at(19, -14, 0, 42),
            what="suckers round the base, one or two kept to replace old stems",
            because="It grows strongest from the base, and suckers take the sap from the stems.",
        ),
        trims(
            "trim",
            at(19, -7, 7, 28),
            what="shoots of six or seven leaves back to two; those that thicken left",
            because="Shortened once it has leafed well, a shoot branches and makes flower spurs.",
            cautions=("Short thorny side shoots carry the flowers: leave them.",),
        ),
        feeds(
            "feed",
            at(69, 0, 10, 42),
            because="Shoots and the flower buds of next winter are made from now to late summer.",
        ),
        prunes(
            "prune",
            at(97, 0, 10, 35),
            what="long whips without flower buds to two buds, and dead stems at the base",
            because="On bare stems the round flower buds are seen from late autumn on.",
        ),
        wires(
            "wire",
            by_warmth((5, 20), (6, 10), (7, 10)),
            because="Shoots of the year bend while they are green, and older stems only snap.",
            cautions=("Mind the thorns, and cut those that the wire would press in.",),
        ),
        watches_for_fireblight("fireblight", at(65, 7, 30, 75)),
        watches_for(
            "pests",
            at(10, 21, 40, 75),
            where="curled tips, orange or brown spots, and white wool in forks, brushed off",
            because="Aphids curl the tips, and rust comes over from junipers "
            f"({_MORTON}) and drops the leaves.",
        ),
    )
