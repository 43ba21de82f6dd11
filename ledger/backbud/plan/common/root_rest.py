"""A tree whose roots were cut is kept from sun, wind and frost, and is not worked on."""

from __future__ import annotations

from backbud.collection.places import is_winter_cover
from backbud.species import (
    CARE,
    Event,
    Proposal,
    Proposals,
    Tree,
    Year,
    after,
    days_after,
    has_no_winter,
)
from backbud.tongue import phrase

ROOT_REST = "root-rest"


@after("separated", having=("cuts_roots",), rule=ROOT_REST)
def out_of_sun_wind_and_frost(tree: Tree, done: Event, year: Year) -> Proposals:
    """Common practice, no source: three to four weeks; nothing where it is sheltered already."""
    if done.has("no root work") or tree.on("protection", "shade") or is_winter_cover(year.cover):
        return
    if done.act == "separated" and tree.standing_since != done.day:
        # The old tree, which was here before, lost a branch and no root.
        return
    tropics = has_no_winter(year)
    yield Proposal(
        "protected",
        days_after(done.day, 0, 0, 28),
        what=phrase("from sun and wind") if tropics else phrase("from sun, wind and frost"),
        because=phrase("Cut roots cannot make up for what sun and wind take."),
        cautions=(
            *(() if tropics else (phrase("No frost on fresh roots."),)),
            phrase("No hard pruning, bending or leaf work now."),
        ),
        settled_by=("protected", "shaded", "moved"),
        weight=CARE,
    )
