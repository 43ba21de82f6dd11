"""A tree seen to be weak is looked at again soon."""

from __future__ import annotations

from backbud.plan.common.seasons import coming, in_growth, not_while_it_rests
from backbud.species import (
    PRESSING,
    Event,
    Proposal,
    Proposals,
    Tree,
    Year,
    after,
    weeks_after,
)
from backbud.tongue import phrase


@after("vigour", rule="strength-check")
def is_it_gaining(tree: Tree, done: Event, year: Year) -> Proposals:
    """In growth after six weeks, else when growth has begun. Common practice, no source."""
    if not tree.weak:
        return
    window = weeks_after(done.day, 4, 6, 10)
    if not in_growth(window.best, year):
        window = coming(year, done.day, (4, 15), (5, 1), (5, 31))
    slow = ", ".join(zone.name for zone in tree.zones if zone.score <= 2)
    yield Proposal(
        "vigour",
        window,
        what=phrase("of the weak zones"),
        because=phrase("A weak tree is watched until it grows again."),
        datum=phrase("Weak: {slow}.", slow=slow) if slow else "",
        cautions=(phrase("No root work, hard pruning or leaf work until it is stronger."),),
        settled_by=("vigour", "checked strength"),
        weight=PRESSING,
        schedule=not_while_it_rests(window, year),
    )
