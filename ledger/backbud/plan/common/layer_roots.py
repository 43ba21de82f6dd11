"""A layer is looked at when it should have rooted."""

from __future__ import annotations

from backbud.species import Event, Proposal, Proposals, Tree, Year, after, weeks_after


@after("layered", rule="layer-check")
def has_it_rooted(tree: Tree, done: Event, year: Year) -> Proposals:
    yield Proposal(
        "checked", weeks_after(done.day, 8, 10, 14), what="layer",
        because="A layer begun in growth roots in two to three months.",
        cautions=("Keep the moss wet; look through the wrapping before opening it.",),
        settled_by=("checked layer", "separated"), minutes=5,
    )
