"""The care of a needle juniper, which wakes late and, unlike one of scales, may be pinched.

Unless a rule says otherwise, its figures are common practice, no source.
"""

from __future__ import annotations

from typing import ClassVar

from backbud.species import COMMON_PRACTICE, FROM_MEMORY, Fact, Rule, StageMonths
from backbud_species.habits.deadwood import cares_for_deadwood
from backbud_species.habits.junipers import Juniper
from backbud_species.habits.works import (
    LEAF_WORK,
    altered,
    at,
    between,
    by_warmth,
    pinches,
    repots,
    trims,
    watches_for,
    wires,
    without,
)

_OREGON = "Oregon State University, Landscape Plants: Juniperus rigida"
_FOREST_RESEARCH = "Forest Research, Phytophthora austrocedri"


class NeedleJuniper(Juniper):
    """A juniper of sharp needles all its life, late to wake, prized for its deadwood."""

    rule_prefix = "needle-juniper"
    botanical = "Juniperus rigida"
    common = ("needle juniper",)
    also = ("temple juniper", "tosho", "toshou", "nezu", "nezumisashi")
    habit = "A juniper of stiff sharp needles in threes and hanging tips, strongest at the top."
    # The RHS list itself was not at hand.
    hardiness = Fact("H6", FROM_MEMORY)
    soil_ph = Fact((5.5, 7.5), FROM_MEMORY)
    usual_mix = Fact("akadama 2, pumice 1, lava 1", COMMON_PRACTICE)
    light = Fact("Full sun; heat does it no harm.", _OREGON)
    water = Fact("More than a scale juniper: never dry while it grows, never wet.", COMMON_PRACTICE)
    toxicity = Fact(
        "Mildly poisonous if eaten, berries too; the needles prick and can make a rash.",
        FROM_MEMORY,
    )
    bark = Fact(
        "Stringy bark over live veins that swell over wire by the second summer.", COMMON_PRACTICE
    )
    why_frost = "It wakes late and its cut roots regrow late, so frost and cold wet soil find them."
    # For a cool temperate place; from memory. 7: green shows at the tips.
    stage_months: ClassVar[StageMonths] = {
        1: ((3, 25), (4, 8), (4, 24)),
        7: ((4, 15), (4, 30), (5, 14)),
        10: ((5, 1), (5, 17), (6, 2)),
        91: ((9, 6), (9, 22), (10, 8)),
    }
    advice = (
        "Full sun and moving air; mist it on hot evenings.",
        "Water before it is quite dry: needles that dried out show it weeks later and do not "
        "recover.",
        "Female trees bear berries for two years; on a weak one they are taken off.",
        "Wear gloves: the needles are sharp.",
    )
    never = (
        "Never pinch a weak tree or one just repotted: it makes its roots from its tips.",
        "Never keep it beside pears or hawthorns: they share rusts.",
        "Never cut or shade a branch until no green is left: it dies back to the trunk.",
        "Never repot it before its buds move: roots cut in the cold rot.",
    )
    sources: ClassVar[dict[str, str]] = {"root-rot": _FOREST_RESEARCH}
    works: ClassVar[tuple[Rule, ...]] = altered(
        without(Juniper.works, "trim-again"),
        *repots(
            "repot",
            between(1, 7),
            autumn_too=True,
            because="It wakes late and grows roots only in warmth, so it is repotted when its buds "
            "move, one part of the ball at a time and with all its foliage on.",
            cautions=("No pinching and no carving in the year of repotting.",),
        ),
        pinches(
            "pinch",
            at(10, 3, 18, 49),
            what="soft tips of strong shoots, again as the next ones lengthen",
            because="Unlike a scale juniper it branches where its soft tips are taken, while they "
            "still part between the fingers, the top hardest.",
            cautions=("Hardened tips are cut with scissors between the needles, not pulled.",),
        ),
        trims(
            "trim",
            by_warmth((8, 5), (8, 22), (9, 12)),
            what="what outgrows the outline, back to a side shoot",
            because="Shoots cut before autumn ripen buds behind the cut, as long as needles stay "
            "on them.",
            gate=LEAF_WORK,
        ),
        wires(
            "wire",
            by_warmth((2, 20), (3, 12), (4, 10)),
            because="Branches wired in autumn dry out in frost, so it is wired when winter is "
            "over and before the bark slips.",
            cautions=("Draw the needles along the wire: what is caught under it dies.",),
        ),
        watches_for(
            "root-rot",
            by_warmth((5, 20), (6, 15), (8, 31)),
            where="foliage that pales, then bronzes, and brown bark at the root collar",
            because="A root disease of junipers rots the inner bark from the roots up, and every "
            f"species of juniper takes it ({_FOREST_RESEARCH}).",
            cautions=(
                "In some countries a nursery has to report it: ask the plant-health service.",
            ),
        ),
        cares_for_deadwood(
            "deadwood",
            because="Its hard wood outlasts that of other junipers, but where it meets soil or "
            "holds water it rots unless it is cleaned and painted in dry heat.",
        ),
    )
