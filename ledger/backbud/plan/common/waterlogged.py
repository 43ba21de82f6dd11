"""Where a look found that water stands, the holes and the roots are looked at; where soil is wet,
it is looked at again."""

from __future__ import annotations

from backbud.plan.looks import looks_found
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
)
from backbud.tongue import phrase


@after("checked", rule="waterlogged")
def look_at_the_holes(tree: Tree, done: Event, year: Year) -> Proposals:
    """Common practice, no source."""
    stands = looks_found(done, ("soil", "surface", "roots", "drainage", "pot"), "waterlogged")
    slow = looks_found(done, ("drainage", "water"), "slow")
    if not (stands or slow) or done.has("again"):
        return
    yield Proposal(
        "checked",
        days_after(done.day, 0, 1, 7) if stands else days_after(done.day, 0, 3, 14),
        what=phrase("roots: open the hard surface, look at the holes and the underside"),
        because=phrase(
            "Water that stands or runs off leaves roots dry in one place and rotting in another."
        ),
        cautions=(phrase("Until then tilt the pot, and keep rain off it."),) if stands else (),
        settled_by=("checked roots", "opened", "repotted", "root-pruned"),
        weight=PRESSING,
    )


@after("checked", rule="wet-soil")
def hold_water(tree: Tree, done: Event, year: Year) -> Proposals:
    """Common practice, no source: what is wet on a look and dry on the next drains well."""
    found = looks_found(done, ("soil", "surface", "roots", "drainage", "pot"), "wet")
    if not found or done.has("again") or tree.planted_out:
        return
    yield Proposal(
        "checked",
        days_after(done.day, 2, 4, 10),
        what=phrase("soil: damp, no longer wet"),
        because=phrase("Roots in soil that stays wet rot, soonest while the tree rests."),
        cautions=(phrase("No water before it is drier at the top; see that the holes are open."),),
        settled_by=("checked soil", "checked roots", "checked drainage", "drained", "repotted"),
        minutes=5,
        weight=CARE,
    )
