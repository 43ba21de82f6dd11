"""A tree whose anchor ties were found loose is tied again before it has roots that hold."""

from __future__ import annotations

from backbud.plan.common.seasons import before_growth
from backbud.plan.common.still_there import is_there
from backbud.plan.looks import places_found
from backbud.species import (
    PRESSING,
    Event,
    Proposal,
    Proposals,
    Schedule,
    Tree,
    Year,
    after,
    days_after,
)
from backbud.tongue import phrase


@after("checked", rule="ties-loose")
def tie_it_again(tree: Tree, done: Event, year: Year) -> Proposals:
    """Common practice, no source."""
    found = places_found(done, ("ties",), "loose", "broken")
    if not found or not is_there(tree, "tie", done.day, "untied"):
        return
    window = days_after(done.day, 0, 2, 14)
    yield Proposal(
        "tied",
        window,
        what=phrase("again, or hold the tree from outside"),
        because=phrase("A tree that rocks tears its new roots."),
        cautions=(phrase("Where the roots hold it by now, take the ties out instead."),),
        settled_by=("tied", "untied", "guyed", "repotted"),
        weight=PRESSING,
        schedule=Schedule(again=before_growth(year, window.closes)),
    )
