"""What feeds are sorted by, and audiences told by: the trees, the places, and who owns what."""

from __future__ import annotations

from collections.abc import Mapping

from msgspec import Struct

from backbud.collection.places import places_inside
from backbud.collection.state import Tree
from backbud.journal.things import Things


class Grounds(Struct, frozen=True):
    """The trees by handle, and the places and persons they are sorted by.

    `names`: what people call each thing, by handle. `inside`: for each place the handles of the
    places within it, itself included. `first_handles`: of places and persons, from which paths are
    made, so that a feed stays when its thing is renamed. `persons`: the handle of each. `keeper`:
    the keeper's handle, or "".
    """

    trees: Mapping[str, Tree]
    names: Mapping[str, str] = {}
    inside: Mapping[str, frozenset[str]] = {}
    first_handles: Mapping[str, str] = {}
    persons: frozenset[str] = frozenset()
    keeper: str = ""

    def name_of(self, handle: str) -> str:
        """What people call a thing."""
        return self.names.get(handle, handle)

    def owner_of(self, tree: Tree) -> str:
        """The handle of who owns a tree; "" for the keeper."""
        return "" if tree.owner == self.keeper else tree.owner


def grounds_of(
    trees: Mapping[str, Tree], things: Things, names: Mapping[str, str], keeper: str
) -> Grounds:
    """Return what the feeds of these trees are sorted by. `keeper`: as the settings name them."""
    known = things.find(keeper) if keeper else None
    persons = things.of_kind("person")
    return Grounds(
        trees,
        names,
        places_inside(things),
        first_handles_of(things),
        frozenset(person.handle for person in persons),
        known.handle if known else "",
    )


def first_handles_of(things: Things) -> dict[str, str]:
    """The first handle of each place and person, from which its feed is named."""
    some = (*things.of_kind("place"), *things.of_kind("person"))
    return {thing.handle: thing.first_handle for thing in some}
