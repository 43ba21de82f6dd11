"""What spruces have in common: whorled buds, springy wood, cool roots. Figures: common practice."""

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
    pinches,
    protects_leaves,
    repots,
    trims,
    watches_for,
    wires,
)
from backbud_species.habits.yearly import FROZEN_WOOD_SNAPS

_MINNESOTA = "Minnesota Department of Natural Resources, spruce spider mites, June 1999"
_PURDUE = "Purdue Plant Doctor, eastern spruce gall adelgid"


class Spruce(Conifer):
    """A spruce: buds in whorls that open unevenly, and wood that forgets its wire."""

    rests_under_c: ClassVar[Fact[float] | None] = Fact(13.0, COMMON_PRACTICE)
    strongest = "acrotonic"
    toxicity = Fact("Not known to be poisonous; needles prick and resin sticks.", FROM_MEMORY)
    bark = Fact("Thin scaly bark that bleeds resin if it is cut in spring.", COMMON_PRACTICE)
    wire_check_weeks = Fact((8, 14, 22), COMMON_PRACTICE)
    advice: ClassVar[tuple[str, ...]] = (
        "Full sun, and its roots kept cool.",
        "Let the surface dry a little between waterings, but never the ball.",
        "Outside in every winter, out of drying wind.",
    )
    never: ClassVar[tuple[str, ...]] = (
        "Never cut a branch back to where no needle or bud is left: it dies.",
        "Never pinch every shoot of a branch: next year's buds are made on them.",
        "Never wash out all the old soil in one go.",
    )
    # For a cool temperate place; from memory. 10 is what the German weather service observes as
    # the May shoot: the bud breaks and its cap loosens, the needles are not yet spread.
    stage_months: ClassVar[StageMonths] = {
        1: ((3, 25), (4, 10), (4, 25)),
        7: ((4, 15), (4, 30), (5, 14)),
        10: ((4, 26), (5, 9), (5, 22)),
        91: ((8, 25), (9, 14), (10, 4)),
    }
    sources: ClassVar[dict[str, str]] = {"mites": _MINNESOTA, "galls": _PURDUE}
    works: ClassVar[tuple[Rule, ...]] = altered(
        Conifer.works,
        *repots(
            "repot",
            between(1, 7),
            autumn_too=True,
            because="It is repotted before its buds break, with part of the old soil and the "
            "fungus threads that feed its roots.",
            cautions=("No hard cut and no heavy bend in the year of repotting.",),
        ),
        protects_leaves(
            "late-frost",
            10,
            because="The new shoots are soft for weeks and hang brown after one late frost.",
            frost_c=-1.0,
        ),
        pinches(
            "pinch",
            at(10, 5, 15, 30),
            what="strong soft shoots by half to two thirds, over two weeks as they open",
            because="Its buds open unevenly, top first; a shoot pulled short while it is soft sets "
            "several buds for next year, and a weak one is left whole.",
            cautions=("With the fingers, before the needles stand off: scissors brown them.",),
        ),
        trims(
            "trim",
            at(91, -7, 10, 40),
            what="long shoots to a side bud, three from one point to two",
            because="Its buds stand in whorls that swell into knobs, and cut after growth it "
            "bleeds little resin.",
        ),
        wires(
            "wire",
            at(91, 28, 49, 140),
            because="Its wood is supple and springs back, so it is wired from autumn on and often "
            "a second time.",
            cautions=(FROZEN_WOOD_SNAPS,),
        ),
        watches_for(
            "mites",
            by_warmth((4, 10), (5, 1), (6, 5)),
            where="tap inner needles over white paper for mites",
            because="Spruce mites feed in cool weather, in spring and again in autumn, and rest in "
            f"the heat ({_MINNESOTA}).",
        ),
        watches_for(
            "mites-autumn",
            by_warmth((9, 1), (9, 20), (10, 20)),
            where="tap inner needles over white paper for mites",
            because="The mites' second time is autumn, and the eggs they lay then last the winter.",
        ),
        watches_for(
            "galls",
            at(10, 21, 38, 63),
            where="small green pineapples at the base of new shoots",
            because="The galls open in midsummer and let the adelgids out, so they are cut off "
            f"while they are green ({_PURDUE}).",
        ),
        shades_in_heat(
            "shade", because="It comes from cool forests, and a pot that heats up hurts its roots."
        ),
    )
