"""Lays out the page of a kind of tree: what is alike for all trees of it, and which these are."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import NamedTuple

from msgspec import Struct

from backbud.collection.state import Tree
from backbud.pages.botanical import Run, botanical_runs
from backbud.pages.links import kind_page, link, tree_page
from backbud.views.facts import SpeciesFact, SpeciesFacts


class OfKind(NamedTuple):
    """A tree of a kind: what it is called, and its page."""

    name: str
    page: str


class KindSheet(Struct, frozen=True):
    """A kind: its names, its facts with the source of each, and its trees."""

    title: str
    botanical: tuple[Run, ...]
    facts: tuple[SpeciesFact, ...]
    trees: tuple[OfKind, ...]


def kinds(
    trees: Iterable[Tree], species: Mapping[str, SpeciesFacts]
) -> dict[str, tuple[SpeciesFacts, list[Tree]]]:
    """Each kind of which something is known, by the path of its page, with its trees that are
    here."""
    found: dict[str, tuple[SpeciesFacts, list[Tree]]] = {}
    for tree in trees:
        facts = species.get(tree.handle)
        if facts is not None and facts.facts:
            _, members = found.setdefault(kind_page(facts.title), (facts, []))
            if tree.here:
                members.append(tree)
    return found


def sheet(facts: SpeciesFacts, trees: Iterable[Tree]) -> KindSheet:
    """Lay out a kind. Its page stands one folder down."""
    return KindSheet(
        facts.title,
        botanical_runs(facts.botanical, ""),
        facts.facts,
        tuple(OfKind(tree.title, link(tree_page(tree.handle), "../")) for tree in trees),
    )
