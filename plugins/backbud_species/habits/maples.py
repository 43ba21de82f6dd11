"""What maples with spreading crowns have in common. Figures: common practice."""

from __future__ import annotations

from datetime import date
from typing import ClassVar

from backbud.species import (
    CARE,
    COMMON_PRACTICE,
    Event,
    Fact,
    Proposal,
    Proposals,
    Rule,
    Species,
    Tree,
    Year,
    days_after,
    phrase,
)
from backbud_species.habits.broadleaves import BroadleafDeciduous
from backbud_species.habits.done import is_hard_pruning
from backbud_species.habits.rules import hung_after
from backbud_species.habits.times import bare_before_the_sap_rises
from backbud_species.habits.works import (
    altered,
    at,
    between,
    pinches,
    prunes,
    repots,
    trims,
    watches_for,
)
from backbud_species.habits.yearly import CUT_ROOTS_FREEZE


def _bleeds(species: Species, tree: Tree, done: Event, year: Year) -> Proposals:
    """A large cut made between midwinter and bud burst."""
    if is_hard_pruning(done) and sap_rises(done.day, year):
        yield Proposal(
            "checked",
            days_after(done.day, 1, 2, 10),
            what=phrase("wounds, for bleeding"),
            because=phrase(
                "A maple cut hard as the sap rises bleeds; keep it from frost until it stops."
            ),
            datum=phrase("It was cut on {day}, between midwinter and bud burst.", day=done.day),
            settled_by=("checked wounds",),
            weight=CARE,
        )


def sap_rises(day: date, year: Year) -> bool:
    """Whether a day lies between midwinter and the usual bud burst."""
    burst = year.stage(7)
    return burst is not None and year.on((1, 15)) <= day <= burst.day


class SpreadingMaple(BroadleafDeciduous):
    """A maple with paired buds, strongest at the top and outside, that bleeds when cut early."""

    root_share = Fact((0.5, 0.8), COMMON_PRACTICE)
    frost_limit_c = Fact(-5.0, COMMON_PRACTICE)
    why_frost = "Its roots are fleshy and burst when the pot freezes through."
    bark = Fact(
        "Its bark is thin and green: wire marks it within weeks and the marks stay for years.",
        COMMON_PRACTICE,
    )
    wire_check_weeks = Fact((3, 4, 6), COMMON_PRACTICE)
    never: ClassVar[tuple[str, ...]] = (
        *BroadleafDeciduous.never,
        "Never make large cuts while the sap rises: the wound bleeds.",
    )
    works: ClassVar[tuple[Rule, ...]] = altered(
        BroadleafDeciduous.works,
        *repots(
            "repot",
            between(1, 7),
            because="As the buds swell roots regrow fastest, and no leaf has opened yet that would "
            "want their water.",
            cautions=(CUT_ROOTS_FREEZE,),
        ),
        pinches(
            "pinch",
            at(10, 0, 5, 18),
            what="the strong tips to one pair of leaves",
            because="It grows strongest at the top and the outside, so those tips are stopped as "
            "they unfold; weak inner shoots are left to run.",
        ),
        trims(
            "trim",
            at(19, -5, 3, 14),
            what="long shoots to one or two pairs, from the top down",
            because="Once the first leaves are hard the shoots have fed the tree, and each pair of "
            "buds left makes two finer twigs.",
        ),
        watches_for(
            "pests",
            at(10, 7, 18, 35),
            where="soft tips and undersides of the leaves",
            because="Aphids sit on the soft tips, and mildew follows where leaves stand close.",
        ),
        prunes(
            "prune",
            bare_before_the_sap_rises(),
            what="twigs: what crosses, doubles or outgrows the outline",
            because="From colour to three weeks after leaf fall the twigs are seen and wounds stay "
            "dry; by midwinter the sap runs, and a cut bleeds.",
        ),
        hung_after("bleeding", ("pruned",), _bleeds),
    )
