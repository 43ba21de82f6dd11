"""Makes the pages of trees, each its own and those of its earlier years where there are many, from
views that hold nothing of any other."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from itertools import islice

from msgspec.structs import replace

from backbud.pages import ways
from backbud.pages.templating import page
from backbud.pages.tree import Sheet, tree_sheets
from backbud.views.nursery import Nursery

TEMPLATE, EARLIER = "tree.html", "earlier.html"


# So many trees are laid out before the first of them is rendered: both go through much code, which
# is sooner at hand again for another tree than after the other of the two.
AT_ONCE = 100


def pages_of_each(
    views: Iterable[Nursery], shared: dict[str, object]
) -> Iterator[tuple[str, bytes]]:
    """The pages of many trees, and their paths. `views`: each of one tree."""
    rest = iter(views)
    while some := list(islice(rest, AT_ONCE)):
        for data in trees_data(some):
            yield from pages_of_sheet(data, shared)


def tree_page_of(view: Nursery, shared: dict[str, object]) -> tuple[tuple[str, bytes], ...]:
    """The page of the one tree of the view, and its path. `shared`: what all pages are shown."""
    (data,) = trees_data((view,))
    return pages_of_sheet(data, shared)


def pages_of_sheet(
    data: dict[str, object], shared: dict[str, object]
) -> tuple[tuple[str, bytes], ...]:
    """The page of a tree, and those of its earlier years if it has any, each with its path. `data`:
    what the template is shown of it."""
    return tuple([(path, page(name, shared, own)) for path, name, own in templates_of(data)])


def templates_of(data: dict[str, object]) -> tuple[tuple[str, str, dict[str, object]], ...]:
    """Each page of a tree: its path, its template, and what that is shown of the tree."""
    sheet = data["tree"]
    assert isinstance(sheet, Sheet)
    whole = sheet.page, TEMPLATE, data
    if not sheet.earlier:
        return (whole,)
    ends = data.get("ways")
    if isinstance(ends, ways.Ways):
        # Its card and its label are made of the tree's own page.
        ends = replace(ends, paper=())
    before = {**data, "base": "../../", "ways": ends}
    return whole, *[(one.page, EARLIER, {**before, "earlier": one}) for one in sheet.earlier]


def trees_data(views: Sequence[Nursery]) -> list[dict[str, object]]:
    """What the templates are shown of trees. `views`: each of one tree."""
    return [
        {"base": "../", "tree": sheet, "ways": ways.ways_of_tree(view.trees[0])}
        for view, sheet in zip(views, tree_sheets(views), strict=True)
    ]
