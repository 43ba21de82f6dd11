"""A tree whose anchor ties were found loose is tied again before it has roots that hold."""

from __future__ import annotations

from backbud.plan.looks import places_found
from backbud.species import CARE, Event, Proposal, Proposals, Tree, Year, after, days_after
from backbud.tongue import phrase


@after("checked", rule="ties-loose")
def tie_it_again(tree: Tree, done: Event, year: Year) -> Proposals:
    """Common practice, no source."""
    if not places_found(done, ("ties",), "loose", "broken") or not tree.on("tie"):
        return
    yield Proposal(
        "tied",
        days_after(done.day, 0, 2, 14),
        what=phrase("again, or hold the tree from outside"),
        because=phrase("A tree that rocks tears its new roots."),
        cautions=(phrase("Where the roots hold it by now, take the ties out instead."),),
        settled_by=("tied", "untied", "guyed", "repotted"),
        weight=CARE,
    )
