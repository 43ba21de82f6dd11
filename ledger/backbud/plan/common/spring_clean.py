"""Before growth begins the pots outdoors are cleaned once, all in the same days."""

from __future__ import annotations

from datetime import timedelta

from backbud.plan.common.outdoors import growth_begins, lives_outdoors, usually_over, warms_to
from backbud.species import (
    ROUTINE,
    Proposal,
    Proposals,
    Season,
    Tree,
    Window,
    Year,
    each,
)
from backbud.tongue import phrase

# From such a mean of the day on weeds grow and buds stir; ours, no source.
STIRS_C = 5.0
_A_WEEK, _THREE_WEEKS, _A_SEASON = timedelta(weeks=1), timedelta(weeks=3), timedelta(weeks=13)


@each("year", rule="spring-clean", as_it_stands=True)
def before_growth_begins(tree: Tree, season: Season, year: Year) -> Proposals:
    """By the warmth of the place and not by the stage of a tree, so that one round does for all;
    not where growth never begins.
    Common practice, no source."""
    if not lives_outdoors(tree, year) or not growth_begins(year):
        return
    window, datum = _when(year)
    # New soil is clean. Nothing else that puts off a repotting puts this off.
    if any(tree.done_since(window.opens - _A_SEASON, act) for act in ("repotted", "top-dressed")):
        return
    yield Proposal(
        "cleaned",
        window,
        what=phrase("surface and pot, before growth begins"),
        because=phrase(
            "Old leaves, weeds and moss on the bark keep it wet, and feed and hide what eats the "
            "young leaves."
        ),
        datum=datum,
        cautions=(
            phrase("Look under the pot for slugs and their eggs."),
            phrase("Moss that the roots of a tree have grown into stays where it is."),
        ),
        settled_by=(
            "cleaned soil surface", "cleaned moss off", "cleaned moss off trunk", "cleaned pot",
            "cleaned pots", "cleaned nebari", "cleaned trunk", "weeded",
        ),
        weight=ROUTINE,
    )  # fmt: skip


def _when(year: Year) -> tuple[Window, str]:
    warm = warms_to(year, STIRS_C)
    if warm is None:
        # No winter week is so cold, or nothing is known: common practice, no source.
        by = year.by_months if year.outlook is not None else year.no_weather
        return year.months((2, 1), (2, 15), (3, 10)), by
    window = year.rounded(Window(warm - _A_WEEK, warm, warm + _THREE_WEEKS))
    return window, usually_over(STIRS_C, warm)
