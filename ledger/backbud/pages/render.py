"""What the pages are made from comes in; every page and asset as bytes, by path, comes out."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from functools import cache, partial
from hashlib import blake2b
from itertools import chain
from pathlib import Path
from typing import TYPE_CHECKING

from backbud import words
from backbud.collection.state import Tree
from backbud.kept import KEEP_NOTHING, Each, Is, Kept
from backbud.pages import links, season, stores, weather, work
from backbud.pages.narrow import only_tree, own_inputs, without_trees
from backbud.pages.sheet import MOST_VIGOUR, Listed, listed, sheet_of
from backbud.pages.view import Nursery
from backbud.plan.followups import FollowUp

if TYPE_CHECKING:
    from jinja2 import Environment, Template

TEMPLATES = Path(__file__).parent / "templates"
# The assets by the name that templates use.
ASSETS = {"style": "backbud.css", "leaf": "leaf.svg"}


def render_pages(view: Nursery, kept: Kept = KEEP_NOTHING) -> dict[str, bytes]:
    """Render the whole set: relative path to bytes, the same bytes for the same view.

    `kept`: what an earlier run of this process left.
    """
    assets = {name: _asset(file) for name, file in ASSETS.items()}
    pages = dict(assets.values())
    shared: dict[str, object] = {
        "title": view.title,
        "home": view.home,
        "today": words.full_day(view.today),
        "today_iso": view.today.isoformat(),
        "assets": {name: path for name, (path, _) in assets.items()},
        "drawn": _drawn,
    }
    around = kept.once("around pages", (without_trees(view), shared), object)
    pages[links.INDEX] = _page("index.html", shared, _index(view, Rows(view, around, kept)))
    pages[links.TREES] = _page("trees.html", shared, _trees(view, around, kept))
    # Of the trees it shows what they are called, and what they drink.
    called = [(tree.handle, tree.title) for tree in view.trees]
    pages[links.WEATHER] = kept.once(
        "weather page",
        (Is(around), view.weather, called),
        lambda: _page("weather.html", shared, _weather(view)),
    )
    pages[links.SEASON] = _page("season.html", shared, _season(view, kept))
    pages[links.STORES] = _page("stores.html", shared, _stores(view))
    for tree in view.trees:
        # A tree's page is made from nothing but what is that tree's own.
        own = only_tree(view, tree)
        path, page = kept.once(
            ("page", tree.handle), own_inputs(own, around), partial(_tree, own, shared)
        )
        pages[path] = page
    return pages


def _tree(view: Nursery, shared: dict[str, object]) -> tuple[str, bytes]:
    """The page of the one tree of the view, and its path."""
    sheet = sheet_of(view, view.trees[0])
    return sheet.page, _page("tree.html", shared, {"base": "../", "tree": sheet})


class Rows:
    """The rows of the first page, thousands of them, each made only when its work has changed."""

    def __init__(self, view: Nursery, around: object, kept: Kept) -> None:
        self._view, self._around, self._kept = view, around, kept

    def group(self, heading: str, pairs: list[work.Pair]) -> work.Group:
        """The works under a heading."""
        inputs = (Is(self._around), Each(chain.from_iterable(pairs)))
        return self._kept.once(
            ("group", heading), inputs, lambda: work.group(self._row, heading, pairs)
        )

    def _row(self, plan: FollowUp, tree: Tree) -> work.Row:
        return self._kept.once(
            ("row", plan.id),
            (Is(self._around), Is(plan), Is(tree)),
            lambda: work.row(only_tree(self._view, tree), plan, tree),
        )

    def drawn(self, group: work.Group, base: str, with_tree: bool) -> str:
        """The markup of a group's rows."""
        return self._kept.once(
            ("drawn", group.heading),
            (Is(group), base, with_tree),
            lambda: _joined(self._drawn_row(row, base, with_tree) for row in group.rows),
        )

    def _drawn_row(self, row: work.Row, base: str, with_tree: bool) -> str:
        return self._kept.once(
            ("drawn row", row.page, row.anchor),
            (Is(row), base, with_tree),
            partial(_macro, "rows.html", "row", row, base, with_tree),
        )


