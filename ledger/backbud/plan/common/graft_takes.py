"""A graft is looked at when it should have taken."""

from __future__ import annotations

from backbud.species import Event, Proposal, Proposals, Tree, Year, after, weeks_after


@after("grafted", rule="graft-check")
def has_it_taken(tree: Tree, done: Event, year: Year) -> Proposals:
    yield Proposal(
        "checked", weeks_after(done.day, 6, 8, 10), what="graft",
        because="A graft shows in six to ten weeks whether it has taken.",
        settled_by=("checked graft", "separated"), minutes=5,
    )
