"""Renders all pages of a journal on a day, and the stylesheet and pictures that they use.

`SHEETS` lists the pages of the whole journal; each tree has one of its own.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Iterator, Sequence
from functools import cache, partial
from hashlib import blake2b
from pathlib import Path
from typing import TYPE_CHECKING

from backbud import words
from backbud.collection.state import Tree
from backbud.memo import NO_MEMO, Identical, Memo
from backbud.pages import bench, kind, links, place, season, stores, weather
from backbud.pages.sheet import MOST_VIGOUR, listed, sheet_of
from backbud.views.bench import OfTree, bench_view, of_tree
from backbud.views.day import open_works_of
from backbud.views.narrow import only_tree, own_inputs, without_trees
from backbud.views.nursery import Nursery
from backbud.views.place import StandsThere, by_place, place_view, stands_there
from backbud.views.tree import trees_view

if TYPE_CHECKING:
    from jinja2 import Environment, Template

TEMPLATES = Path(__file__).parent / "templates"
# HTML, 13.2.3.5: what a parser takes for an error.
_NO_CHARACTER = re.compile("[\x00-\x08\x0b\x0e-\x1f\x7f-\x9f\ufdd0-\ufdef\ufffe\uffff]")
# The assets by the name that templates use.
ASSETS = {"style": "backbud.css", "leaf": "leaf.svg"}


def render_pages(view: Nursery, kept: Memo = NO_MEMO) -> dict[str, bytes]:
    """Render the whole set: relative path to bytes, the same bytes for the same view.

    `kept`: what an earlier run of this process left.
    """
    return dict(pages_of(view, kept))


def pages_of(view: Nursery, kept: Memo = NO_MEMO) -> Iterator[tuple[str, bytes]]:
    """Render the whole set page by page, what the pages show first: path and bytes."""
    assets = {name: _asset(file) for name, file in ASSETS.items()}
    yield from assets.values()
    shared: dict[str, object] = {
        "title": view.title,
        "home": view.home,
        "today": words.full_day(view.today),
        "today_iso": view.today.isoformat(),
        "assets": {name: path for name, (path, _) in assets.items()},
    }
    around = kept.same("around pages", (without_trees(view), shared))
    for path, sheet in SHEETS:
        yield path, sheet(view, shared, around, kept)
    yield from _places(view, shared, around, kept)
    yield from _kinds(view, shared, around, kept)
    for tree in view.trees:
        # A tree's page is made from nothing but what is that tree's own.
        own = only_tree(view, tree)
        yield kept.once(("page", tree.handle), own_inputs(own, around), partial(_tree, own, shared))


def lone_page(template: str, shown: dict[str, object]) -> bytes:
    """A page that is no part of the set: asked for over the network, and made then."""
    return _octets(_template(template).render(shown))


def stylesheet() -> bytes:
    """The one stylesheet."""
    return (TEMPLATES / ASSETS["style"]).read_bytes()


def no_page(title: str) -> bytes:
    """What stands in the place of the page of a tree that could not be made: no template."""
    from markupsafe import escape

    return (
        '<!doctype html>\n<html lang="en">\n<head>\n<meta charset="utf-8">\n'
        f"<title>{escape(title)}</title>\n</head>\n<body>\n<h1>{escape(title)}</h1>\n"
        "<p>This page could not be made, by a fault of backbud. backbud check tells which. "
        f'<a href="../{links.INDEX}">At the bench</a></p>\n</body>\n</html>\n'
    ).encode()


def _tree(view: Nursery, shared: dict[str, object]) -> tuple[str, bytes]:
    """The page of the one tree of the view, and its path."""
    sheet = sheet_of(view, view.trees[0])
    return sheet.page, _page("tree.html", shared, {"base": "../", "tree": sheet})


def _macro(template: str, name: str, *arguments: object) -> str:
    macro: Callable[..., str] = getattr(_template(template).module, name)
    return macro(*arguments)


class _Pieces:
    """The markup of thousands of rows: in a page that is rendered a mark stands for them.

    No text of a journal passes for such a mark, since its `<` is written otherwise.
    """

    _MARK = re.compile(rb"<!--(\d+)-->")

    def __init__(self) -> None:
        self._pieces: list[Iterable[bytes]] = []

    def mark(self, pieces: Iterable[bytes]) -> str:
        """What stands for these pieces."""
        from markupsafe import Markup

        self._pieces.append(pieces)
        return Markup(f"<!--{len(self._pieces) - 1}-->")

    def put_in(self, page: bytes) -> bytes:
        """The page with the pieces where their marks stood."""
        parts = self._MARK.split(page)
        whole: list[bytes] = [parts[0]]
        for number, after in zip(parts[1::2], parts[2::2], strict=True):
            whole += self._pieces[int(number)]
            whole.append(after)
        return b"".join(whole)


def _index(view: Nursery, shared: dict[str, object], around: object, kept: Memo) -> bytes:
    found = [
        kept.once(
            ("rows", tree.handle),
            (Identical(around), Identical(tree), Identical(view.plans.get(tree.handle))),
            partial(_rows, view, tree),
        )
        for tree in view.trees
    ]
    walk = [tree.handle for tree in view.trees]
    own = {
        "base": "",
        "bench": bench.sheet(bench_view(found, walk, view.weather, view.today)),
        "problems": view.problems,
        "trees": len(view.trees),
    }
    return _page("index.html", shared, own)


def _rows(view: Nursery, tree: Tree) -> OfTree:
    """What one tree brings to the first page."""
    own = only_tree(view, tree)
    works = open_works_of(own.plans.get(tree.handle, ()), tree, own.names, view.today)
    return of_tree(works, view.today)


def _places(
    view: Nursery, shared: dict[str, object], around: object, kept: Memo
) -> Iterator[tuple[str, bytes]]:
    """The page of each place where a tree stands."""
    for handle, trees in by_place(view.trees).items():
        plans = {tree.handle: view.plans.get(tree.handle, ()) for tree in trees}
        yield kept.once(
            ("place", handle),
            (Identical(around), Identical(*trees), Identical(*plans.values())),
            partial(_place, view, shared, around, handle, trees, kept),
        )


def _place(
    view: Nursery,
    shared: dict[str, object],
    around: object,
    handle: str,
    trees: Sequence[Tree],
    kept: Memo,
) -> tuple[str, bytes]:
    def stands(tree: Tree) -> StandsThere:
        plan = view.plans.get(tree.handle, ())
        return kept.once(
            ("stands there", tree.handle),
            (Identical(around), Identical(tree), Identical(plan)),
            partial(stands_there, tree, plan, view.names, view.today),
        )

    shown = place_view(handle, map(stands, trees), view.names)
    own = {"base": "../", "place": place.sheet(shown, view.today)}
    return links.place_page(handle), _page("place.html", shared, own)


def _kinds(
    view: Nursery, shared: dict[str, object], around: object, kept: Memo
) -> Iterator[tuple[str, bytes]]:
    """The page of each kind of tree of which something is known."""
    for path, (facts, trees) in kind.kinds(view.trees, view.species).items():
        shown = kind.sheet(facts, trees)
        yield kept.once(
            ("kind", path),
            (Identical(around), shown),
            partial(_kind, shared, path, shown),
        )


def _kind(shared: dict[str, object], path: str, shown: kind.KindSheet) -> tuple[str, bytes]:
    return path, _page("kind.html", shared, {"base": "../", "kind": shown})


def _weather(view: Nursery, shared: dict[str, object], around: object, kept: Memo) -> bytes:
    # Of the trees it shows what they are called, and what they drink.
    called = [(tree.handle, tree.title) for tree in view.trees]
    return kept.once(
        "weather page",
        (Identical(around), view.weather, called),
        lambda: _page("weather.html", shared, {"base": "", "weather": weather.sheet(view)}),
    )


def _season(view: Nursery, shared: dict[str, object], around: object, kept: Memo) -> bytes:
    pieces = _Pieces()

    def drawn_line(week: season.WeekRow, line: season.ActInWeek) -> str:
        return kept.once(
            ("drawn line", week.iso, line.act),
            (line,),
            partial(_macro, "weeks.html", "line", line),
        )

    def drawn(week: season.WeekRow) -> str:
        return pieces.mark(
            [
                kept.once(
                    ("drawn week", week.iso),
                    (week,),
                    lambda: _octets(_macro("weeks.html", "week", week, drawn_line)),
                )
            ]
        )

    own = {"base": "", "season": season.sheet(view, kept), "drawn_week": drawn}
    return pieces.put_in(_page("season.html", shared, own))


def _stores(view: Nursery, shared: dict[str, object], around: object, kept: Memo) -> bytes:
    return _page("stores.html", shared, {"base": "", "stores": stores.sheet(view)})


def _trees(view: Nursery, shared: dict[str, object], around: object, kept: Memo) -> bytes:
    """The trees in three parts: own, other people's by owner, and those that are not here."""
    pieces = _Pieces()

    def drawn(trees: Iterable[Tree], part: str) -> str:
        return pieces.mark(
            kept.once(
                ("listed", part, tree.handle),
                (Identical(around), Identical(tree), Identical(view.plans.get(tree.handle))),
                partial(_listed, view, tree, part),
            )
            for tree in trees
        )

    shown = trees_view(view.trees, view.names)
    parts = {
        "base": "",
        "drawn_trees": drawn,
        "own": shown.own,
        "others": shown.others,
        "gone": shown.gone,
    }
    return pieces.put_in(_page("trees.html", shared, parts))


