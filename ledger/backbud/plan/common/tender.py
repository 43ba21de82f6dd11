"""A tree that bears no cold goes in before the nights turn cold."""

from __future__ import annotations

from datetime import date

from backbud.climate.degrees import degrees
from backbud.collection.places import is_warm_cover
from backbud.plan.common.seasons import left_of
from backbud.species import (
    Proposal,
    Proposals,
    Schedule,
    Season,
    Tree,
    Weight,
    Window,
    Year,
    comes_in,
    each,
    joined,
    summer_outside,
)
from backbud.tongue import phrase

# A tree that was not brought in is in danger all winter.
_COMES_IN = Weight("life", must=True, once_past="grows")


@each("autumn", rule="tender-in")
def in_before_cold_nights(tree: Tree, season: Season, year: Year) -> Proposals:
    """By the usual night of the place; by months where nothing is known of them, or where nights
    are so cold that it lives outside for the warm days alone."""
    limit = year.comes_in_below_c
    if limit is None or is_warm_cover(year.cover):
        return
    tender = phrase("It comes in once nights are usually under {degrees}.", degrees=degrees(limit))
    if year.outlook is None:
        window = _as_it_came(tree, year.months((9, 1), (9, 15), (10, 15)))
        yield _inside(window, f"{year.no_weather} {tender}", None)
        return
    found = comes_in(year)
    if found is not None:
        window, why = found
        yield _inside(_as_it_came(tree, window), joined(f"{why} {tender}", why), _mild_again(year))


def _as_it_came(tree: Tree, window: Window) -> Window:
    """The window; of a tree that came after it a fortnight from the day it did, which nobody was
    late for."""
    came = tree.standing_since
    return left_of(came, window) if came is not None and window.closes < came else window


def _mild_again(year: Year) -> date | None:
    """When the nights of the next spring let it out; None where no summer is worth the move."""
    summer = summer_outside(year.following)
    return summer.first if summer is not None and summer.worth_it else None


def _inside(window: Window, datum: str, over: date | None) -> Proposal:
    """`over`: the day from which it may stand outside again."""
    return Proposal(
        "moved",
        window,
        what=phrase("in, to a warm and light place"),
        because=phrase("Cold nights stop its roots and drop its leaves."),
        datum=datum,
        cautions=(
            phrase("If a night near frost is forecast, take it in for that night already."),
            phrase("Look it over for pests before it joins what stands inside."),
        ),
        settled_by=("moved",),
        covers="warm",
        part="in",
        weight=_COMES_IN,
        schedule=Schedule(
            after=phrase("Each colder night costs it leaves, then twigs, then the tree."), over=over
        ),
    )
