"""The care of a Canadian hemlock, which wants shade and damp, and buds only behind green.

Unless a rule says otherwise, its figures are common practice, no source.
"""

from __future__ import annotations

from typing import ClassVar

from backbud.species import COMMON_PRACTICE, FROM_MEMORY, Fact, Rule, StageMonths
from backbud_species.habits.conifers import Conifer
from backbud_species.habits.heat import shades_in_heat
from backbud_species.habits.works import (
    altered,
    at,
    between,
    by_warmth,
    months,
    pinches,
    protects_leaves,
    repots,
    trims,
    watches_for,
    wires,
)
from backbud_species.habits.yearly import FROZEN_WOOD_SNAPS

_ILLINOIS = "University of Illinois, Woody Plants: Tsuga canadensis"
_WEEVIL = "University of Illinois, Home, Yard and Garden Pest newsletter, 26 May 2004"
_NEW_YORK = "SLELO PRISM and New York State, hemlock woolly adelgid: damage and seasonal signs"


class CanadianHemlock(Conifer):
    """A fine conifer of shade and damp with a nodding top, that buds back where it is green."""

    rule_prefix = "hemlock"
    botanical = "Tsuga canadensis"
    common = ("Canadian hemlock", "eastern hemlock")
    also = ("Canada hemlock", "hemlock spruce", "Pinus canadensis", "Abies canadensis")
    habit = "A graceful tree of short flat needles and a nodding leader, strongest at the top."
    strongest = "acrotonic"
    # The RHS list itself was not at hand.
    hardiness = Fact("H6", FROM_MEMORY)
    # Illinois says acidic, without figures.
    soil_ph = Fact((5.0, 6.5), FROM_MEMORY)
    usual_mix = Fact("akadama 2, pumice 1, lava 1", COMMON_PRACTICE)
    light = Fact("Part shade to sun; wind harms it more than shade.", _ILLINOIS)
    water = Fact("Moist and well drained; it does not bear drought.", _ILLINOIS)
    bark = Fact("Thin scaly bark, red beneath where wire or hand has scraped it.", COMMON_PRACTICE)
    wire_check_weeks = Fact((8, 11, 16), COMMON_PRACTICE)
    toxicity = Fact(
        "Not poisonous: the hemlock of the poisoners is another plant, a herb.", FROM_MEMORY
    )
    why_frost = "Its roots are shallow, and winter wind on a frozen pot browns its needles."
    # For a cool temperate place; from memory. 10: the caps are off and light green shows.
    stage_months: ClassVar[StageMonths] = {
        1: ((3, 20), (4, 5), (4, 20)),
        7: ((4, 14), (4, 29), (5, 13)),
        10: ((4, 28), (5, 12), (5, 26)),
        91: ((9, 5), (9, 24), (10, 14)),
    }
    advice = (
        "Morning sun, shade from noon on in hot weeks, and no drying wind.",
        "Never let it dry out: one drought costs it whole branches.",
        "The leader nods by itself: that is its nature.",
    )
    never = (
        "Never cut a branch back to where no needle is left: buds come only behind green.",
        "Never let it dry out, and never stand it in hot wind.",
        "Never wash out all the old soil in one go.",
    )
    sources: ClassVar[dict[str, str]] = {
        "woolly-adelgid": _NEW_YORK,
        "grubs": _WEEVIL,
        "shade": _ILLINOIS,
    }
    works: ClassVar[tuple[Rule, ...]] = altered(
        Conifer.works,
        *repots(
            "repot",
            between(1, 7),
            autumn_too=True,
            because="Its fine shallow roots dry in minutes and regrow best just before the buds "
            "break.",
            cautions=("Shade, still air and mist afterwards.",),
        ),
        protects_leaves(
            "late-frost",
            10,
            because="The light green shoots are soft for weeks and brown in a late frost.",
            frost_c=-1.0,
        ),
        pinches(
            "pinch",
            at(10, 8, 20, 38),
            what="soft tips that outgrow the outline, the top hardest",
            because="Stopped soft, its fine shoots branch from every side bud, and the weak ones "
            "inside get light.",
        ),
        trims(
            "trim",
            by_warmth((7, 20), (8, 8), (8, 31)),
            what="second growth and long shoots, to a side shoot",
            because="Cut in late summer it ripens before frost, and buds back along the green part "
            "of the shoot.",
        ),
        wires(
            "wire",
            at(91, 14, 42, 150),
            because="Its slender branches bend well while the sap is slow; thick ones are brittle "
            "and split at the fork.",
            cautions=(FROZEN_WOOD_SNAPS,),
        ),
        watches_for(
            "woolly-adelgid",
            months((11, 15), (1, 20), (4, 30), why="what was seen, late autumn to spring"),
            where="white wool at the base of the needles, on the underside of last year's shoots",
            because="The woolly adelgid feeds through winter, and its wool is seen from late "
            f"autumn to spring ({_NEW_YORK}).",
            cautions=("It kills hemlocks, and in many places it must be reported.",),
        ),
        watches_for(
            "grubs",
            by_warmth((8, 25), (9, 12), (10, 10)),
            where="white grubs among the roots near the surface",
            because=f"Vine weevil grubs eat hemlock roots as they do those of yew ({_WEEVIL}).",
        ),
        shades_in_heat(
            "shade",
            because="From about 32 °C on its needles burn as soon as it is short of water "
            f"({_ILLINOIS}).",
        ),
    )
