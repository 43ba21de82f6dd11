"""Of very many trees the page of all leads to lists by letter, and each tree stands on one."""

from __future__ import annotations

import re
from collections.abc import Mapping
from pathlib import Path

import html5lib
import pytest
from tests.browser import needs_chromium
from tests.pages.conftest import TODAY, tree
from tests.pages.test_accessible import axe, browser  # noqa: F401
from tests.pages.test_in_chromium import Opened

from backbud.collection.state import Tree
from backbud.pages import Nursery, render_pages
from backbud.views import parts_apart
from backbud.views.parts_apart import parts_apart as apart
from backbud.views.tree import TreesView

OWN = ("ash", "alder", "birch", "Émile")
# Of each the owner: Zoe has two, and is called otherwise than her handle.
OTHERS = {"oak": "p1", "elm": "p2", "yew": "p1"}
GONE = ("fir", "fig", "pine")
NAMES = {"p1": "Zoe", "p2": "Brindacke"}


def every_tree() -> tuple[Tree, ...]:
    return (
        *[tree(one.casefold(), name=one) for one in OWN],
        *[tree(one, owner=owner) for one, owner in OTHERS.items()],
        *[tree(one, standing="died") for one in GONE],
    )


def lists() -> Mapping[str, str]:
    pages = render_pages(Nursery("Trees", TODAY, "Yard", every_tree(), names=NAMES))
    return {path: page.decode() for path, page in pages.items() if path.startswith("trees")}


def listed(page: str) -> set[str]:
    """The trees whose pages a list leads to."""
    return set(re.findall(r'<a href="trees/([^"]+)\.html"', page))


def by_list(pages: Mapping[str, str]) -> dict[str, set[str]]:
    return {path: listed(page) for path, page in pages.items() if "/" not in path}


def view(own: int, others: int, gone: int) -> TreesView:
    one = tree("ash")
    return TreesView((one,) * own, (one,) * others, (one,) * gone)


@pytest.mark.parametrize(
    ("own", "others", "gone", "parts"),
    [
        (1500, 400, 100, ()),
        (1500, 400, 101, ("own",)),
        (2001, 0, 0, ("own",)),
        (700, 1500, 501, ("others",)),
        (6757, 1404, 1839, ("own", "gone")),
        (2500, 2501, 2502, ("gone", "others", "own")),
    ],
)
def test_the_longest_parts_have_pages_of_their_own(
    own: int, others: int, gone: int, parts: tuple[str, ...]
) -> None:
    assert parts_apart.MOST_ROWS == 2000
    assert apart(view(own, others, gone)) == parts


def test_a_few_trees_stand_on_one_page() -> None:
    assert by_list(lists()) == {
        "trees.html": {"ash", "alder", "birch", "%C3%A9mile", *OTHERS, *GONE}
    }


def test_own_trees_go_by_their_letters(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(parts_apart, "MOST_ROWS", 6)
    pages = lists()
    assert by_list(pages) == {
        "trees.html": {*OTHERS, *GONE},
        "trees-own-a.html": {"ash", "alder"},
        "trees-own-b.html": {"birch"},
        "trees-own-e.html": {"%C3%A9mile"},
    }
    assert (
        '<a href="trees-own-a.html">A</a> <span class="soft">2 trees</span>' in pages["trees.html"]
    )


def test_the_trees_of_others_go_by_the_names_of_their_owners(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr(parts_apart, "MOST_ROWS", 0)
    pages = lists()
    assert by_list(pages) == {
        "trees.html": set(),
        "trees-own-a.html": {"ash", "alder"},
        "trees-own-b.html": {"birch"},
        "trees-own-e.html": {"%C3%A9mile"},
        "trees-others-b.html": {"elm"},
        "trees-others-z.html": {"oak", "yew"},
        "trees-gone-f.html": {"fir", "fig"},
        "trees-gone-p.html": {"pine"},
    }
    whole = pages["trees.html"]
    for path in pages:
        if "-" in path:
            assert f'<a href="{path}">' in whole
    assert '<h1>Trees <span class="total">7</span></h1>' in whole
    assert '<h1>Trees <span class="total">2</span></h1>' in pages["trees-gone-f.html"]
    assert "Zoe" in pages["trees-others-z.html"]


def test_whoever_is_led_to_a_letter_finds_the_way_to_it(monkeypatch: pytest.MonkeyPatch) -> None:
    """The page to find on leads to `trees.html#own-a`, `#others` and `#gone`."""
    monkeypatch.setattr(parts_apart, "MOST_ROWS", 0)
    whole = lists()["trees.html"]
    for anchor in ("own-a", "own-b", "own-e", "others", "others-z", "gone", "gone-f"):
        assert whole.count(f' id="{anchor}"') == 1


@pytest.mark.parametrize("most", [0, 6, 2000])
def test_the_pages_are_valid(monkeypatch: pytest.MonkeyPatch, most: int) -> None:
    monkeypatch.setattr(parts_apart, "MOST_ROWS", most)
    parser = html5lib.HTMLParser(strict=True, namespaceHTMLElements=False)
    for path, page in lists().items():
        if "/" not in path:
            parser.parse(page)


class TestByAxe:
    pytestmark = needs_chromium

    def test_nothing_is_found(
        self,
        browser: Opened,  # noqa: F811
        monkeypatch: pytest.MonkeyPatch,
        tmp_path: Path,
    ) -> None:
        monkeypatch.setattr(parts_apart, "MOST_ROWS", 0)
        pages = render_pages(Nursery("Trees", TODAY, "Yard", every_tree(), names=NAMES))
        for path, page in pages.items():
            (tmp_path / path).parent.mkdir(parents=True, exist_ok=True)
            (tmp_path / path).write_bytes(page)
        for path in ("trees.html", "trees-others-z.html", "trees-gone-f.html"):
            found = axe(browser, tmp_path / path, 390, "light", False)
            assert found == {"violations": [], "incomplete": []}, path
