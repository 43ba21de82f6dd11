"""A tree that stood among others, at a show or on loan, is looked over before it joins its own."""

from __future__ import annotations

from backbud.species import CARE, Event, Proposal, Proposals, Tree, Year, after, days_after
from backbud.tongue import phrase


@after("shown", "returned", rule="back-from-show")
def look_over_what_came_back(tree: Tree, done: Event, year: Year) -> Proposals:
    """Nothing of a tree that went home. Common practice, no source."""
    if not tree.here:
        return
    yield Proposal(
        "checked",
        days_after(done.day, 0, 2, 14),
        what=phrase("for pests that came along"),
        because=phrase("What came in with it spreads from bench to bench."),
        settled_by=("checked pests", "quarantined", "treated"),
        minutes=5,
        weight=CARE,
    )
