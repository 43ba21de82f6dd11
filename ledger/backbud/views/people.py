"""The people as the keeper is shown them: how to reach each, and which trees are whose."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from msgspec import Struct

from backbud.collection.state import Standing, Tree
from backbud.journal.things import Thing, Things


class OwnedView(Struct, frozen=True, gc=False):
    """A tree of somebody's: its handle, name and kind, whether it is here or what became of it, and
    where it stands, "" where it is not here or nobody wrote it."""

    tree: str
    tree_name: str
    kind: str
    standing: Standing
    place: str
    place_name: str


class PersonView(Struct, frozen=True):
    """Somebody with a card, as it says: `home` is the place their trees go home to. All of it is
    for the keeper's eyes only. `helps`: no tree is theirs.
    """

    person: str
    name: str
    contact: str
    town: str
    home: str
    experience: str
    note: str
    trees: tuple[OwnedView, ...]

    @property
    def helps(self) -> bool:
        return not self.trees


def people_view(
    things: Things, trees: Iterable[Tree], names: Mapping[str, str], keeper: str
) -> tuple[PersonView, ...]:
    """Everybody with a card but the keeper: those whose trees are here first, then by name; their
    trees that are here first."""
    by_owner: dict[str, list[Tree]] = {}
    for tree in trees:
        if tree.owner:
            by_owner.setdefault(tree.owner, []).append(tree)
    found = [
        _person(card, by_owner.get(card.handle, ()), names)
        for card in things.of_kind("person")
        if card.handle != keeper
    ]
    return tuple(sorted(found, key=_order))


def _order(one: PersonView) -> tuple[bool, bool, str, str]:
    here = any(tree.standing == "here" for tree in one.trees)
    return not here, one.helps, one.name.casefold(), one.person


def _person(card: Thing, trees: Iterable[Tree], names: Mapping[str, str]) -> PersonView:
    home = card.text("place")
    owned = [
        OwnedView(
            tree.handle,
            tree.title,
            tree.kind,
            tree.standing,
            tree.place if tree.here else "",
            (names.get(tree.place) or tree.place) if tree.here else "",
        )
        for tree in trees
    ]
    return PersonView(
        card.handle,
        names.get(card.handle) or card.title,
        card.text("contact"),
        card.text("town"),
        names.get(home) or home,
        card.text("experience"),
        card.text("note"),
        tuple(sorted(owned, key=lambda one: (one.standing != "here", one.tree_name.casefold()))),
    )
