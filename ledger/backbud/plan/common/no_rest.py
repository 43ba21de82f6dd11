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
    datum = finds_no_rest(year)
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
        cautions=(
            phrase("No root work, cuts or wire: it has nothing left to answer with."),
            phrase("It lives longer where winters are cool."),
        ),
        settled_by=("checked strength", "vigour"),
        weight=ROUTINE,
    )
