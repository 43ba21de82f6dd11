"""What feeds are sorted by, and audiences told by: the trees, the places, and who owns what."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from datetime import date

from msgspec import Struct

from backbud.collection.places import places_inside
from backbud.collection.state import Tree
from backbud.journal.things import Thing, Things
from backbud_grammar.dates import read_span
from backbud_grammar.handles import folded_words
from backbud_grammar.problems import Misread


class Grounds(Struct, frozen=True):
    """The trees by handle, and the places and persons they are sorted by.

    `names`: what people call each thing, by handle. `inside`: for each place the handles of the
    places within it, itself included. `first_handles`: of places and persons, from which paths are
    made, so that a feed stays when its thing is renamed. `persons`: the handle of each. `keeper`:
    the keeper's handle, or "". `stuff`: the words of the handles of pots, mixes and materials.
    `consenting`: who agrees that anybody is shown their trees, on the day. `hidden`: the names of
    who asked to be forgotten, by the number that stands for them.
    """

    trees: Mapping[str, Tree]
    names: Mapping[str, str] = {}
    inside: Mapping[str, frozenset[str]] = {}
    first_handles: Mapping[str, str] = {}
    persons: frozenset[str] = frozenset()
    keeper: str = ""
    stuff: frozenset[str] = frozenset()
    consenting: frozenset[str] = frozenset()
    hidden: Mapping[str, tuple[str, ...]] = {}

    def name_of(self, handle: str) -> str:
        """What people call a thing."""
        return self.names.get(handle, handle)

    def owner_of(self, tree: Tree) -> str:
        """The handle of who owns a tree; "" for the keeper."""
        return "" if tree.owner == self.keeper else tree.owner


def grounds_of(
    trees: Mapping[str, Tree],
    things: Things,
    names: Mapping[str, str],
    keeper: str,
    today: date | None = None,
) -> Grounds:
    """Return what the feeds of these trees are sorted by. `keeper`: as the settings name them.
    Without a day nobody is known to consent to anything."""
    known = things.find(keeper) if keeper else None
    persons = things.of_kind("person")
    return Grounds(
        trees,
        names,
        places_inside(things),
        first_handles_of(things),
        frozenset(person.handle for person in persons),
        known.handle if known else "",
        frozenset(_words_of_stuff(things)),
        frozenset(one.handle for one in persons if today is not None and _consents(one, today)),
        things.hidden,
    )


def _words_of_stuff(things: Things) -> Iterator[str]:
    for kind in ("pot", "mix", "material"):
        for thing in things.of_kind(kind):
            yield from folded_words(thing.handle)


def _consents(person: Thing, today: date) -> bool:
    """`consent 2027-03-06` holds from that day on, a span until its end; a rough date from its
    last day."""
    detail = person.detail("consent")
    if detail is None or not detail.date:
        return False
    try:
        when = read_span(detail.date)
    except Misread:
        return False
    if "/" not in detail.date:
        return when.last <= today
    return when.first <= today <= when.last


def first_handles_of(things: Things) -> dict[str, str]:
    """The first handle of each place and person, from which its feed is named."""
    some = (*things.of_kind("place"), *things.of_kind("person"))
    return {thing.handle: thing.first_handle for thing in some}
