"""Where a look found that water stands, the holes and the roots are looked at."""

from __future__ import annotations

from backbud.plan.looks import looks_found
from backbud.species import PRESSING, Event, Proposal, Proposals, Tree, Year, after, days_after
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
