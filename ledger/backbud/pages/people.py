"""Lays out the page of the people, for the keeper only."""

from __future__ import annotations

from collections.abc import Iterable

from msgspec import Struct

from backbud.pages.links import link, person_anchor, place_page, tree_page
from backbud.tongue import phrase
from backbud.views.people import OwnedView, PersonView


class OwnedTree(Struct, frozen=True):
    """A tree of somebody's: where it stands with the way there, or what became of it."""

    name: str
    page: str
    kind: str
    place: str
    place_page: str
    gone: str


class PersonRow(Struct, frozen=True):
    """Somebody: what their card says, a label and its words each, and their trees."""

    ident: str
    name: str
    facts: tuple[tuple[str, str], ...]
    here: tuple[OwnedTree, ...]
    away: tuple[OwnedTree, ...]


def sheet(people: Iterable[PersonView]) -> tuple[PersonRow, ...]:
    """Everybody, as the page shows them."""
    return tuple(map(_person, people))


def _person(one: PersonView) -> PersonRow:
    facts = (
        (phrase("contact"), one.contact),
        (phrase("town"), one.town),
        (phrase("trees go home to"), one.home),
        (phrase("experience"), one.experience),
        (phrase("note"), one.note),
    )
    trees = [(tree.standing == "here", _tree(tree)) for tree in one.trees]
    return PersonRow(
        person_anchor(one.person),
        one.name,
        tuple((label, said) for label, said in facts if said),
        tuple(tree for is_here, tree in trees if is_here),
        tuple(tree for is_here, tree in trees if not is_here),
    )


def _tree(one: OwnedView) -> OwnedTree:
    return OwnedTree(
        one.tree_name,
        link(tree_page(one.tree)),
        one.kind,
        one.place_name,
        link(place_page(one.place)) if one.place else "",
        "" if one.standing == "here" else phrase(one.standing),
    )
