"""Renders the list of all trees; of very many it leads to a page for each letter."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from functools import partial

from msgspec import Struct
from msgspec.structs import replace

from backbud import words
from backbud.collection.state import Tree
from backbud.memo import Identical, Memo
from backbud.pages import links
from backbud.pages.find import MANY, lettered
from backbud.pages.parted import parts_of_trees
from backbud.pages.templating import PagePieces, macro, octets, page
from backbud.pages.tree import kind_of, next_when, since_told, standing_of
from backbud.views.nursery import Nursery
from backbud.views.tree import TreesView, listed_view, trees_view


class Listed(Struct, frozen=True):
    """A tree's line in the list of all trees."""

    title: str
    page: str
    kind: str
    since: str
    place: str
    owner: str
    standing: str
    next_task: str
    next_when: str
    late: bool


def tree_lists(
    view: Nursery, shared: dict[str, object], around: object, kept: Memo
) -> Iterator[tuple[str, bytes]]:
    """The trees in three parts: own, other people's by owner, and those that are not here."""
    shown = trees_view(view.trees, view.names)
    made = partial(_listing, view, shared, around, kept)
    handed_out = [{"title": title, "page": links.link(path)} for title, path in view.handed_out]
    apart = parts_of_trees(shown, view.names)
    here = len(shown.own) + len(shown.others)
    yield links.TREES, made(shown, here, apart, view.unshown, handed_out)
    for part, by_letter in apart.items():
        for letter, some in by_letter:
            only = replace(TreesView((), (), ()), **{part: some})
            yield links.letter_page(letter, part), made(only, len(some), {}, (), [])


def _listing(
    view: Nursery,
    shared: dict[str, object],
    around: object,
    kept: Memo,
    shown: TreesView,
    total: int,
    apart: Mapping[str, Sequence[tuple[str, Sequence[Tree]]]],
    unshown: Sequence[str],
    handed_out: Sequence[Mapping[str, str]],
) -> bytes:
    """A page that lists trees. `total`: how many it says there are; `apart`: the parts of which it
    only leads to the lists, by letter."""
    pieces = PagePieces()

    def drawn(trees: Iterable[Tree], part: str) -> str:
        return pieces.mark(
            kept.once(
                ("listed", part, tree.handle),
                (Identical(around), Identical(tree), Identical(view.plans.get(tree.handle))),
                partial(_line, view, tree, part, around, kept),
            )
            for tree in trees
        )

    parts = {
        "base": "",
        "drawn_trees": drawn,
        "total": total,
        "own": shown.own,
        "lettered": lettered(shown.own),
        "many": MANY,
        "others": shown.others,
        "gone": shown.gone,
        "apart": apart,
        "unshown": unshown,
        "handed_out": handed_out,
    }
    return pieces.put_in(page("trees.html", shared, parts))


def _line(view: Nursery, tree: Tree, part: str, around: object, kept: Memo) -> bytes:
    """A tree's line in a part of the list."""
    return octets(macro("lines.html", part, listed_tree(view, tree, around, kept)))


def listed_tree(view: Nursery, tree: Tree, around: object, kept: Memo) -> Listed:
    """A tree's line in the list, with the next work that is open on it."""
    inputs = (Identical(around), Identical(tree), Identical(view.plans.get(tree.handle)))
    return kept.once(("listed tree", tree.handle), inputs, partial(_listed, view, tree))


def _listed(view: Nursery, tree: Tree) -> Listed:
    today = view.today
    shown = listed_view(tree, view.plans.get(tree.handle, ()), view.names, today)
    return Listed(
        shown.name,
        links.link(links.tree_page(shown.tree)),
        ", ".join(filter(None, (kind_of(shown), shown.counted))),
        since_told(shown),
        shown.place_name,
        shown.owner_name,
        standing_of(shown, today.year),
        words.sentence(shown.next.title) if shown.next else "",
        next_when(shown.next, today) if shown.next else "",
        shown.next is not None and shown.next.state == "overdue",
    )
