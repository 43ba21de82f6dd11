"""A tree that finds no rest at its place is looked at once a year, and spared all other work."""

from __future__ import annotations

from backbud.species import (
    ROUTINE,
    Proposal,
    Proposals,
    Season,
    Tree,
    Year,
    each,
    finds_no_rest,
)
from backbud.tongue import phrase


@each("year", rule="no-rest", as_it_stands=True)
def is_it_weakening(tree: Tree, season: Season, year: Year) -> Proposals:
    """In the weeks in which it would rest elsewhere. Common practice, no source."""
    datum = finds_no_rest(year) or _lacks_chill(year)
    if datum is None:
        return
    yield Proposal(
        "checked",
        year.months((1, 10), (1, 25), (2, 28)),
        what=phrase("strength: it does not suit this place, which gives it no rest"),
        because=phrase(
            "Without a cool winter its buds wake unevenly, and it weakens from year to year."
        ),
        datum=datum,
        cautions=(phrase("No hard work on a weak one; it lives longer where winters are cool."),),
        settled_by=("checked strength", "vigour"),
        weight=ROUTINE,
    )


def _lacks_chill(year: Year) -> str | None:
    """That its buds want more chill than the winters of its place give; None where they have it."""
    wanted, outlook = year.wants.chill_portions, year.outlook
    if outlook is None or not wanted or not outlook.lacks_chill(year.first, wanted):
        return None
    return phrase("Its buds want {wanted:g} chill portions and have fewer here.", wanted=wanted)
