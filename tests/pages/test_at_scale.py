"""Two hundred trees: no page is larger than a phone takes in, and the first says what to do."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import timedelta
from statistics import mean

import pytest
from msgspec.structs import replace
from tests.benchmarks.generate import LAST_DAY, generate
from tests.pages.conftest import TODAY, event, tree
from tests.pages.test_render import Outline

from backbud.collection.state import Entry
from backbud.compiled import nursery_of
from backbud.pages import Nursery, render_pages
from backbud.session import open_session

KB = 1000


@pytest.fixture(scope="module")
def pages(tmp_path_factory: pytest.TempPathFactory) -> Mapping[str, bytes]:
    folder = tmp_path_factory.mktemp("large")
    generate(folder, 20_000)
    session = open_session(str(folder), LAST_DAY, as_of=True)
    plan = session.plan()
    shown = replace(nursery_of(session, plan), registers=session.registers(plan))
    found = render_pages(shown)
    assert sum(path.startswith("trees/") for path in found) == 200
    return found


def elements(page: bytes) -> int:
    return len(Outline(page).tags)


@pytest.mark.slow
def test_the_first_page_of_200_trees(pages: Mapping[str, bytes]) -> None:
    first = pages["index.html"]
    assert len(first) < 250 * KB and elements(first) < 1500
    assert first.count(b'<li class="round') <= 30


@pytest.mark.slow
def test_the_pages_of_trees_and_places(pages: Mapping[str, bytes]) -> None:
    trees = [page for path, page in pages.items() if path.startswith("trees/")]
    assert mean(map(len, trees)) < 45 * KB and max(map(len, trees)) < 300 * KB
    assert max(map(elements, trees)) < 4000
    for path, page in pages.items():
        if path.startswith(("places/", "kinds/")):
            assert elements(page) < 4000 and len(page) < 100 * KB, path


@pytest.mark.slow
def test_no_page_of_200_trees_has_more_than_4000_elements(pages: Mapping[str, bytes]) -> None:
    """Nor is the index larger than a hundredth of them all."""
    for path, page in pages.items():
        if path.endswith(".html"):
            assert elements(page) <= 4000, path
    index = sum(len(content) for path, content in pages.items() if path.startswith("find/"))
    assert index < sum(map(len, pages.values())) / 100


def test_the_pages_of_the_whole_journal(pages: Mapping[str, bytes]) -> None:
    """None has more than 4,000 elements, and the first 100 kB of each hold what it is there for."""
    useful = {
        "season.html": b'id="kinds"',
        "year-back.html": b'id="missed"',
        "weather.html": b'id="frost"',
        "stores.html": b'id="shelf"',
        "trees.html": b'id="own"',
        "registers.html": b'id="unpaid"',
    }
    for path, mark in useful.items():
        assert elements(pages[path]) < 4000, path
        assert mark in pages[path][: 100 * KB], path


def test_twenty_years_of_a_tree_that_is_written_of_every_week() -> None:
    """A thousand lines: under 300 kB without pictures."""
    acts = (
        ("fed", "20-10-20 0.5 g/L"), ("pinched", "back to 2 leaves"), ("moved", "tunnel"),
        ("noted", "buds tight, no frost damage, and a thick root crosses under the front"),
        ("checked", "wire fine"),
    )  # fmt: skip
    days = [TODAY - timedelta(weeks=n) for n in range(1040)]
    history = tuple(
        Entry(event(*acts[n % 5][:1], str(day), acts[n % 5][1], line=n + 1))
        for n, day in enumerate(reversed(days))
    )
    view = Nursery("Long", TODAY, "", (tree("hoshi", history=history),))
    assert len(render_pages(view)["trees/hoshi.html"]) < 300 * KB
