"""The care of a trident maple, whose strong top is stopped and whose wire bites within a month.

Unless a rule says otherwise, its figures are common practice, no source.
"""

from __future__ import annotations

from typing import ClassVar

from backbud.species import COMMON_PRACTICE, FROM_MEMORY, PRESSING, Fact, Rule, StageMonths
from backbud_species.habits.flushes import trims_again
from backbud_species.habits.maples import SpreadingMaple
from backbud_species.habits.strength import by_strength, left_to_grow
from backbud_species.habits.works import (
    PART_DEFOLIATION,
    Way,
    altered,
    at,
    balances,
    between,
    by_warmth,
    defoliates,
    feeds,
    looks_for_new_leaves,
    pinches,
    repots,
    seals_cuts,
    trims,
    watches_for,
    weeks,
    wires,
)
from backbud_species.habits.yearly import CUT_ROOTS_FREEZE, FROZEN_WOOD_SNAPS


class TridentMaple(SpreadingMaple):
    """A vigorous maple, strongest at the top, quick to heal and to thicken."""

    rule_prefix = "trident"
    botanical = "Acer buergerianum"
    common = ("trident maple",)
    also = ("Acer trifidum", "Acer buergeranum", "three-toothed maple")
    habit = "A vigorous tree of paired twigs, strongest at the top and the outside."
    # Another plant list gives H6 to H7; the RHS list itself was not at hand.
    rests_under_c = Fact(18.0, COMMON_PRACTICE)
    hardiness = Fact("H6", FROM_MEMORY)
    soil_ph = Fact((5.0, 7.0), "Michigan State University Extension, Trident maple, 2016")
    # Nobody has yet told apart its years for a young and for an old tree.
    repot_interval = None
    root_share = Fact((0.6, 1.0), COMMON_PRACTICE)
    bark = Fact("It thickens so fast that wire bites within a month.", COMMON_PRACTICE)
    toxicity = Fact("Not known to harm people; keep maple seed away from horses.", FROM_MEMORY)
    advice = (
        "Water well while it is in leaf: a strong maple drinks more than once on a hot day.",
        "Full sun, but shade from noon in the hottest weeks.",
        "Cut shoots back to one or two pairs of leaves, the top most.",
        "Its roots are fleshy: keep the pot from freezing through.",
    )
    never = (
        *SpreadingMaple.never,
        "Never leave wire on over a summer unchecked.",
    )
    # For a cool temperate place; from memory. 19: first leaves full size and hardened.
    stage_months: ClassVar[StageMonths] = {
        1: ((2, 25), (3, 12), (3, 28)),
        7: ((3, 14), (3, 28), (4, 12)),
        10: ((3, 24), (4, 6), (4, 20)),
        19: ((5, 18), (6, 1), (6, 15)),
        91: ((8, 25), (9, 12), (10, 1)),
        93: ((10, 15), (11, 1), (11, 18)),
        97: ((11, 10), (11, 25), (12, 12)),
    }
    works: ClassVar[tuple[Rule, ...]] = altered(
        SpreadingMaple.works,
        *repots(
            "repot",
            between(1, 7),
            because="It is repotted as the buds swell and before the first leaf opens; it bears "
            "hard root work and soon fills a pot.",
            cautions=(CUT_ROOTS_FREEZE,),
        ),
        pinches(
            "pinch",
            at(10, 0, 5, 18),
            what="the strong tips to one pair of leaves",
            because="It grows strongest at the top and the outside, so those tips go back to the "
            "first pair as they unfold; weak inner shoots are left to run.",
        ),
        balances("balance", at(19, -5, 3, 14)),
        by_strength(
            trims(
                "trim",
                at(19, -5, 3, 14),
                what="long shoots to one or two pairs, from the top down",
                because="Shoots that made five or six pairs go back to one or two once the leaves "
                "are hard, the top hardest.",
            ),
            weak=left_to_grow(
                "trim",
                at(19, 0, 14, 28),
                because="A weak maple keeps every leaf until it grows again.",
            ),
        ),
        trims_again(
            "trim-late",
            by_warmth((7, 20), (8, 5), (8, 25)),
            what="the second flush to one or two pairs",
            because="The second flush is shortened before the end of summer, so that what follows "
            "still ripens.",
        ),
        defoliates(
            "defoliate",
            at(19, 0, 7, 14),
            full=Way(
                "fully, the stalks left on",
                "A strong trident in a warm place is stripped once its leaves are hard and answers "
                "with finer twigs and smaller leaves.",
            ),
            part=Way(
                "in part: large and outer leaves",
                "Large and outer leaves come off so that light reaches the inner twigs; the rest "
                "stay, since a full stripping needs a strong tree and a warm summer.",
            ),
            gate=PART_DEFOLIATION,
        ),
        looks_for_new_leaves(
            "new-leaves",
            days=weeks(3, 4, 5),
            because="New leaves stand about four weeks after a stripping; until then it drinks "
            "little and burns easily.",
            settled_by=("checked strength",),
            weight=PRESSING,
        ),
        seals_cuts(
            "seal",
            because="A sealed cut rolls over evenly and a maple closes it within a few years.",
        ),
        wires(
            "wire",
            at(97, 0, 14, 35),
            because="Bare branches are seen and wired best; the wire comes off again in spring, "
            "for a trident thickens fast.",
            cautions=(FROZEN_WOOD_SNAPS,),
        ),
        feeds(
            "feed",
            at(19, 0, 7, 21),
            because="A finished tree is fed once the first leaves are hard; one that must thicken "
            "is fed from the first leaf.",
        ),
        watches_for(
            "pests",
            by_warmth((4, 25), (5, 10), (5, 31)),
            where="soft tips and leaves",
            because="Aphids sit on the soft tips, and mildew follows where leaves stand close.",
        ),
    )
