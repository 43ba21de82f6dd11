"""A tree whose pot was found broken is slipped into another, its root ball as it is."""

from __future__ import annotations

from backbud.plan.common.seasons import before_growth
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


@after("checked", rule="pot-broken")
def another_pot(tree: Tree, done: Event, year: Year) -> Proposals:
    """Common practice, no source."""
    if tree.planted_out or not places_found(done, ("pot",), "broken", "cracked", "damaged"):
        return
    window = days_after(done.day, 0, 7, 28)
    yield Proposal(
        "slipped",
        window,
        what=phrase("into another pot, the root ball unbroken"),
        because=phrase("A cracked pot dries out on one side, and frost bursts it."),
        cautions=(phrase("While the root ball is frozen, only bind the pot."),),
        settled_by=("slipped", "repotted", "potted-on", "planted-out"),
        weight=PRESSING,
        schedule=Schedule(again=before_growth(year, window.closes)),
    )
