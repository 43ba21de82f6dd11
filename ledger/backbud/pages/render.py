"""Renders all pages of a journal on a day, and the stylesheet and pictures that they use.

`SHEETS` lists the pages of the whole journal; each tree has one of its own.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from functools import cache, partial
from hashlib import blake2b
from pathlib import Path
from typing import TYPE_CHECKING, NamedTuple

from backbud import words
from backbud.collection.state import Tree
from backbud.memo import NO_MEMO, Identical, Memo
from backbud.pages import (
    bench,
    find,
    finding,
    kind,
    links,
    papers,
    people,
    place,
    registers,
    stores,
    visits,
    ways,
    weather,
    year,
    year_back,
)  # fmt: skip
from backbud.pages.find import MANY, lettered
from backbud.pages.isolated import isolated
from backbud.pages.paper import labels
from backbud.pages.paper import week as week_sheet
from backbud.pages.sheet import MOST_VIGOUR, listed, sheet_of
from backbud.views.bench import OfTree, bench_view, of_tree
from backbud.views.day import open_works_of
from backbud.views.finding import Findable, others_found, tree_found
from backbud.views.forgotten import Forgotten
from backbud.views.narrow import only_tree, own_inputs, without_trees
from backbud.views.nursery import Nursery
from backbud.views.paper import PapersView
from backbud.views.place import StandsThere, by_place, place_view, stands_there
from backbud.views.registers.register import RegisterView, csv_of
from backbud.views.tree import trees_view
from backbud.views.week_on_paper import WeekOfTree, of_week, week_on_paper

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
        "has_people": bool(view.people),
        "assets": {name: path for name, (path, _) in assets.items()},
        "frame": "frame.html",
        "public": False,
        "has_visits": bool(view.accounts),
        "address": view.address,
        "ways": ways.EVERY_PAGE,
        "handed": False,
    }
    around = kept.same("around pages", (without_trees(view), shared))
    yield from _finding(view, kept).files
    yield _finding_script()
    for path, sheet in SHEETS:
        yield path, sheet(view, shared, around, kept)
    for register in view.registers:
        yield links.register_csv(register.register), csv_of(register)
    yield from _parts_of_registers(view, shared, around, kept)
    yield from _papers(view, kept)
    yield from _places(view, shared, around, kept)
    yield from _all_labels(view, shared, around, kept)
    yield from _kinds(view, shared, around, kept)
    for tree in view.trees:
        # A tree's page is made from nothing but what is that tree's own.
        own = only_tree(view, tree)
        yield kept.once(("page", tree.handle), own_inputs(own, around), partial(_tree, own, shared))


def assets() -> dict[str, tuple[str, bytes]]:
    """Each asset's path and bytes by the name that templates use."""
    return {name: _asset(file) for name, file in ASSETS.items()}


def page(template: str, shared: dict[str, object], own: dict[str, object]) -> bytes:
    """A page's octets. `shared`: what every page of a set is shown."""
    return _page(template, shared, own)


def helpers_sheets(
    view: Nursery, shared: dict[str, object], around: object, kept: Memo
) -> Iterator[tuple[str, bytes]]:
    """What of the set a helper has: at the bench, the trees, each place, and the week on paper."""
    yield links.INDEX, _index(view, shared, around, kept)
    yield links.TREES, _trees(view, shared, around, kept)
    yield links.WEEK, _week(view, shared, around, kept)
    yield from _places(view, shared, around, kept)


def lone_page(template: str, shown: dict[str, object]) -> bytes:
    """A page that is no part of the set: asked for over the network, and made then."""
    return _octets(_template(template).render(shown))


def paper_pages(
    view: PapersView, *, base: str = "../../", alone: bool = False
) -> Iterator[tuple[str, bytes]]:
    """Every paper of a person as a page: path and bytes. `base`: the way from it to the stylesheet
    and to the photographs; `alone`: with the stylesheet in it, so that it stands by itself."""
    assets = {name: _asset(file)[0] for name, file in ASSETS.items()}
    for page in papers.papers(view):
        shown: dict[str, object] = {
            "page": page,
            "sheet": page.sheet,
            "view": page.sheet.view,
            "base": base,
            "assets": assets,
            "style": _style() if alone else "",
            "today": words.full_day(page.sheet.view.day),
            "tax_name": view.statement.tax_name if view.statement is not None else "tax",
        }
        yield page.path, _page(f"{page.sort}.html", {}, shown)


