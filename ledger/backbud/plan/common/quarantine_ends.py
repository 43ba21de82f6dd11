"""A tree in quarantine is looked at and let out."""

from __future__ import annotations

from backbud.plan.windows import window_until
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


@after("quarantined", rule="quarantine-ends")
def look_and_let_out(tree: Tree, done: Event, year: Year) -> Proposals:
    """On the day that was written, or, common practice, no source, after four to eight weeks."""
    window = window_until(done, year.southern) or weeks_after(done.day, 4, 6, 8)
    yield Proposal(
        "released",
        window,
        what="from quarantine",
        because="Most pests that came along show within a few weeks.",
        cautions=("Imported trees: the plant-health authority's terms decide.",),
        weight=PRESSING,
        schedule=Schedule(again=a_year_later(window)),
    )
