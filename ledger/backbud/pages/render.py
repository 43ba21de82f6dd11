"""What the pages are made from comes in; every page and asset as bytes, by path, comes out."""

from __future__ import annotations

from collections.abc import Iterable
from functools import cache
from hashlib import blake2b
from pathlib import Path
from typing import TYPE_CHECKING

from backbud import words
from backbud.collection.state import Tree
from backbud.pages import links, work
from backbud.pages.sheet import MOST_VIGOUR, Listed, listed, sheet_of
from backbud.pages.view import Nursery

if TYPE_CHECKING:
    from jinja2 import Environment, Template

TEMPLATES = Path(__file__).parent / "templates"
# The assets by the name that templates use.
ASSETS = {"style": "backbud.css", "leaf": "leaf.svg"}


def render_pages(view: Nursery) -> dict[str, bytes]:
    """Render the whole set: relative path to bytes, the same bytes for the same view."""
    assets = {name: _asset(file) for name, file in ASSETS.items()}
    pages = dict(assets.values())
    shared: dict[str, object] = {
        "title": view.title,
        "home": view.home,
        "today": words.full_day(view.today),
        "today_iso": view.today.isoformat(),
        "assets": {name: path for name, (path, _) in assets.items()},
    }
    pages[links.INDEX] = _page("index.html", shared, _index(view))
    pages[links.TREES] = _page("trees.html", shared, _trees(view))
    for tree in view.trees:
        sheet = sheet_of(view, tree)
        pages[sheet.page] = _page("tree.html", shared, {"base": "../", "tree": sheet})
    return pages


def _index(view: Nursery) -> dict[str, object]:
    return {
        "base": "",
        "board": work.board(view, view.trees),
        "problems": view.problems,
        "trees": len(view.trees),
    }


def _trees(view: Nursery) -> dict[str, object]:
    """The trees in three parts: own, other people's by owner, and those that are not here."""
    own = [tree for tree in view.trees if tree.here and not tree.owner]
    others = [tree for tree in view.trees if tree.here and tree.owner]
    gone = [tree for tree in view.trees if not tree.here]
    return {
        "base": "",
        "own": _listed(view, sorted(own, key=_by_title)),
        "others": _listed(
            view, sorted(others, key=lambda t: (view.name(t.owner).casefold(), _by_title(t)))
        ),
        "gone": _listed(view, sorted(gone, key=_by_title)),
    }


def _by_title(tree: Tree) -> tuple[str, str]:
    return tree.title.casefold(), tree.handle


def _listed(view: Nursery, trees: Iterable[Tree]) -> list[Listed]:
    return [listed(view, tree) for tree in trees]


def _page(template: str, shared: dict[str, object], own: dict[str, object]) -> bytes:
    return _template(template).render(shared, **own).encode()


def _asset(name: str) -> tuple[str, bytes]:
    """An asset's path, its digest in the name so that no browser keeps an old one."""
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
        "most_vigour": MOST_VIGOUR,
    }
    return environment