def _style() -> str:
    from markupsafe import Markup

    return Markup(stylesheet().decode())


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
    tree = view.trees[0]
    sheet = sheet_of(view, tree)
    own = {"base": "../", "tree": sheet, "ways": ways.of_tree(tree)}
    return sheet.page, _page("tree.html", shared, own)


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
    found = [rows.bench for rows in _all_rows(view, around, kept)]
    own = {
        "base": "",
        "bench": bench.sheet(bench_view(found, _walk(view), view.weather, view.today)),
        "problems": view.problems,
        "ways": ways.OF_BENCH,
        "trees": len(view.trees),
    }
    return _page("index.html", shared, own)


class _Rows(NamedTuple):
    """What one tree brings to the first page, and to the week on paper."""

    bench: OfTree
    week: WeekOfTree


def _all_rows(view: Nursery, around: object, kept: Memo) -> Iterator[_Rows]:
    for tree in view.trees:
        yield kept.once(
            ("rows", tree.handle),
            (Identical(around), Identical(tree), Identical(view.plans.get(tree.handle))),
            partial(_rows, view, tree),
        )


def _rows(view: Nursery, tree: Tree) -> _Rows:
    own = only_tree(view, tree)
    works = open_works_of(own.plans.get(tree.handle, ()), tree, own.names, view.today)
    return _Rows(of_tree(works, view.today), of_week(works, view.today))


def _walk(view: Nursery) -> list[str]:
    return [tree.handle for tree in view.trees]


def _week(view: Nursery, shared: dict[str, object], around: object, kept: Memo) -> bytes:
    """The week on paper, from the same rows as the first page."""
    found = [rows.week for rows in _all_rows(view, around, kept)]
    shown = week_sheet.sheet(week_on_paper(found, _walk(view), view.today), view.title)
    return _page("week.html", shared, {"base": "../", "week": shown})


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


