"""The care of a myrtle, left untrimmed after early June, since it flowers on this summer's shoots.

Unless a rule says otherwise, its figures are common practice, no source.
"""

from __future__ import annotations

from typing import ClassVar

from backbud.species import COMMON_PRACTICE, FROM_MEMORY, Fact, Rule, StageMonths
from backbud_species.habits.mediterranean import MediterraneanEvergreen
from backbud_species.habits.works import (
    altered,
    at,
    deadheads,
    feeds,
    prunes,
    trims,
    without,
)

_RHS = "RHS, Myrtle"


class Myrtle(MediterraneanEvergreen):
    """A fragrant evergreen of small paired leaves, in flower in high summer on its new shoots."""

    rule_prefix = "myrtle"
    botanical = "Myrtus communis"
    common = ("myrtle", "common myrtle", "true myrtle")
    also = ("Myrtus communis subsp. tarentina", "Tarentum myrtle", "Myrtus italica", "ginbaika")
    habit = "A dense fragrant evergreen of paired leaves and flaking red-brown bark."
    # The RHS list itself was not at hand.
    hardiness = Fact("H4", FROM_MEMORY)
    soil_ph = Fact((5.5, 7.0), FROM_MEMORY)
    usual_mix = Fact("akadama 2, pumice 1, lava 1", COMMON_PRACTICE)
    why_frost = "Prolonged cold, wet and winter wind kill it, and in a pot it is the roots first."
    light = Fact("Full sun, in a sheltered place.", _RHS)
    water = Fact(
        "Never dry, never sodden, with soft water: dried leaves hang on dead twigs.",
        COMMON_PRACTICE,
    )
    toxicity = Fact("Not known to harm people or pets; the berries are eaten.", FROM_MEMORY)
    bark = Fact("Its bark is thin and peels; young wood is supple, old wood snaps.", FROM_MEMORY)
    girth_growth_mm = Fact(3.0, COMMON_PRACTICE)
    # For a cool temperate place, under glass in frost; from memory.
    stage_months: ClassVar[StageMonths] = {
        **MediterraneanEvergreen.stage_months,
        60: ((7, 5), (7, 18), (8, 2)),
        65: ((7, 14), (7, 28), (8, 12)),
        69: ((8, 6), (8, 20), (9, 5)),
    }
    advice = (
        "Full sun, shelter from cold wind, and rain water.",
        "Never let its soil dry out in summer: its twigs die with the leaves on.",
        "Winter it light and airy at 3 to 8 °C, just moist.",
    )
    never = (
        *MediterraneanEvergreen.never,
        "Never trim it from midsummer on if it is to flower.",
    )
    works: ClassVar[tuple[Rule, ...]] = altered(
        without(MediterraneanEvergreen.works, "trim-late"),
        prunes(
            "prune",
            at(1, -3, 5, 14),
            what="what crosses or outgrows, to bare wood where shoots are wanted",
            because="It shoots freely from old wood, and spring gives the new wood time to flower "
            "and ripen.",
        ),
        trims(
            "trim",
            at(10, 14, 24, 32),
            what="new shoots to two pairs, for the last time before flowers",
            because="Its flowers sit on the shoots of this summer, so what is cut by early summer "
            "still grows and sets them.",
        ),
        deadheads(
            "deadhead",
            at(69, 0, 6, 16),
            what="spent flowers, before berries swell",
            because="Berries take the strength that a small tree needs to ripen its shoots.",
            cautions=("Leave a few berries on a strong tree.",),
        ),
        feeds(
            "feed-summer",
            at(60, -21, -14, -5),
            what="without lime",
            because="It grows on and forms its flowers at the same time, and pale leaves show "
            "hunger or lime.",
        ),
    )
