"""A tree of cold winters that was brought into a warm room comes out of it again, soon."""

from __future__ import annotations

from backbud.collection.places import is_room
from backbud.species import (
    Event,
    Proposal,
    Proposals,
    Schedule,
    Tree,
    Weight,
    Year,
    after,
    days_after,
    phrase,
)

# What bears so much frost at its roots rests in the cold; ours, no source.
_RESTS_FROM_C = -5.0
_STARVES = Weight("life", must=True, once_past="grows")


@after("moved", rule="winter-in-a-room")
def out_to_rest(tree: Tree, done: Event, year: Year) -> Proposals:
    """From autumn to the end of winter; nothing for tender trees. Common practice, no source."""
    bears = year.roots_bear
    if not is_room(year.cover) or year.comes_in_below_c is not None or bears is None:
        return
    if bears.celsius > _RESTS_FROM_C or year.on((2, 28)) < done.day < year.on((9, 1)):
        return
    yield Proposal(
        "moved",
        days_after(done.day, 0, 3, 14),
        what=phrase("out of the room, to where it is cold but no hard frost reaches its roots"),
        because=phrase(
            "A tree of cold winters rests in the cold: in a warm dry room it wastes what it stored."
        ),
        datum=phrase("It was moved on {day}.", day=done.day),
        cautions=(phrase("A few days in a room, as for a show, do it no harm."),),
        part="to rest",
        weight=_STARVES,
        schedule=Schedule(
            after=phrase(
                "Each warm week costs it buds, then twigs, and the second winter the tree."
            )
        ),
    )
