"""The care of an olive, which shoots from any wood and is cut dry, against disease in its wounds.

Unless a rule says otherwise, its figures are common practice, no source.
"""

from __future__ import annotations

from typing import ClassVar

from backbud.species import COMMON_PRACTICE, FROM_MEMORY, Fact, RepotInterval, Rule, StageMonths
from backbud_species.habits.done import is_hard_pruning
from backbud_species.habits.flushes import trims_again
from backbud_species.habits.mediterranean import MediterraneanEvergreen
from backbud_species.habits.works import (
    altered,
    at,
    by_warmth,
    checks_after,
    prunes,
    trims,
    watches_for,
    weeks,
    work,
)

_CHILL = "Hartmann and Whisler 1975, J. Amer. Soc. Hort. Sci. 100: 670"
_SPOT = "University of California IPM, Olive: Peacock spot"
_PRESS = "University of California Cooperative Extension, First Press, spring 2007"
_BRIGIT = "BRIGIT, Xylella fastidiosa, host sheet Olea europaea"


class Olive(MediterraneanEvergreen):
    """A grey evergreen that shoots from any wood, strongest at the foot, and lives for ages."""

    rule_prefix = "olive"
    botanical = "Olea europaea"
    common = ("olive", "common olive", "European olive")
    also = (
        "Olea sylvestris",
        "Olea oleaster",
        "Olea europaea var. sylvestris",
        "wild olive",
    )
    strongest = "basitonic"
    habit = "A grey evergreen that shoots from old wood and from swellings at its foot."
    # The RHS list itself was not at hand. Orchards are hurt at about -7 °C: 20 °F or below is
    # often critical (W. Krueger, University of California).
    hardiness = Fact("H4", FROM_MEMORY)
    soil_ph = Fact((6.0, 7.0), "FAO, EcoCrop: Olea europaea")
    repot_years = Fact((2, 4, 6), COMMON_PRACTICE)
    repot_interval = Fact(RepotInterval((2, 3, 4), (3, 5, 8)), COMMON_PRACTICE)
    root_share = Fact((0.4, 0.6), COMMON_PRACTICE)
    toxicity = Fact("Not known to harm people or pets; its pollen troubles many.", FROM_MEMORY)
    bark = Fact("Young bark is smooth and marks; old wood is stiff and splits.", COMMON_PRACTICE)
    wire_check_weeks = Fact((6, 10, 16), COMMON_PRACTICE)
    girth_growth_mm = Fact(4.0, COMMON_PRACTICE)
    # Codes as Sanz-Cortés 2002 has them for olive. For a cool temperate place; from memory.
    stage_months: ClassVar[StageMonths] = {
        1: ((3, 20), (4, 6), (4, 22)),
        7: ((4, 8), (4, 24), (5, 10)),
        10: ((4, 22), (5, 8), (5, 24)),
        19: ((6, 5), (6, 22), (7, 8)),
        60: ((6, 5), (6, 18), (7, 3)),
        65: ((6, 12), (6, 25), (7, 10)),
        69: ((6, 22), (7, 6), (7, 22)),
        91: ((9, 5), (9, 25), (10, 15)),
    }
    advice = (
        *MediterraneanEvergreen.advice,
        "It flowers best after some eleven weeks whose nights and days swing between 2 and 15 °C "
        f"({_CHILL}).",
        "Old leaves fall in late spring as the new ones come: that is no sickness.",
    )
    never = (
        *MediterraneanEvergreen.never,
        "Never cut it in wet weather: knot disease enters fresh cuts with the rain.",
        "Never bring one from abroad without its plant passport: it may carry Xylella.",
    )
    sources: ClassVar[dict[str, str]] = {"prune": _PRESS, "pests": _PRESS, "peacock-spot": _SPOT}
    works: ClassVar[tuple[Rule, ...]] = altered(
        MediterraneanEvergreen.works,
        prunes(
            "prune",
            at(1, 0, 10, 21),
            what="what crosses, doubles or shades, on dry days",
            because="It shoots from wood of any age in warmth, and in the wet months disease "
            f"enters the cuts ({_PRESS}).",
            cautions=("It flowers on shoots of last year: leave some whole if fruit is wanted.",),
        ),
        checks_after(
            "thin-shoots",
            ("pruned",),
            weeks(6, 9, 14),
            look_at="shoots",
            what="shoots at the cuts, and rub out all but those wanted",
            because="Old wood answers a hard cut with dozens of shoots, and those left in a bunch "
            "swell to a knob.",
            only_after=is_hard_pruning,
            each_part=True,
        ),
        trims(
            "trim",
            at(19, -7, 3, 18),
            what="shoots of five or six pairs to two",
            because="Shoots with ripe leaves branch from each pair they keep, and soft ones only "
            "at the tip.",
        ),
        trims_again(
            "trim-late",
            by_warmth((7, 28), (8, 12), (8, 30)),
            what="what outgrew the outline",
            because="What comes after a later cut is still soft when frost does.",
        ),
        work(
            "suckers",
            "rubbed",
            by_warmth((5, 10), (6, 1), (8, 15)),
            what="suckers at the foot and along the trunk, unless one is wanted",
            because="It grows strongest at the base, and what rises there starves the crown.",
        ),
        watches_for(
            "pests",
            by_warmth((5, 25), (6, 20), (8, 31)),
            where="leaf ribs and twigs, for black scales and their honeydew",
            because=f"Black scale thrives in a dense crown and dies of sun and heat in an open one "
            f"({_PRESS}).",
            cautions=(
                "Branches scorched from the tips, with no drought to explain it, may have Xylella "
                f"({_BRIGIT}): ask the plant-health service.",
            ),
        ),
        watches_for(
            "peacock-spot",
            by_warmth((9, 25), (10, 20), (11, 30)),
            where="round dark spots on the upper side of low leaves, some with a yellow rim",
            because="Peacock spot enters leaves that stay wet in mild autumn weather and drops "
            f"them ({_SPOT}).",
            cautions=("Keep the leaves dry and pick up those that fell.",),
        ),
    )
