"""Lays out the page to find on: what is reached without its script, by lists and by letters."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from itertools import groupby

from backbud import words
from backbud.collection.state import Tree
from backbud.pages.finding import way_to_thing
from backbud.pages.links import GONE, OTHERS, letter_anchor
from backbud.pages.ways import PageWay
from backbud.tongue import phrase
from backbud.views.finding import Findable
from backbud.views.tree import TreesView
from backbud_grammar.handles import fold

# More trees than these are told apart by their letters where they are listed.
MANY = 20
_HEADINGS = {"place": "Places", "kind": "Kinds", "person": "People"}

Named = tuple[tuple[str, str], ...]


def lettered(
    trees: Sequence[Tree], name: Callable[[Tree], str] = lambda tree: tree.title
) -> tuple[tuple[str, tuple[Tree, ...]], ...]:
    """Trees by the first letter of their names, in its order. `name`: another one to go by."""

    def letter(tree: Tree) -> str:
        return fold(name(tree))[:1]

    by_letter = groupby(sorted(trees, key=letter), key=letter)
    return tuple((first, tuple(some)) for first, some in by_letter)


def letters(trees: TreesView) -> tuple[PageWay, ...]:
    """The ways into the page of all trees."""
    found = [PageWay(first.upper(), "", letter_anchor(first)) for first, _ in lettered(trees.own)]
    if trees.others:
        found.append(PageWay(phrase("in care for others"), "", OTHERS))
    if trees.gone:
        found.append(PageWay(phrase("not here"), "", GONE))
    return tuple(found)


def lists(things: Iterable[Findable]) -> tuple[tuple[str, Named], ...]:
    """Places, kinds and people, each with the way to it."""
    by_sort: dict[str, list[tuple[str, str]]] = {sort: [] for sort in _HEADINGS}
    for one in things:
        by_sort[one.sort].append((words.sentence(one.name), way_to_thing(one)))
    return tuple((phrase(_HEADINGS[sort]), tuple(some)) for sort, some in by_sort.items())
