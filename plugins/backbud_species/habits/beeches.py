"""What beeches have in common: one flush from long buds, shallow fine roots. Common practice."""

from __future__ import annotations

from typing import ClassVar

from backbud.species import COMMON_PRACTICE, Fact, Judge, RepotInterval, Rule
from backbud_species.habits.broadleaves import BroadleafDeciduous
from backbud_species.habits.heat import shades_in_heat
from backbud_species.habits.judges import never_stripped
from backbud_species.habits.works import (
    LEAF_WORK,
    altered,
    at,
    between,
    feeds,
    pinches,
    protects_leaves,
    prunes,
    repots,
    trims,
    watches_for,
    wires,
    without,
    work,
)
from backbud_species.habits.yearly import FROZEN_WOOD_SNAPS


def thins_leaves(*, what: str, because: str) -> Rule:
    """Some leaf taken from a strong tree's outside: it makes no others, so most of it stays."""
    return work(
        "leaves",
        "thinned",
        at(19, 3, 10, 21),
        what=what,
        because=because,
        cautions=(("Not from inner or weak twigs, and never all: no second leaves come."),),
        gate=LEAF_WORK,
        only_if=lambda tree, day, year: tree.strength == "strong",
    )


class Beech(BroadleafDeciduous):
    """A beech: all leaves of the year wait in long buds, and seldom does a second flush come."""

    judges: ClassVar[tuple[Judge, ...]] = (never_stripped,)
    usual_mix = Fact("akadama 2, pumice 1, some old soil with its fungus threads", COMMON_PRACTICE)
    repot_years = Fact((2, 4, 6), COMMON_PRACTICE)
    repot_interval = Fact(RepotInterval((2, 2, 3), (3, 5, 8)), COMMON_PRACTICE)
    root_share = Fact((0.33, 0.5), COMMON_PRACTICE)
    wire_check_weeks = Fact((4, 6, 10), COMMON_PRACTICE)
    why_frost = "Its roots are fine and lie shallow, and die in cold that its top still bears."
    light = Fact("Sun, with shade from noon in summer: its thin leaves scorch.", COMMON_PRACTICE)
    bark = Fact(
        "Its bark stays thin, smooth and pale for life: one wire mark stays as long.",
        COMMON_PRACTICE,
    )
    advice: ClassVar[tuple[str, ...]] = (
        "Shade it from noon on in hot weeks, and never let it dry out: it grows no second leaves.",
        "Leave the dry brown leaves on in winter; they shelter the buds.",
        "Wipe the bark with water and a soft brush, and never let wire touch it for long.",
    )
    never: ClassVar[tuple[str, ...]] = (
        *BroadleafDeciduous.never,
        "Never take all its leaves off: it makes one flush a year.",
        "Never shorten a shoot behind its last bud: bare wood seldom answers.",
        "Never wash out all the old soil: its roots live with a fungus.",
    )
    works: ClassVar[tuple[Rule, ...]] = altered(
        without(BroadleafDeciduous.works, "trim-late"),
        *repots(
            "repot",
            between(1, 7),
            because="It is repotted late, as the long buds swell, and keeps part of the old soil "
            "with the fungus threads that feed its roots.",
            cautions=("Shade and no wind until the leaves are hard.",),
        ),
        shades_in_heat("shade", because="Its leaf is thin, and one that scorched is not replaced."),
        work(
            "winter-leaves",
            "cleaned",
            at(1, -14, -3, 7),
            what="dead leaves off by hand, each pulled along its stalk",
            because="Old leaves shelter the buds all winter, and come off before these swell and "
            "break at a touch.",
            cautions=("The buds are long and snap off: hold each twig.",),
            settled_by=("cleaned dead leaves", "cleaned leaves"),
        ),
        pinches(
            "pinch",
            at(10, -3, 2, 9),
            what="the soft heart of each strong bud as it unfolds, to two leaves; weak ones left",
            because="The whole shoot unfolds within days and never again this year, so only these "
            "days make it short.",
        ),
        protects_leaves(
            "late-frost",
            10,
            because="Frost on its soft leaves costs most of the year, since few buds are left to "
            "make others.",
        ),
        trims(
            "trim",
            at(19, 0, 7, 18),
            what="strong shoots that were missed to two leaves; every weak one keeps its tip",
            because="It seldom grows again this year, so a cut only sets buds for the next, and "
            "light reaches the inner ones.",
            gate=LEAF_WORK,
        ),
        thins_leaves(
            what="large outer leaves, each cut in half, the top first",
            because="Light reaches the inner buds, and the leaf left on them still feeds them.",
        ),
        prunes(
            "prune",
            at(1, -42, -35, -25),
            what="twigs to one or two buds, the top hardest",
            because="By late winter plump and slim buds are told apart, and a cut that close to "
            "growth dies back least.",
        ),
        wires(
            "wire",
            at(1, -38, -30, -20),
            because="Twigs bend before the buds swell, and are soon past the danger of frost.",
            cautions=(FROZEN_WOOD_SNAPS,),
        ),
        feeds(
            "feed",
            at(19, -3, 7, 21),
            because="Its one flush comes from what it stored, so feed before the leaves are hard "
            "only makes them large.",
        ),
        watches_for(
            "pests",
            at(10, 7, 21, 45),
            where="undersides of the leaves, for white wool",
            because="Beech aphids in white wax sit under the soft leaves, curl them, and leave "
            "honeydew.",
            cautions=("A hard jet of water takes them off.",),
        ),
    )
