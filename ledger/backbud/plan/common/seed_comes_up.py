"""Seed is looked at when it should come up, and what came up is pricked out."""

from __future__ import annotations

from datetime import timedelta

from backbud.plan.common.seasons import before_growth, coming, in_growth
from backbud.species import (
    CHANCE,
    PRESSING,
    Event,
    Proposal,
    Proposals,
    Schedule,
    Tree,
    Year,
    a_year_later,
    after,
    has_no_winter,
    weeks_after,
)
from backbud.tongue import phrase

# What came up late is left in its tray over the next winter; common practice, no source.
_TWO_MONTHS = timedelta(days=60)
_MIDSUMMER = (7, 1)


@after("sown", rule="seed-check")
def has_it_come_up(tree: Tree, done: Event, year: Year) -> Proposals:
    """Common practice, no source: sown in spring three to eight weeks, else not before the next;
    some seed lies over for a year."""
    warm = has_no_winter(year) or done.day < year.on(_MIDSUMMER)
    window = (
        weeks_after(done.day, 3, 5, 8)
        if warm and in_growth(done.day, year)
        else coming(year, done.day, (4, 1), (4, 25), (6, 1))
    )
    yield Proposal(
        "checked",
        window,
        what=phrase("for seedlings"),
        because=phrase("Seed comes up in the warmth of spring; some lies over for a year."),
        cautions=(phrase("Keep it moist, and mice and birds off it."),),
        settled_by=("germinated", "checked seedlings", "potted-on"),
        minutes=5,
        weight=PRESSING,
        schedule=Schedule(again=a_year_later(window)),
    )


@after("germinated", rule="prick-out")
def one_by_one(tree: Tree, done: Event, year: Year) -> Proposals:
    """Common practice, no source: in the last weeks of rest, after a season in the tray."""
    yield Proposal(
        "potted-on",
        before_growth(year, done.day + _TWO_MONTHS),
        what=phrase("the seedlings, each into a pot of its own, the long root shortened"),
        because=phrase("Crowded seedlings grow thin, and a root that was cut early branches."),
        weight=CHANCE,
    )
