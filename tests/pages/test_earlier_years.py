"""The years of a long history that came before the latest stand on a page of their own."""

from __future__ import annotations

import posixpath
import re
from pathlib import Path

import html5lib
import pytest
from tests.browser import needs_chromium
from tests.pages.conftest import TODAY, event, tree
from tests.pages.test_accessible import axe, browser  # noqa: F401
from tests.pages.test_in_chromium import Opened

from backbud.collection.state import Entry, Tree
from backbud.pages import Nursery, render_pages
from backbud.pages.history import FEWEST_EARLIER, YEARS_WITH_TREE

YEARS = range(2007, 2027)


def old_tree(a_year: int, years: range = YEARS) -> Tree:
    """A tree on which so many lines were written each year, each with a word of its own."""
    done = [
        event("pruned", f"{year}-05-{day:02d}", f"w{year}d{day:02d}")
        for year in years
        for day in range(1, a_year + 1)
    ]
    return tree("hoshi", history=tuple(map(Entry, done)))


def pages_of(one: Tree) -> dict[str, bytes]:
    view = Nursery("Trees", TODAY, "Yard", trees=(one,), plans={one.handle: ()})
    found = render_pages(view)
    return {path: page for path, page in found.items() if path.startswith("trees/")}


def words(page: bytes) -> list[str]:
    return re.findall(r"w\d{4}d\d\d", page.decode())


def test_each_line_stands_on_one_of_the_two_pages() -> None:
    pages = pages_of(old_tree(10))
    assert sorted(pages) == ["trees/hoshi.html", "trees/hoshi/earlier.html"]
    shown, earlier = words(pages["trees/hoshi.html"]), words(pages["trees/hoshi/earlier.html"])
    both = [*shown, *earlier]
    assert sorted(both) == sorted(f"w{year}d{day:02d}" for year in YEARS for day in range(1, 11))
    assert {word[1:5] for word in shown} == {str(year) for year in range(2019, 2027)}
    assert len(range(2019, 2027)) == YEARS_WITH_TREE
    # The newest first, as on the tree's own page.
    assert earlier[0].startswith("w2018")
    assert earlier[-1].startswith("w2007")


def test_each_leads_to_the_other() -> None:
    pages = pages_of(old_tree(10))
    assert (
        b'<a href="../trees/hoshi/earlier.html">History 2007\xe2\x80\x932018</a>'
        in (pages["trees/hoshi.html"])
    )
    assert b'<a href="../../trees/hoshi.html">' in pages["trees/hoshi/earlier.html"]


def test_every_way_from_it_leads_somewhere() -> None:
    view = Nursery("Trees", TODAY, "Yard", trees=(old_tree(10),), plans={"hoshi": ()})
    pages = render_pages(view)
    page = pages["trees/hoshi/earlier.html"].decode()
    ids = set(re.findall(r' id="([^"]+)"', page))
    for way in re.findall(r' href="([^"]+)"', page):
        path, _, anchor = way.partition("#")
        if not path:
            assert anchor in ids
        elif not path.endswith(".ics"):
            assert posixpath.normpath(f"trees/hoshi/{path}") in pages


def test_the_years_are_drawn_from_all_of_it() -> None:
    """The lines of all twenty years stay on the tree's own page."""
    page = pages_of(old_tree(10))["trees/hoshi.html"].decode()
    drawn = re.findall(r'<div class="year-line"><b>(\d{4})</b>', page)
    assert sorted(map(int, drawn)) == list(YEARS)


@pytest.mark.parametrize(("earlier", "has_page"), [(FEWEST_EARLIER - 1, False), (60, True)])
def test_a_few_lines_stay_on_the_page(earlier: int, has_page: bool) -> None:
    old = [event("pruned", f"{1900 + at}-05-01") for at in range(earlier)]
    latest = [event("pruned", f"{year}-05-01") for year in range(2019, 2027)]
    pages = pages_of(tree("hoshi", history=tuple(map(Entry, [*old, *latest]))))
    assert ("trees/hoshi/earlier.html" in pages) is has_page


def test_eight_years_stay_on_the_page_however_long() -> None:
    assert sorted(pages_of(old_tree(28, range(2019, 2027)))) == ["trees/hoshi.html"]


def test_the_page_is_valid() -> None:
    parser = html5lib.HTMLParser(strict=True, namespaceHTMLElements=False)
    for page in pages_of(old_tree(10)).values():
        parser.parse(page.decode())


class TestByAxe:
    pytestmark = needs_chromium

    @pytest.mark.parametrize("width", [390, 1280])
    def test_nothing_is_found(
        self,
        browser: Opened,  # noqa: F811
        tmp_path: Path,
        width: int,
    ) -> None:
        view = Nursery("Trees", TODAY, "Yard", trees=(old_tree(10),), plans={"hoshi": ()})
        for path, page in render_pages(view).items():
            (tmp_path / path).parent.mkdir(parents=True, exist_ok=True)
            (tmp_path / path).write_bytes(page)
        found = axe(browser, tmp_path / "trees/hoshi/earlier.html", width, "light", False)
        assert found == {"violations": [], "incomplete": []}
