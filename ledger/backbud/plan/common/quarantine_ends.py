"""A tree in quarantine is looked at and let out."""

from __future__ import annotations

from backbud.species import Event, Proposal, Proposals, Tree, Year, after, weeks_after


@after("quarantined", rule="quarantine-ends")
def look_and_let_out(tree: Tree, done: Event, year: Year) -> Proposals:
    yield Proposal(
        "released", weeks_after(done.day, 4, 6, 8), what="from quarantine",
        because="Most pests that came along show within a few weeks.",
        cautions=("Imported trees: the plant-health authority's terms decide.",),
    )