def _all_labels(
    view: Nursery, shared: dict[str, object], around: object, kept: Memo
) -> Iterator[tuple[str, bytes]]:
    """The labels of the trees of each place."""
    for handle, trees in by_place(view.trees).items():
        yield kept.once(
            ("labels", handle),
            (
                Identical(around),
                [(tree.handle, tree.title, tree.kind, tree.cultivar) for tree in trees],
            ),
            partial(_labels, view, shared, handle, trees, kept),
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
    own = {
        "base": "../",
        "place": place.sheet(shown, view.today),
        "ways": ways.of_place(handle, shown.place_name, view.first_handles),
    }
    return links.place_page(handle), _page("place.html", shared, own)


def _finding(view: Nursery, kept: Memo) -> finding.Index:
    """What can be found; first what stands for many trees."""
    names = kept.same("names found", dict(view.names))
    found = [
        kept.once(
            ("found", tree.handle),
            (Identical(tree), Identical(names)),
            # Who is forgotten has another name, so the names are no longer the same then.
            partial(_tree_found, tree, names, view.hidden),
        )
        # What is here comes first.
        for tree in sorted(view.trees, key=lambda tree: not tree.here)
    ]
    others = kept.same("others found", others_found(view.trees, view.species, names, view.people))
    return kept.once(
        "index", (Identical(others, *found),), lambda: finding.index_of((*others, *found))
    )


def _tree_found(
    tree: Tree, names: Mapping[str, str], hidden: Mapping[str, tuple[str, ...]]
) -> Findable:
    return Forgotten(hidden).told(tree_found(tree, names))


def _finding_script() -> tuple[str, bytes]:
    """The script of the page to find on; it lies with those that it loads."""
    path, script = _asset("find.js")
    return path.replace("assets/", links.FIND_FOLDER), script


def _find(view: Nursery, shared: dict[str, object], around: object, kept: Memo) -> bytes:
    index = _finding(view, kept)
    trees = trees_view(view.trees, view.names)
    others = others_found(view.trees, view.species, view.names, view.people)
    own = {
        "base": "",
        "script": _finding_script()[0],
        "index": index,
        "items": finding.ITEMS,
        "letters": find.letters(trees),
        "lists": find.lists(others),
    }
    return _page("find.html", shared, own)


def _labels(
    view: Nursery, shared: dict[str, object], handle: str, trees: Sequence[Tree], kept: Memo
) -> tuple[str, bytes]:
    name = view.name(handle) if handle else ""
    own = {"base": "../../", "sheet": labels.sheet(handle, name, trees, view.address, kept)}
    return links.labels_page(handle), _page("labels.html", shared, own)


def _kinds(
    view: Nursery, shared: dict[str, object], around: object, kept: Memo
) -> Iterator[tuple[str, bytes]]:
    """The page of each kind of tree of which something is known."""
    for path, (facts, trees) in kind.kinds(view.trees, view.species).items():
        known = view.kinds.get(facts.title)
        shown = kind.sheet(facts, trees, known, view.title, view.today)
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


def _year(view: Nursery, shared: dict[str, object], around: object, kept: Memo) -> bytes:
    return _page(
        "year.html", shared, {"base": "", "year": year.sheet(view, kept), "ways": ways.OF_YEAR}
    )


def _year_back(view: Nursery, shared: dict[str, object], around: object, kept: Memo) -> bytes:
    return _page("year-back.html", shared, {"base": "", "back": year_back.sheet(view, kept)})


def _stores(view: Nursery, shared: dict[str, object], around: object, kept: Memo) -> bytes:
    return _page("stores.html", shared, {"base": "", "stores": stores.sheet(view)})


def _people(view: Nursery, shared: dict[str, object], around: object, kept: Memo) -> bytes:
    own = {
        "base": "",
        "people": people.sheet(view.people),
        "ways": ways.of_people(view.people, view.first_handles),
    }
    return _page("people.html", shared, own)


def _registers(view: Nursery, shared: dict[str, object], around: object, kept: Memo) -> bytes:
    sheets = tuple(map(registers.sheet, view.registers))
    return kept.once(
        "registers page",
        (Identical(around), view.registers),
        lambda: _page("registers.html", shared, {"base": "", "registers": sheets}),
    )


def _parts_of_registers(
    view: Nursery, shared: dict[str, object], around: object, kept: Memo
) -> Iterator[tuple[str, bytes]]:
    """The pages of the registers that are too long for one."""
    for register in view.registers:
        yield from kept.once(
            ("register", register.register),
            (Identical(around), register),
            partial(_parts_of, register, shared),
        )


def _parts_of(register: RegisterView, shared: dict[str, object]) -> tuple[tuple[str, bytes], ...]:
    return tuple(
        (part.page, _page("register.html", shared, {"base": "../", "part": part}))
        for part in registers.part_sheets(register)
    )


def _visits(view: Nursery, shared: dict[str, object], around: object, kept: Memo) -> bytes:
    """Other people's trees in the house; for the keeper alone, for it has prices and people."""
    pages = {one.person: tuple(papers.papers(one)) for one in view.papers}
    own = {"base": "", "visits": visits.sheet(view.accounts, pages, view.today)}
    return _page("visits.html", shared, own)


def _papers(view: Nursery, kept: Memo) -> Iterator[tuple[str, bytes]]:
    """The papers of each person, each a page of its own."""
    for one in view.papers:
        yield from kept.once(("papers", one.person), (one,), partial(_papers_of, one))


def _papers_of(view: PapersView) -> tuple[tuple[str, bytes], ...]:
    return tuple(paper_pages(view))


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
        "lettered": lettered(shown.own),
        "many": MANY,
        "others": shown.others,
        "gone": shown.gone,
        "unshown": view.unshown,
        "handed_out": [
            {"title": title, "page": links.link(path)} for title, path in view.handed_out
        ],
    }
    return pieces.put_in(_page("trees.html", shared, parts))


# The pages of the whole journal, in the order in which they are made; then each tree has its own.
Sheet = Callable[[Nursery, dict[str, object], object, Memo], bytes]
SHEETS: tuple[tuple[str, Sheet], ...] = (
    (links.INDEX, _index),
    (links.TREES, _trees),
    (links.WEATHER, _weather),
    (links.YEAR, _year),
    (links.YEAR_BACK, _year_back),
    (links.STORES, _stores),
    (links.PEOPLE, _people),
    (links.REGISTERS, _registers),
    (links.VISITS, _visits),
    (links.WEEK, _week),
    (links.FIND, _find),
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
    environment.filters["isolated"] = isolated
    environment.globals |= {
        "link": links.link,
        "subscription": ways.subscription,
        "number": words.number,
        "sentence": words.sentence,
        "index_page": links.INDEX,
        "trees_page": links.TREES,
        "weather_page": links.WEATHER,
        "year_page": links.YEAR,
        "year_back_page": links.YEAR_BACK,
        "people_page": links.PEOPLE,
        "stores_page": links.STORES,
        "registers_page": links.REGISTERS,
        "visits_page": links.VISITS,
        "week_page": links.WEEK,
        "find_page": links.FIND,
        "letter_anchor": links.letter_anchor,
        "most_vigour": MOST_VIGOUR,
    }
    return environment
