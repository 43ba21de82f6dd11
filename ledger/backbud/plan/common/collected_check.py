"""A tree that was dug from the ground is looked at until its roots are known to work."""

from __future__ import annotations

from backbud.plan.common.seasons import coming, in_growth
from backbud.species import CARE, Event, Proposal, Proposals, Tree, Year, after, weeks_after
from backbud.tongue import phrase


@after("collected", rule="collected-check")
def does_it_live_on(tree: Tree, done: Event, year: Year) -> Proposals:
    """In growth after a month, else when growth has begun. Common practice, no source."""
    window = weeks_after(done.day, 3, 5, 8)
    if not in_growth(window.best, year):
        window = coming(year, done.day, (4, 15), (5, 1), (5, 31))
    yield Proposal(
        "checked",
        window,
        what=phrase("strength: does it live on its own roots"),
        because=phrase("Leaves live for weeks on what wood holds, whether roots work or not."),
        cautions=(
            phrase("Its roots are left alone, and it is not shaped, until it grows strongly."),
        ),
        settled_by=("checked strength", "vigour", "staged"),
        minutes=5,
        weight=CARE,
    )
