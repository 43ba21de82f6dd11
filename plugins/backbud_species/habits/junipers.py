"""What junipers have in common, of scale and of needle. Figures: common practice."""

from __future__ import annotations

from typing import ClassVar

from backbud.species import (
    COMMON_PRACTICE,
    FROM_MEMORY,
    PRESSING,
    Fact,
    Rule,
    StageMonths,
    stresses,
)
from backbud_species.habits.conifers import Conifer
from backbud_species.habits.deadwood import cares_for_deadwood, cleans_live_veins
from backbud_species.habits.done import is_hard_pruning
from backbud_species.habits.flushes import trims_again
from backbud_species.habits.works import (
    LEAF_WORK,
    altered,
    at,
    between,
    by_warmth,
    checks_after,
    repots,
    trims,
    watches_for,
    weeks,
    work,
)


class Juniper(Conifer):
    """A juniper: it lives from its foliage, with live veins beside deadwood."""

    strongest = "acrotonic"
    toxicity = Fact("Mildly poisonous if eaten; needle foliage can make a rash.", FROM_MEMORY)
    bark = Fact("Live veins swell over wire by the second summer.", COMMON_PRACTICE)
    never: ClassVar[tuple[str, ...]] = (
        "Never pinch every tip: the tree lives from them.",
        "Never keep it beside pears or hawthorns: they share rusts.",
        *Conifer.never,
    )
    sources: ClassVar[dict[str, str]] = {"root-rot": "Forest Research, Phytophthora austrocedri"}
    works: ClassVar[tuple[Rule, ...]] = altered(
        Conifer.works,
        trims(
            "trim",
            at(10, 28, 42, 63),
            what="runners, with scissors at their base",
            because="Shoots that run out of the outline are cut at their base; the other tips "
            "stay, for the tree lives from them.",
            gate=LEAF_WORK,
        ),
        work(
            "thin",
            "thinned",
            at(91, -21, -7, 21),
            what="what hangs down and grows in the forks",
            because="Light keeps the inner shoots alive, and every branch keeps green at its end.",
            gate=LEAF_WORK,
        ),
        checks_after(
            "after-pruning",
            ("pruned",),
            weeks(10, 12, 16),
            look_at="strength",
            because="A hard cut costs a juniper foliage that it lives from, and shows in its "
            "colour months later.",
            only_after=is_hard_pruning,
        ),
        checks_after(
            "after-bend",
            ("bent",),
            weeks(4, 6, 10),
            look_at="strength",
            what="strength of foliage and live vein",
            because="A torn live vein shows weeks later, when its foliage turns grey and dull.",
            cautions=("Shade, still air and no root work this year.",),
            settled_by=("checked wounds",),
            only_after=stresses,
            each_part=True,
            weight=PRESSING,
        ),
        trims_again(
            "trim-again",
            at(91, -70, -56, -42),
            what="runners that came since, with scissors at their base",
            because="Strong tips run again after the first trim, and a cut made now still has "
            "green behind it when growth ends.",
        ),
        watches_for(
            "root-rot",
            by_warmth((5, 20), (6, 15), (7, 31)),
            where="foliage that pales and bronzes, brown bark at the root collar, and white scale",
            because="A root disease (Phytophthora austrocedri) rots the inner bark from below, and "
            "scale dulls the foliage in the same weeks.",
            cautions=(
                "In some countries a nursery has to report the disease: do not move the tree, and "
                "ask the plant-health service.",
            ),
        ),
        cleans_live_veins("live-veins"),
        watches_for(
            "rust",
            at(7, -14, 0, 14),
            where="orange jelly on twigs after rain",
            because="Rust shows in wet spring weather as orange jelly on swollen twigs.",
            cautions=("Some of these rusts must be reported: ask the plant-health service.",),
        ),
    )


# Of junipers with deadwood.
DEADWOOD_YEARLY = cares_for_deadwood(
    "deadwood",
    because="Deadwood is cleaned and painted once a year in hot, dry weather, before it rots.",
)


class LowJuniper(Juniper):
    """A creeping or spreading juniper of the hills, repotted a part of the ball at a time."""

    # The RHS list itself was not at hand.
    hardiness = Fact("H7", FROM_MEMORY)
    soil_ph = Fact((5.5, 7.8), FROM_MEMORY)
    light = Fact("Full sun and moving air.", COMMON_PRACTICE)
    water = Fact("Let the surface dry a little between waterings.", COMMON_PRACTICE)
    why_frost = "The top is hardy, but cut roots in a pot and dry wind on frozen soil are not safe."
    # For a cool temperate place; from memory. 7: the tips turn light green.
    stage_months: ClassVar[StageMonths] = {
        1: ((3, 10), (3, 26), (4, 10)),
        7: ((4, 3), (4, 18), (5, 3)),
        10: ((4, 24), (5, 9), (5, 26)),
        91: ((9, 18), (10, 5), (10, 26)),
    }
    works: ClassVar[tuple[Rule, ...]] = altered(
        Juniper.works,
        *repots(
            "repot",
            between(1, 7),
            autumn_too=True,
            because="It is repotted as growth begins, part of the ball at a time and with its "
            "foliage on: foliage makes the new roots.",
            cautions=("No heavy bending and no carving in the year of repotting.",),
        ),
        DEADWOOD_YEARLY,
    )
