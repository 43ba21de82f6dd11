"""A surface that was found hard is opened, so that water goes in."""

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


@after("checked", rule="hard-surface")
def open_it(tree: Tree, done: Event, year: Year) -> Proposals:
    """Common practice, no source."""
    if not places_found(done, ("soil", "surface"), "hard"):
        return
    window = days_after(done.day, 0, 7, 28)
    yield Proposal(
        "opened",
        window,
        what=phrase("the hard surface"),
        because=phrase("Water runs off it, and the roots below stay dry."),
        settled_by=("opened", "top-dressed", "repotted", "root-pruned"),
        weight=PRESSING,
        schedule=Schedule(again=before_growth(year, window.closes)),
    )
