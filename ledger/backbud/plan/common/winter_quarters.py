"""A tree that went under cover for the winter comes out again in spring."""

from __future__ import annotations

from datetime import timedelta

from backbud.collection.places import is_winter_cover
from backbud.plan.common.seasons import coming
from backbud.species import Event, Proposal, Proposals, Tree, Year, after

# Warmed places hold growth that no frost may touch.
WARMED = ("heated glass", "indoors")


@after("moved", rule="winter-quarters-out")
def out_in_spring(tree: Tree, done: Event, year: Year) -> Proposals:
    """Where it stood outside before: a tree that lives under glass stays there.

    Common practice, no source.
    """
    if not tree.outside or tree.outside == tree.place or not is_winter_cover(year.cover):
        return
    if year.on((4, 15)) < done.day < year.on((9, 1)):
        return
    warmed = year.cover.casefold().startswith(WARMED)
    months = ((5, 10), (5, 20), (6, 5)) if warmed else ((3, 10), (4, 5), (5, 10))
    yield Proposal(
        "moved",
        coming(year, done.day + timedelta(days=14), *months),
        what=f"out again, to {tree.outside}",
        datum=year.by_months,
        because="Under cover it grows early and soft once the days are long.",
        cautions=("Choose a dull, mild day, and keep fleece at hand for late frost.",),
        early_days=365,
    )