# The pages of the whole journal, in the order in which they are made; then each tree has its own.
Sheet = Callable[[Nursery, dict[str, object], object, Memo], bytes]
SHEETS: tuple[tuple[str, Sheet], ...] = (
    (links.INDEX, _index),
    (links.TREES, _trees),
    (links.WEATHER, _weather),
    (links.SEASON, _season),
    (links.STORES, _stores),
)


def _listed(view: Nursery, tree: Tree, part: str) -> bytes:
    """A tree's line in a part of the list."""
    return _octets(_macro("lines.html", part, listed(view, tree)))


def _page(template: str, shared: dict[str, object], own: dict[str, object]) -> bytes:
    return _octets(_template(template).render(shared | own))


def _octets(text: str) -> bytes:
    """A page's octets, with a sign in the place of what no page may hold."""
    return _NO_CHARACTER.sub("\N{REPLACEMENT CHARACTER}", text).encode()


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
    environment.filters["capital"] = words.sentence
    environment.globals |= {
        "link": links.link,
        "number": words.number,
        "sentence": words.sentence,
        "index_page": links.INDEX,
        "trees_page": links.TREES,
        "weather_page": links.WEATHER,
        "season_page": links.SEASON,
        "stores_page": links.STORES,
        "most_vigour": MOST_VIGOUR,
    }
    return environment
