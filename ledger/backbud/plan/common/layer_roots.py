"""A layer is looked at when it should have rooted."""

from __future__ import annotations

from backbud.plan.common.parts import on_part
from backbud.species import (
    STAYS_ON,
    Event,
    Proposal,
    Proposals,
    Tree,
    Year,
    after,
    parts_of,
    weeks_after,
)


@after("layered", rule="layer-check")
def has_it_rooted(tree: Tree, done: Event, year: Year) -> Proposals:
    """Common practice, no source."""
    for part in parts_of(done):
        yield Proposal(
            "checked",
            weeks_after(done.day, 8, 10, 14),
            what=on_part("layer", part),
            part=part,
            because="A layer begun in growth roots in two to three months.",
            cautions=("Keep the moss wet; look through the wrapping before opening it.",),
            settled_by=("checked layer", "separated"),
            minutes=5,
            weight=STAYS_ON,
        )
