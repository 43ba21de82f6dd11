"""Every kind of page by two checkers that are not ours: axe-core in a real browser for WCAG 2.2 AA,
and html5lib for valid HTML."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from importlib.resources import files
from pathlib import Path
from typing import Any

import pytest
from tests.browser import needs_chromium
from tests.pages.test_in_chromium import OPEN_ALL, PAGES, Opened

from backbud.pages import Nursery, render_pages

TAGS = ("wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice")
# What axe cannot decide by itself, decided by hand: the colours of letters in a drawing, and beside
# the bud of a heading. `test_every_text_on_the_page_can_be_read` has the contrast of each.
BY_HAND = {"color-contrast"}
AXE = """
(async () => {
  const found = await axe.run(document, {runOnly: {type: 'tag', values: %s},
    rules: {'color-contrast': {enabled: %s}}});
  const told = some => some.map(
    one => [one.id, one.nodes.slice(0, 3).map(node => node.html.slice(0, 200))]);
  return {violations: told(found.violations), incomplete: told(found.incomplete)};
})()
"""


@pytest.fixture(scope="module")
def pages(nursery: Nursery) -> Mapping[str, bytes]:
    return render_pages(nursery)


@pytest.fixture(scope="module")
def folder(pages: Mapping[str, bytes], tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("made")
    for path, page in pages.items():
        (folder / path).parent.mkdir(parents=True, exist_ok=True)
        (folder / path).write_bytes(page)
    return folder


@pytest.fixture(scope="module")
def browser(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Opened]:
    one = Opened(tmp_path_factory.mktemp("profile"))
    yield one
    one.close()


def axe(browser: Opened, page: Path, width: int, scheme: str, colours: bool) -> dict[str, Any]:
    """What axe-core finds on a page of which all is open."""
    browser.open(page, width, scheme)
    browser.value(OPEN_ALL)
    script = files("axe_playwright_python").joinpath("axe.min.js").read_text("utf-8")
    browser.value(f"{script};0")
    found = browser.call(
        "Runtime.evaluate",
        expression=AXE % (list(TAGS), "true" if colours else "false"),
        awaitPromise=True,
        returnByValue=True,
    )
    answer: dict[str, Any] = found["result"]["value"]
    return answer


class TestByAxe:
    pytestmark = needs_chromium

    @pytest.mark.parametrize("page", PAGES)
    def test_nothing_is_found_on_a_phone(self, browser: Opened, folder: Path, page: str) -> None:
        found = axe(browser, folder / page, 390, "light", False)
        assert found == {"violations": [], "incomplete": []}

    @pytest.mark.long
    @pytest.mark.slow
    @pytest.mark.parametrize("page", [*PAGES, "trees/hoshi.html#card"])
    @pytest.mark.parametrize("scheme", ["light", "dark"])
    @pytest.mark.parametrize("width", [390, 1280])
    def test_nothing_is_found_anywhere(
        self, browser: Opened, folder: Path, width: int, scheme: str, page: str
    ) -> None:
        found = axe(browser, folder / page, width, scheme, True)
        assert found["violations"] == []
        assert {name for name, _ in found["incomplete"]} <= BY_HAND


def test_every_page_is_valid(pages: Mapping[str, bytes]) -> None:
    """HTML Living Standard, 13.2, as html5lib reads it: no error of any parse."""
    from html5lib import HTMLParser

    for path, page in pages.items():
        if path.endswith(".html"):
            parser = HTMLParser()
            parser.parse(page)
            # An attribute that SVG has twice over, and the like, is an error too.
            assert parser.errors == [], (path, parser.errors[:3])
