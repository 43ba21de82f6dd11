"""Makes the page of one tree, from a view that holds nothing of any other."""

from __future__ import annotations

from backbud.pages import ways
from backbud.pages.links import tree_page
from backbud.pages.templating import page
from backbud.pages.tree import sheet_of
from backbud.views.nursery import Nursery

TEMPLATE = "tree.html"


def tree_page_of(view: Nursery, shared: dict[str, object]) -> tuple[str, bytes]:
    """The page of the one tree of the view, and its path. `shared`: what all pages are shown."""
    data = tree_data(view)
    return tree_page(view.trees[0].handle), page(TEMPLATE, shared, data)


def tree_data(view: Nursery) -> dict[str, object]:
    """What the template is shown of the one tree of the view."""
    tree = view.trees[0]
    return {"base": "../", "tree": sheet_of(view, tree), "ways": ways.ways_of_tree(tree)}
