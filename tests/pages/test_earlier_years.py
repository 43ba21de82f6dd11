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
from backbud.views.long_history import (
    FEWEST_EARLIER,
    LONG,
    MOST_EARLIER,
    MOST_WITH_TREE,
    YEARS_WITH_TREE,
    years_by_page,
)

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


def test_whoever_is_led_to_a_year_finds_the_way_to_it() -> None:
    """The page to find on leads to `trees/hoshi.html#y2012`."""
    pages = pages_of(old_tree(10))
    whole, earlier = (pages[path].decode() for path in sorted(pages))
    for year in YEARS:
        assert whole.count(f' id="y{year}"') == 1
        if year < 2019:
            assert f'<a id="y{year}" href="../trees/hoshi/earlier.html#y{year}">' in whole
            assert f'<dl class="days" id="y{year}">' in earlier


@pytest.mark.parametrize("a_year", [10, 28])
def test_every_way_from_it_leads_somewhere(a_year: int) -> None:
    view = Nursery("Trees", TODAY, "Yard", trees=(old_tree(a_year),), plans={"hoshi": ()})
    pages = render_pages(view)
    earlier = [path for path in pages if path.startswith("trees/hoshi/")]
    assert len(earlier) == (2 if a_year > 20 else 1)
    for at in earlier:
        page = pages[at].decode()
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


def test_eight_years_stay_on_the_page_where_nothing_came_before() -> None:
    assert sorted(pages_of(old_tree(28, range(2019, 2027)))) == ["trees/hoshi.html"]


def test_of_a_very_long_history_only_the_latest_lines_stay_on_the_page() -> None:
    """Twenty-eight lines a year for twenty years are more than `LONG`."""
    pages = pages_of(old_tree(28))
    by_page = {path: words(page) for path, page in sorted(pages.items())}
    years = {path: sorted({word[1:5] for word in those}) for path, those in by_page.items()}
    assert years == {
        "trees/hoshi.html": ["2023", "2024", "2025", "2026"],
        "trees/hoshi/earlier.html": [str(year) for year in range(2009, 2023)],
        "trees/hoshi/earlier-2.html": ["2007", "2008"],
    }
    assert sorted(word for those in by_page.values() for word in those) == sorted(
        f"w{year}d{day:02d}" for year in YEARS for day in range(1, 29)
    )
    whole = pages["trees/hoshi.html"].decode()
    for year in range(2007, 2023):
        page = "earlier" if year > 2008 else "earlier-2"
        assert f'<a id="y{year}" href="../trees/hoshi/{page}.html#y{year}">' in whole
        assert f'<dl class="days" id="y{year}">' in pages[f"trees/hoshi/{page}.html"].decode()
    for one, other, span in (("", "-2", "2007–2008"), ("-2", "", "2009–2022")):
        way = f'<a href="../../trees/hoshi/earlier{other}.html">History {span}</a>'
        assert way in pages[f"trees/hoshi/earlier{one}.html"].decode()


@pytest.mark.parametrize(
    ("entries", "years"),
    [
        # Up to LONG entries eight years stay, however many lines they have.
        ([30] * 10, (8, 2)),
        ([31, *[30] * 9], (3, 7)),
        # No more than MOST_WITH_TREE, but for the two years that stand open.
        ([40, 40, 40, 200], (3, 1)),
        ([40, 40, 41, 200], (2, 2)),
        ([150, 90, 70], (2, 1)),
        # Less than FEWEST_EARLIER is no page.
        ([150, 150, 59], (3,)),
        # No more than MOST_EARLIER on another page, but for one year.
        ([60, 60, 200, 200, 1], (2, 2, 1)),
        ([60, 60, 500, 10], (2, 1, 1)),
        ([], (0,)),
    ],
)
def test_how_many_years_each_page_has(entries: list[int], years: tuple[int, ...]) -> None:
    assert (LONG, MOST_WITH_TREE, FEWEST_EARLIER, MOST_EARLIER) == (300, 120, 60, 400)
    assert years_by_page(entries) == years


def test_the_page_is_valid() -> None:
    parser = html5lib.HTMLParser(strict=True, namespaceHTMLElements=False)
    for page in pages_of(old_tree(28)).values():
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
        view = Nursery("Trees", TODAY, "Yard", trees=(old_tree(28),), plans={"hoshi": ()})
        for path, page in render_pages(view).items():
            (tmp_path / path).parent.mkdir(parents=True, exist_ok=True)
            (tmp_path / path).write_bytes(page)
        for page in ("trees/hoshi.html", "trees/hoshi/earlier.html"):
            found = axe(browser, tmp_path / page, width, "light", False)
            assert found == {"violations": [], "incomplete": []}, page
