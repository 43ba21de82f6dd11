"""Lays out the page of a place: what stands there, and its works as one walks."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

from msgspec import Struct

from backbud import words
from backbud.pages.bench import NO_PLACE
from backbud.pages.links import anchor_of, link, tree_page
from backbud.views.place import PlaceView, StandsThere
from backbud.views.work import WorkView


class PlaceWork(Struct, frozen=True):
    """A work at a place: what, by when and for how long, and the way to its reasons.

    `care`: the numbers of the cautions that are for it.
    """

    task: str
    by: str
    page: str
    late: bool
    care: tuple[int, ...]


class PlaceTree(Struct, frozen=True):
    """A tree at a place."""

    name: str
    kind: str
    page: str
    works: tuple[PlaceWork, ...]


class PlaceSheet(Struct, frozen=True):
    """All that a place's page shows: the trees that want something, and those that want nothing.

    `cautions`: each once; the works tell them by their numbers, from 1.
    """

    name: str
    count: str
    minutes: str
    cautions: tuple[str, ...]
    wanting: tuple[PlaceTree, ...]
    others: tuple[PlaceTree, ...]


def sheet(view: PlaceView, today: date) -> PlaceSheet:
    """Lay out a place. Its page stands one folder down."""
    told = (text for tree in view.trees for work in tree.works for text in work.cautions)
    cautions = tuple(dict.fromkeys(told))
    trees = [_tree(tree, cautions, today) for tree in view.trees]
    minutes = sum(work.minutes for tree in view.trees for work in tree.works)
    return PlaceSheet(
        words.sentence(view.place_name or NO_PLACE),
        words.number(len(trees), "tree"),
        words.minutes(minutes) if minutes else "",
        cautions,
        tuple(tree for tree in trees if tree.works),
        tuple(tree for tree in trees if not tree.works),
    )


def _tree(tree: StandsThere, cautions: Sequence[str], today: date) -> PlaceTree:
    page = tree_page(tree.tree)
    works = tuple(_work(one, page, cautions, today) for one in tree.works)
    return PlaceTree(tree.tree_name, tree.kind, link(page, "../"), works)


def _work(work: WorkView, page: str, cautions: Sequence[str], today: date) -> PlaceWork:
    late = work.state == "overdue"
    by = f"{'was due' if late else 'by'} {words.day(work.closes, today.year)}"
    return PlaceWork(
        words.sentence(work.title),
        f"{by}, {words.minutes(work.minutes)}" if work.minutes else by,
        link(page, "../", anchor_of(work.id)),
        late,
        tuple(cautions.index(text) + 1 for text in work.cautions),
    )
