"""A layer is looked at when it should have rooted."""

from __future__ import annotations

from backbud.plan.common.parts import on_part
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
    parts_of,
    weeks_after,
)
from backbud.tongue import phrase


@after("layered", rule="layer-check")
def has_the_layer_rooted(tree: Tree, done: Event, year: Year) -> Proposals:
    """Common practice, no source."""
    window = weeks_after(done.day, 8, 10, 14)
    for part in parts_of(done):
        yield Proposal(
            "checked",
            window,
            what=on_part("layer", part),
            part=part,
            because=phrase("A layer begun in growth roots in two to three months."),
            cautions=(phrase("Keep the moss wet; look through the wrapping before opening it."),),
            settled_by=("checked layer", "separated"),
            minutes=5,
            weight=PRESSING,
            schedule=Schedule(again=a_year_later(window)),
        )
