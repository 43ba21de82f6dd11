"""A shelter that was found broken or loose is mended, while it is needed."""

from __future__ import annotations

from backbud.plan.common.still_there import is_there
from backbud.plan.looks import places_found
from backbud.species import Event, Proposal, Proposals, Tree, Weight, Year, after, days_after
from backbud.tongue import phrase

# It stays broken until somebody mends it, and the tree dies in any night of it.
_UNTIL_MENDED = Weight("life", must=True, once_past="grows")


@after("checked", rule="protection-broken")
def mend_it(tree: Tree, done: Event, year: Year) -> Proposals:
    """Common practice, no source."""
    found = places_found(done, ("protection",), "loose", "broken", "damaged", "open", "rotten")
    if not found or not is_there(tree, "protection", done.day, "unprotected"):
        return
    yield Proposal(
        "protected",
        days_after(done.day, 0, 0, 3),
        what=phrase("again: mend what is broken"),
        because=phrase("What it keeps off comes in where it is broken."),
        settled_by=("protected", "unprotected", "moved"),
        weight=_UNTIL_MENDED,
    )
