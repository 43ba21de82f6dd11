"""What hornbeams have in common: hard wood, and cuts that die back. Common practice."""

from __future__ import annotations

from typing import ClassVar

from backbud.species import COMMON_PRACTICE, FROM_MEMORY, Fact, Judge, RepotInterval, Rule
from backbud_species.habits.broadleaves import BroadleafDeciduous
from backbud_species.habits.done import is_hard_pruning
from backbud_species.habits.heat import shades_in_heat
from backbud_species.habits.judges import never_stripped
from backbud_species.habits.works import (
    Way,
    altered,
    at,
    between,
    checks_after,
    defoliates,
    pinches,
    protects_leaves,
    prunes,
    repots,
    trims,
    watches_for,
    weeks,
    wires,
)
from backbud_species.habits.yearly import FROZEN_WOOD_SNAPS


class Hornbeam(BroadleafDeciduous):
    """A hornbeam: fine ribbed leaves, pointed buds, hard wood, and cuts that die back."""

    judges: ClassVar[tuple[Judge, ...]] = (never_stripped,)
    repot_years = Fact((2, 3, 5), COMMON_PRACTICE)
    repot_interval = Fact(RepotInterval((1, 2, 3), (3, 5, 8)), COMMON_PRACTICE)
    toxicity = Fact("Not known to harm people or pets.", FROM_MEMORY)
    bark = Fact("Its bark is thin and smooth and keeps wire marks.", COMMON_PRACTICE)
    never: ClassVar[tuple[str, ...]] = (
        *BroadleafDeciduous.never,
        "Never cut a branch flush at once: it dies back to the next bud and into the trunk.",
    )
    works: ClassVar[tuple[Rule, ...]] = altered(
        BroadleafDeciduous.works,
        *repots(
            "repot",
            between(1, 7),
            because="As the pointed buds swell roots regrow fastest, and no leaf has opened yet "
            "that would want their water.",
            cautions=("Keep it from frost and drying wind afterwards.",),
        ),
        protects_leaves(
            "late-frost",
            10,
            frost_c=-3.0,
            because="Its leaves bear a light frost, and a hard one browns them all.",
        ),
        pinches(
            "pinch",
            at(10, 2, 8, 21),
            what="the tips of strong shoots, once two or three leaves are open",
            because="Stopped while soft, the shoot stays short and wakes the buds behind; weak "
            "inner shoots are left to run.",
        ),
        shades_in_heat("shade", because="Its thin leaves brown at the edge in hot dry weeks."),
        defoliates(
            "defoliate",
            at(19, 3, 10, 21),
            part=Way(
                "in part: large and outer leaves, at the top most",
                "Dense foliage shades the inner twigs, and those soon die.",
            ),
        ),
        prunes(
            "prune",
            at(97, 0, 14, 45),
            what="twigs to one or two buds, and catkin buds off where twigs are wanted",
            because="Fat catkin buds make no shoot, and on the bare tree they are told from the "
            "slim leaf buds.",
            cautions=("Leave a short stub on thick wood: it dies back from every cut.",),
        ),
        wires(
            "wire",
            at(97, 0, 14, 50),
            because="Bare branches are seen best, though only the thinner ones still bend.",
            cautions=(
                FROZEN_WOOD_SNAPS,
                "Wood of two years and more cracks: bend it over weeks, wrapped.",
            ),
        ),
        checks_after(
            "stubs",
            ("pruned",),
            weeks(30, 52, 78),
            look_at="wounds",
            what="stubs, and cut them clean where living wood ends",
            because="A cut dies back to the next living bud, so the stub is cut clean only when it "
            "is seen how far.",
            only_after=is_hard_pruning,
            each_part=True,
        ),
        trims(
            "trim",
            at(19, 0, 8, 18),
            what="long shoots back to two or three leaves, the top hardest",
            because="Once the first leaves are hard a shortened shoot makes two; a weak one keeps "
            "its tip.",
        ),
        watches_for(
            "pests",
            at(10, 10, 24, 45),
            where="curled and pleated leaves, and dense bunches of twigs",
            because="Gall mites curl the ribs in spring, and a bunch of dwarfed twigs is a fungus "
            "broom to be cut out.",
        ),
    )
