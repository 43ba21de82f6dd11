"""A cutting is looked at when it should have rooted."""

from __future__ import annotations

from backbud.plan.common.seasons import coming, in_growth
from backbud.species import (
    PRESSING,
    Event,
    Proposal,
    Proposals,
    Schedule,
    Tree,
    Year,
    a_year_later,
    after,
    weeks_after,
)
from backbud.tongue import phrase


@after("struck", rule="cutting-check")
def have_cuttings_rooted(tree: Tree, done: Event, year: Year) -> Proposals:
    """Common practice, no source: in growth two to three months, in winter not before spring."""
    growing = in_growth(done.day, year)
    window = (
        weeks_after(done.day, 8, 10, 13)
        if growing
        else coming(year, done.day, (5, 1), (5, 20), (6, 20))
    )
    yield Proposal(
        "checked",
        window,
        what="roots",
        because=phrase("A cutting roots in two to three months of growth."),
        cautions=(phrase("Look at the holes of the pot and pull at nothing."),),
        settled_by=("checked roots", "potted-on", "repotted"),
        minutes=5,
        weight=PRESSING,
        schedule=Schedule(again=a_year_later(window)),
    )
