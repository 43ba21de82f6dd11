"""A tree that went under cover for the winter comes out again in spring."""

from __future__ import annotations

from datetime import date, timedelta

from backbud.collection.places import is_winter_cover
from backbud.plan.common.seasons import coming, coming_turn, left_of
from backbud.plan.covers import cover_from
from backbud.species import (
    PRESSING,
    Event,
    Proposal,
    Proposals,
    Schedule,
    Tree,
    Window,
    Year,
    a_year_later,
    after,
    goes_out_from,
    held_in,
    summer_outside,
)
from backbud.tongue import phrase

# Warmed places hold growth that no frost may touch.
WARMED = ("heated glass", "indoors")
# Kept no warmer than this a tree rests as in an unheated place; ours, no source.
_RESTS_UNTIL_C = 3.0
# Nights that soft growth, and roots in a pot, still bear; common practice, no source.
WARMED_BEARS_C = 2.0
RESTING_BEARS_C = -3.0
# A tender tree that goes in later in the summer stays in; ours, no source.
_EARLY_SUMMER = timedelta(weeks=6)


@after("moved", rule="winter-quarters-out")
def out_in_spring(tree: Tree, done: Event, year: Year) -> Proposals:
    """Where it stood outside before: a tree that lives under glass stays there."""
    if not tree.outside or tree.outside == tree.place or not is_winter_cover(year.cover):
        return
    if year.on((4, 15)) < done.day < year.on((9, 1)):
        return
    yield _out(tree, *held_in(tree, *_when(done.day + timedelta(days=14), year), year))


@after(having=("cuts_roots",), rule="winter-quarters-out-rested")
def out_once_its_roots_have_rested(tree: Tree, done: Event, year: Year) -> Proposals:
    """What the way out could not know as it went in: its roots were cut there, and are not to meet
    such nights. Where both ask, this one stands for the other (give_way.py)."""
    if not tree.outside or tree.outside == tree.place or not is_winter_cover(year.cover):
        return
    window, datum = _when(done.day, year)
    held, why = held_in(tree, window, datum, year)
    if held.opens > window.opens:
        yield _out(tree, held, why, part="out")


def _out(tree: Tree, window: Window, datum: str, part: str = "") -> Proposal:
    return Proposal(
        "moved",
        window,
        what=phrase("out again, to {outside}", outside=tree.outside),
        to_place=tree.outside,
        datum=datum,
        because=phrase("Under cover it grows early and soft once the days are long."),
        cautions=(phrase("Choose a dull, mild day, and keep fleece at hand for late frost."),),
        early_days=365,
        bares=True,
        part=part,
        weight=PRESSING,
        schedule=Schedule(again=a_year_later(window)),
    )


def _when(day: date, year: Year) -> tuple[Window, str]:
    """When the nights let it out, or by months where nothing is known of them.

    The months are common practice, no source.
    """
    warmed = _is_warmed(year)
    for one in (year, year.following):
        summer = summer_outside(one)
        if summer is not None and summer.worth_it and day < summer.first + _EARLY_SUMMER:
            return left_of(day, goes_out_from(summer, year)), summer.because
    limit = WARMED_BEARS_C if warmed else RESTING_BEARS_C
    if year.comes_in_below_c is not None:
        limit = max(limit, year.comes_in_below_c)
    found = coming_turn(year, day, limit)
    if found is not None:
        return found
    months = ((5, 10), (5, 20), (6, 5)) if warmed else ((3, 10), (4, 5), (5, 10))
    return coming(year, day, *months), year.by_months


def _is_warmed(year: Year) -> bool:
    """Whether a heater keeps the place so warm that what stands in it grows."""
    if not year.cover.casefold().startswith(WARMED):
        return False
    least = cover_from(year.cover, year.figures).shift.least_c
    return least is None or least > _RESTS_UNTIL_C