def _drawn(group: work.Group, base: str, with_tree: bool) -> str:
    return _joined(_macro("rows.html", "row", row, base, with_tree) for row in group.rows)


def _macro(template: str, name: str, *arguments: object) -> str:
    macro: Callable[..., str] = getattr(_template(template).module, name)
    return macro(*arguments)


def _joined(markup: Iterable[str]) -> str:
    """One piece of markup from many."""
    from markupsafe import Markup

    return Markup("".join(markup))


def _index(view: Nursery, rows: Rows) -> dict[str, object]:
    return {
        "base": "",
        "drawn": rows.drawn,
        "board": work.board(view, view.trees, rows.group),
        "problems": view.problems,
        "trees": len(view.trees),
    }


def _weather(view: Nursery) -> dict[str, object]:
    return {"base": "", "weather": weather.sheet(view)}


def _season(view: Nursery, kept: Kept) -> dict[str, object]:
    def drawn(week: season.WeekRow) -> str:
        return kept.once(
            ("drawn week", week.iso), (Is(week),), partial(_macro, "weeks.html", "week", week)
        )

    return {"base": "", "season": season.sheet(view, kept), "drawn_week": drawn}


def _stores(view: Nursery) -> dict[str, object]:
    return {"base": "", "stores": stores.sheet(view)}


def _trees(view: Nursery, around: object, kept: Kept) -> dict[str, object]:
    """The trees in three parts: own, other people's by owner, and those that are not here."""

    def lines(trees: Iterable[Tree]) -> list[Listed]:
        return [
            kept.once(
                ("listed", tree.handle),
                (Is(around), Is(tree), Is(view.plans.get(tree.handle))),
                partial(listed, view, tree),
            )
            for tree in trees
        ]

    own = [tree for tree in view.trees if tree.here and not tree.owner]
    others = [tree for tree in view.trees if tree.here and tree.owner]
    gone = [tree for tree in view.trees if not tree.here]
    return {
        "base": "",
        "own": lines(sorted(own, key=_by_title)),
        "others": lines(
            sorted(others, key=lambda t: (view.name(t.owner).casefold(), _by_title(t)))
        ),
        "gone": lines(sorted(gone, key=_by_title)),
    }


def _by_title(tree: Tree) -> tuple[str, str]:
    return tree.title.casefold(), tree.handle


def _page(template: str, shared: dict[str, object], own: dict[str, object]) -> bytes:
    return _template(template).render(shared | own).encode()


@cache
def _asset(name: str) -> tuple[str, bytes]:
    """An asset's path, its digest in the name so that no browser keeps an old one.

    Read once, as the templates are: they belong together.
    """
    content = (TEMPLATES / name).read_bytes().replace(b"\r\n", b"\n")
    stem, _, ending = name.rpartition(".")
    digest = blake2b(content, digest_size=4).hexdigest()
    return f"assets/{stem}.{digest}.{ending}", content


@cache
def _template(name: str) -> Template:
    return _environment().get_template(name)


@cache
def _environment() -> Environment:
    """The templates, escaped, with every unknown name an error; imported only here."""
    from jinja2 import Environment, FileSystemLoader, StrictUndefined

    environment = Environment(
        loader=FileSystemLoader(TEMPLATES),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        keep_trailing_newline=True,
        auto_reload=False,
    )
    environment.globals |= {
        "link": links.link,
        "number": words.number,
        "index_page": links.INDEX,
        "trees_page": links.TREES,
        "weather_page": links.WEATHER,
        "season_page": links.SEASON,
        "stores_page": links.STORES,
        "most_vigour": MOST_VIGOUR,
    }
    return environment
