"""The care of a kurume azalea, which flowers at every tip a month before the satsuki.

Unless a rule says otherwise, its figures are common practice, no source.
"""

from __future__ import annotations

from typing import ClassVar

from backbud.species import COMMON_PRACTICE, FROM_MEMORY, Fact, Rule, StageMonths
from backbud_species.habits.blossom import spares_flowers
from backbud_species.habits.done import is_hard_pruning
from backbud_species.habits.flowering import LateFloweringEvergreen
from backbud_species.habits.glass import comes_out_of_glass, goes_under_glass
from backbud_species.habits.works import (
    LEAF_WORK,
    altered,
    at,
    between,
    by_warmth,
    checks_after,
    deadheads,
    repots,
    trims,
    watches_for,
    weeks,
    wires,
    work,
)

_GEORGIA = "University of Georgia Extension, Azalea growing tips, May 2023"
_GALLS = "University of Georgia, Leaf galls on azalea"
_ROOTS = "Journal of the American Rhododendron Society 37(4), Root hardiness, 1983"
_CAROLINA = "North Carolina State University, Poisonous Plants: Rhododendron spp."


class KurumeAzalea(LateFloweringEvergreen):
    """The small-leaved azalea of Kyushu that hides itself in flowers a month before the satsuki."""

    rule_prefix = "kurume"
    botanical = "Rhododendron Kurume Group"
    common = ("kurume azalea", "kurume")
    also = (
        "Azalea Kurume Group",
        "Rhododendron kiusianum",
        "Rhododendron kiusianum hybrids",
        "Rhododendron × obtusum",
        "Rhododendron obtusum",
        "Rhododendron sataense",
        "Kyushu azalea",
        "kurume tsutsuji",
        "kirishima tsutsuji",
        "miyama kirishima",
    )
    habit = (
        "A dense small-leaved evergreen hidden by flowers in late spring, strongest at the base."
    )
    # The RHS list itself was not at hand. R. kiusianum may drop most of its leaves in winter.
    hardiness = Fact("H5", FROM_MEMORY)
    # Of Hino Crimson; Hinodegiri bore down to -12.2 °C.
    young_frost_limit_c = Fact(-7.2, _ROOTS)
    soil_ph = Fact((4.5, 6.0), FROM_MEMORY)
    root_share = Fact((0.5, 0.8), COMMON_PRACTICE)
    light = Fact(
        "Sun in the morning, light shade from noon; more sun than satsuki.", COMMON_PRACTICE
    )
    bark = Fact("Thin bark on brittle wood: forks tear, so bend little by little.", COMMON_PRACTICE)
    toxicity = Fact("All parts are highly poisonous if eaten.", _CAROLINA)
    girth_growth_mm = Fact(3.0, FROM_MEMORY)
    # For a cool temperate place; from memory. It flowers a month before satsuki, with or before
    # its spring leaves.
    stage_months: ClassVar[StageMonths] = {
        1: ((3, 5), (3, 21), (4, 6)),
        7: ((3, 26), (4, 10), (4, 25)),
        10: ((4, 8), (4, 23), (5, 7)),
        60: ((4, 20), (5, 3), (5, 16)),
        65: ((4, 28), (5, 11), (5, 24)),
        69: ((5, 10), (5, 23), (6, 5)),
        91: ((9, 1), (9, 18), (10, 8)),
    }
    advice = (
        "Rain or soft water, and never a dry root ball: it does not take water again easily.",
        "Keep open flowers from rain and late frost, and they last two weeks longer.",
        "Keep children and animals from eating any part of it.",
    )
    never = (
        f"Never prune after midsummer: flower buds form on the new tips ({_GEORGIA}).",
        *LateFloweringEvergreen.never[1:],
        "Never rake its roots with metal: they are as fine as hair.",
    )
    sources: ClassVar[dict[str, str]] = {"trim": _GEORGIA, "new-buds": _GEORGIA, "gall": _GALLS}
    works: ClassVar[tuple[Rule, ...]] = altered(
        LateFloweringEvergreen.works,
        *repots(
            "repot",
            between(1, 7),
            because="Its hair-fine roots regrow fast as growth begins, some wedges of the ball at "
            "a time.",
            cautions=(
                "Open the ball with a wooden stick: a metal hook tears fine roots.",
                "Soak fresh kanuma until water runs from below: dry grains draw the roots dry.",
            ),
        ),
        spares_flowers(
            "disbud",
            at(60, -35, -14, -1),
            what="half of the flower buds, most at the top",
            because="It flowers at every tip, and the slow top gains what its flowers would cost.",
        ),
        deadheads(
            "deadhead",
            at(69, 0, 4, 12),
            what="spent flowers with the ovary",
            because="There are hundreds, and each left would set seed instead of shoots.",
            cautions=("Slimy brown petals are petal blight: take them away from the bench.",),
        ),
        trims(
            "trim",
            at(69, 3, 12, 24),
            what="long shoots into the outline, low ones first, the top lightly",
            because="Next year's flower buds form on the tips in summer "
            f"({_GEORGIA}), so it is cut right after flowering and then left.",
        ),
        work(
            "thin",
            "thinned",
            at(69, 8, 20, 30),
            what="shoots from one point to two, upright and hanging ones first",
            because="It makes four or five shoots at each tip, and those below die without light.",
            gate=LEAF_WORK,
        ),
        work(
            "trunk-buds",
            "rubbed",
            at(69, 10, 20, 45),
            what="buds on trunk and base where no branch is wanted",
            because="It grows strongest at the base, and shoots there starve the top.",
        ),
        checks_after(
            "new-buds",
            ("pruned",),
            weeks(6, 8, 10),
            once_it_grows=True,
            look_at="buds",
            what="buds on the old wood",
            because="A healthy azalea answers a hard cut with many shoots from old wood "
            f"({_GEORGIA}).",
            only_after=is_hard_pruning,
            each_part=True,
        ),
        wires(
            "wire",
            by_warmth((2, 10), (3, 5), (3, 28)),
            because="Before growth the soil can be kept on the dry side, and drier wood bends "
            "further.",
            cautions=("Branches tear at the fork: hold both sides of the bend.",),
        ),
        goes_under_glass("glass"),
        comes_out_of_glass("glass-out"),
        watches_for(
            "gall",
            at(10, 0, 14, 35),
            where="thick pale swollen leaves and buds",
            because=f"Leaf gall swells expanding leaves in wet cool springs ({_GALLS}).",
            cautions=("Pick them off before they turn white.",),
        ),
    )
