"""Makes the papers of a person, each a page of its own."""

from __future__ import annotations

from collections.abc import Iterator

from backbud.pages import papers
from backbud.pages.templating import assets, page, style
from backbud.tongue import full_day
from backbud.views.paper import PapersView


def paper_pages(
    view: PapersView, *, base: str = "../../", alone: bool = False
) -> Iterator[tuple[str, bytes]]:
    """Every paper of a person as a page: path and bytes. `base`: the way from it to the stylesheet
    and to the photographs; `alone`: with the stylesheet in it, so that it stands by itself."""
    files = {name: path for name, (path, _) in assets().items()}
    for one in papers.papers(view):
        shown: dict[str, object] = {
            "page": one,
            "sheet": one.sheet,
            "view": one.sheet.view,
            "base": base,
            "assets": files,
            "style": style() if alone else "",
            "today": full_day(one.sheet.view.day),
            "tax_name": view.statement.tax_name if view.statement is not None else "tax",
        }
        yield one.path, page(f"{one.sort}.html", {}, shown)
