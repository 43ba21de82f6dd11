"""Makes the page to find on, its script, and the index that this loads."""

from __future__ import annotations

from collections.abc import Mapping
from functools import partial

from backbud.collection.state import Tree
from backbud.memo import Identical, Memo
from backbud.pages import find, finding, links
from backbud.pages.templating import asset, page
from backbud.views.finding import Findable, others_found, tree_found
from backbud.views.forgotten import Forgotten
from backbud.views.nursery import Nursery
from backbud.views.tree import trees_view

# The slot of all that can be found: several files of the set ask for it.
FOUND = "all that can be found"


def index_files(view: Nursery, kept: Memo) -> tuple[tuple[str, bytes], ...]:
    """The index that the page loads as words are asked for: path and bytes."""
    return _finding(view, kept).files


def _finding(view: Nursery, kept: Memo) -> finding.Index:
    """What can be found."""
    return kept.once(FOUND, (Identical(view),), partial(_gathered_index, view, kept))


def _gathered_index(view: Nursery, kept: Memo) -> finding.Index:
    """The same, from what of each tree an earlier run left; first what stands for many trees."""
    names = kept.same("names found", dict(view.names))
    found = [
        found_tree(view, tree, names, kept)
        # What is here comes first.
        for tree in sorted(view.trees, key=lambda tree: not tree.here)
    ]
    others = kept.same("others found", others_found(view.trees, view.species, names, view.people))
    return kept.once(
        "index", (Identical(others, *found),), lambda: finding.index_of((*others, *found), kept)
    )


def found_tree(view: Nursery, tree: Tree, names: Mapping[str, str], kept: Memo) -> Findable:
    """A tree of the view as it can be found. `names`: as the view has them."""
    return kept.once(
        ("found", tree.handle),
        (Identical(tree), Identical(names)),
        # Who is forgotten has another name, so the names are no longer the same then.
        partial(_tree_found, tree, names, view.hidden),
    )


def _tree_found(
    tree: Tree, names: Mapping[str, str], hidden: Mapping[str, tuple[str, ...]]
) -> Findable:
    return Forgotten(hidden).told(tree_found(tree, names))


def find_script() -> tuple[str, bytes]:
    """The script of the page to find on; it lies with those that it loads."""
    path, script = asset("find.js")
    return path.replace("assets/", links.FIND_FOLDER), script


def find_page(view: Nursery, shared: dict[str, object], around: object, kept: Memo) -> bytes:
    """The page to find on."""
    index = _finding(view, kept)
    trees = trees_view(view.trees, view.names)
    others = others_found(view.trees, view.species, view.names, view.people)
    own = {
        "base": "",
        "script": find_script()[0],
        "index": index,
        "items": finding.ITEMS,
        "letters": find.letters(trees),
        "lists": find.lists(others),
    }
    return page("find.html", shared, own)
