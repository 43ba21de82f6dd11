"""What camellias have in common: one flush, flower buds at its tips, and acid soil.

Figures: common practice.
"""

from __future__ import annotations

from typing import ClassVar

from backbud.species import COMMON_PRACTICE, FROM_MEMORY, Fact, Judge, RepotInterval, Rule
from backbud_species.habits.broadleaves import BroadleafEvergreen
from backbud_species.habits.done import is_hard_pruning
from backbud_species.habits.flowers import renews_before_the_flush
from backbud_species.habits.for_a_show import thins_for_show
from backbud_species.habits.heat import shades_in_heat
from backbud_species.habits.judges import hard_before_winter, never_stripped
from backbud_species.habits.new_roots import NEW_ROOTS
from backbud_species.habits.vine_weevils import (
    WEEVIL_GRUBS,
    WEEVIL_GRUBS_IN_SPRING,
    WEEVIL_SOURCES,
)
from backbud_species.habits.works import (
    altered,
    at,
    balances,
    between,
    by_warmth,
    checks_after,
    disbuds,
    feeds,
    protects_leaves,
    repots,
    watches_for,
    weeks,
    wires,
    without,
)

_USDA = "United States Department of Agriculture, Home and Garden Bulletin 86: camellias"


class Camellia(BroadleafEvergreen):
    """A glossy evergreen that makes one flush and ends it, by midsummer, in flower buds."""

    rests_under_c: ClassVar[Fact[float] | None] = Fact(18.0, COMMON_PRACTICE)
    judges: ClassVar[tuple[Judge, ...]] = (hard_before_winter, never_stripped)
    # Of camellias as a genus.
    soil_ph = Fact(
        (4.5, 5.5),
        "Desired pH Ranges and Salt Tolerance of Common Nursery Plants, revised 9 September 2010",
    )
    usual_mix = Fact("kanuma 2, akadama 1", COMMON_PRACTICE)
    repot_years = Fact((2, 3, 5), COMMON_PRACTICE)
    repot_interval = Fact(RepotInterval((2, 2, 3), (3, 4, 6)), COMMON_PRACTICE)
    root_share = Fact((0.3, 0.5), COMMON_PRACTICE)
    frost_limit_c = Fact(-5.0, FROM_MEMORY)
    # Some were dead then.
    young_frost_limit_c = Fact(-4.4, "Gouin, Bay Weekly, Freezing to death")
    why_frost = "Its young roots die in frost that its leaves and wood still bear."
    light = Fact("Sun and shade by turns in summer, and shade and no wind in winter.", _USDA)
    water = Fact("Rain or soft water, and never dry while buds swell.", COMMON_PRACTICE)
    bark = Fact("Smooth pale bark that keeps every mark, on brittle wood.", COMMON_PRACTICE)
    toxicity = Fact("Not known to harm people or pets.", FROM_MEMORY)
    wire_check_weeks = Fact((5, 8, 12), COMMON_PRACTICE)
    girth_growth_mm = Fact(4.0, FROM_MEMORY)
    advice: ClassVar[tuple[str, ...]] = (
        "Never let it dry out from midsummer on: dry roots then drop the flower buds months later.",
        "Rain or soft water: lime turns its leaves yellow.",
        "Do not turn or move it once the buds show colour: they drop.",
        "A hard cut has its time in spring, before the flush, best in a year without flowers.",
    )
    never: ClassVar[tuple[str, ...]] = (
        "Never prune after midsummer: the flower buds stand at the tips by then.",
        "Never give it lime.",
        "Never let morning sun fall on frozen flowers.",
        "Never take the leaves off: it makes one flush a year.",
    )
    sources: ClassVar[dict[str, str]] = {
        **WEEVIL_SOURCES,
    }
    works: ClassVar[tuple[Rule, ...]] = altered(
        without(BroadleafEvergreen.works, "trim-late", "pests"),
        NEW_ROOTS,
        protects_leaves(
            "late-frost",
            10,
            because="Its one flush of the year is soft for weeks, and frost takes all of it.",
        ),
        shades_in_heat(
            "shade",
            because="Hot sun scorches its leaves, and the flower buds of a dry hot pot drop later.",
        ),
        thins_for_show(
            "show",
            what="flower buds to one at each tip, the plumpest that points outwards",
            because="Buds thinned in time open large and together, and none pushes another off.",
        ),
        WEEVIL_GRUBS,
        WEEVIL_GRUBS_IN_SPRING,
        *repots(
            "repot",
            between(1, 7),
            because="After its flowers and before its one flush, cut roots regrow at once.",
            cautions=("Soak fresh kanuma well: dry grains draw water out of fine roots.",),
        ),
        balances("balance", at(1, -14, 0, 14)),
        renews_before_the_flush(
            "renew",
            at(7, -28, -14, 0),
            because="Cut before its one flush, bare wood has all spring to answer, and without its "
            "flowers the tree has the strength for it.",
            cautions=("Leave a green twig on each branch.", "No root work in the same year."),
        ),
        disbuds(
            "disbud",
            by_warmth((8, 15), (9, 8), (10, 10)),
            what="round flower buds to one at each tip, none on weak twigs or a weak tree",
            because="It sets more buds than it can open, and crowded ones drop, while the slim "
            "leaf bud beside them makes next year's shoot.",
        ),
        feeds(
            "feed",
            at(10, 14, 28, 50),
            what="without lime",
            because="Its one flush makes both leaves and flower buds within ten weeks.",
        ),
        feeds(
            "feed-autumn",
            by_warmth((9, 1), (9, 15), (10, 5)),
            what="weakly, with little nitrogen and no lime",
            because="Late nitrogen drops the buds, and a little potash ripens the shoots.",
        ),
        wires(
            "wire",
            at(19, 0, 14, 42),
            because="Shoots that have just hardened still bend, and in winter its wood snaps.",
            cautions=("Pad the wire, and mind the buds at the tips.",),
        ),
        checks_after(
            "bare-wood-buds",
            ("pruned",),
            weeks(6, 10, 16),
            look_at="buds",
            what="buds on the bare wood",
            because="A healthy camellia shoots even from a stump, slowly, and flowers again two "
            "years later.",
            only_after=is_hard_pruning,
            each_part=True,
        ),
        watches_for(
            "scale",
            by_warmth((6, 1), (6, 25), (7, 31)),
            where="undersides of the leaves, for white threads and scale, and notched edges",
            because="Scale lays its white eggs in early summer, mould grows on what it drops, and "
            "vine weevils notch the edges and lay their eggs in the pot.",
            cautions=(
                "Hairs of the tea tussock caterpillar burn the skin: look before you touch.",
            ),
        ),
    )
