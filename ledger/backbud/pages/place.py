"""Lays out the page of a place: what stands there, and its works as one walks."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

from msgspec import Struct

from backbud import words
from backbud.pages.bench import NO_PLACE
from backbud.pages.links import anchor_of, link, tree_page
from backbud.tongue import phrase
from backbud.views.day import plain_title
from backbud.views.place import PlaceView, StandsThere
from backbud.views.work import WorkView


class PlaceWork(Struct, frozen=True):
    """A work at a place, on all parts of a tree that it is for: by when and for how long.

    `ways`: what, and the way to its reasons; of the other parts these alone. `care`: the numbers
    of the cautions that are for it.
    """

    ways: tuple[tuple[str, str], ...]
    by: str
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
    return PlaceSheet(
        words.sentence(view.place_name or phrase(NO_PLACE)),
        words.number(len(trees), "tree"),
        words.minutes(view.minutes) if view.minutes else "",
        cautions,
        tuple(tree for tree in trees if tree.works),
        tuple(tree for tree in trees if not tree.works),
    )


def _tree(tree: StandsThere, cautions: Sequence[str], today: date) -> PlaceTree:
    page = tree_page(tree.tree)
    alike: dict[tuple[str, str, date], list[WorkView]] = {}
    for one in tree.works:
        alike.setdefault((one.act, plain_title(one), one.closes), []).append(one)
    works = tuple(_work(those, page, cautions, today) for those in alike.values())
    kind = ", ".join(filter(None, (tree.kind, tree.counted)))
    return PlaceTree(tree.tree_name, kind, link(page, "../"), works)


def _work(works: Sequence[WorkView], page: str, cautions: Sequence[str], today: date) -> PlaceWork:
    first = works[0]
    late = first.state != "now"
    closes = words.day(first.closes, today.year)
    by = phrase("was due {closes}", closes=closes) if late else phrase("by {last}", last=closes)
    minutes = sum(one.minutes for one in works)
    care = {cautions.index(text) + 1 for one in works for text in one.cautions}
    return PlaceWork(
        tuple(
            (
                one.part if at else words.sentence(one.title),
                link(page, "../", anchor_of(one.id)),
            )
            for at, one in enumerate(works)
        ),
        f"{by}, {words.minutes(minutes)}" if minutes else by,
        late,
        tuple(sorted(care)),
    )
