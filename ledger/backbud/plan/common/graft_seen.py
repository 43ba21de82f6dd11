"""A graft that was found to have taken is freed of its binding by steps; a dead one is cut away."""

from __future__ import annotations

from backbud.plan.common.parts import on_part
from backbud.plan.common.seasons import before_growth, in_growth
from backbud.plan.looks import places_found
from backbud.species import (
    CARE,
    PRESSING,
    Event,
    Proposal,
    Proposals,
    Tree,
    Year,
    after,
    days_after,
    weeks_after,
)
from backbud.tongue import phrase


@after("checked", rule="graft-taken")
def loosen_its_binding(tree: Tree, done: Event, year: Year) -> Proposals:
    """Nothing thickens at rest. Common practice, no source."""
    if done.has("again") or not tree.on("graft"):
        return
    for part in places_found(done, ("graft",), "taken"):
        yield Proposal(
            "checked",
            weeks_after(done.day, 3, 4, 6)
            if in_growth(done.day, year)
            else before_growth(year, done.day),
            what=on_part(phrase("graft"), part),
            part=part,
            because=phrase("What has taken thickens, and its binding cuts in."),
            cautions=(phrase("Slit the binding, and cut what feeds it from outside by steps."),),
            settled_by=("checked graft", "separated", "unwrapped"),
            minutes=5,
            weight=PRESSING,
        )


@after("checked", rule="graft-failed")
def cut_it_away(tree: Tree, done: Event, year: Year) -> Proposals:
    """Common practice, no source."""
    if not tree.on("graft"):
        return
    for part in places_found(done, ("graft",), "not taken", "dead"):
        yield Proposal(
            "sealed",
            days_after(done.day, 0, 7, 28),
            what=phrase(
                "{what}, dead wood and binding off first",
                what=on_part(phrase("the place of the graft"), part),
            ),
            part=part,
            because=phrase("It was found not to have taken."),
            settled_by=("sealed", "grafted", "pruned", "separated"),
            weight=CARE,
        )
