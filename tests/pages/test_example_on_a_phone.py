"""Every page of the example in a narrow window, in English and in German: nothing runs over the
side, not even on the narrowest screen of WCAG 2.2 (1.4.10, 320 pixels), and each link is as large
as a thumb."""

from __future__ import annotations

import shutil
from collections.abc import Iterator
from datetime import date
from pathlib import Path

import pytest
from tests.browser import needs_chromium
from tests.pages.test_in_chromium import OPEN_ALL, Opened
from tests.project.test_example import EXAMPLE

from backbud import tongue
from backbud.compiled import nursery_of
from backbud.pages import render_pages
from backbud.session import open_session

pytestmark = needs_chromium

SMALL = """
[...document.querySelectorAll('a, summary, button, input')]
  .filter(one => one.offsetParent && !one.closest('.skip'))
  .map(one => [one.textContent, one.getBoundingClientRect()])
  .filter(([_, box]) => box.width < 44 || box.height < 43.5)
  .map(([text, box]) => [text.slice(0, 40), box.width, box.height])
"""


# German words are the longer ones.
@pytest.fixture(scope="module", params=[pytest.param("en", marks=pytest.mark.long), "de"])
def made(
    request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory
) -> Iterator[Path]:
    journal = tmp_path_factory.mktemp("example") / "journal"
    shutil.copytree(EXAMPLE, journal, ignore=shutil.ignore_patterns("made*", ".backbud"))
    if request.param != "en":
        settings = journal / "backbud.toml"
        settings.write_text(f'speaks = "{request.param}"\n{settings.read_text()}')
    folder = tmp_path_factory.mktemp("made")
    session = open_session(str(journal), date(2026, 11, 29), as_of=True)
    for path, page in render_pages(nursery_of(session, session.plan())).items():
        (folder / path).parent.mkdir(parents=True, exist_ok=True)
        (folder / path).write_bytes(page)
    yield folder
    tongue.speak(tongue.ENGLISH)


@pytest.fixture(scope="module")
def browser(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Opened]:
    one = Opened(tmp_path_factory.mktemp("profile"))
    yield one
    one.close()


def test_no_page_is_wider_than_the_narrowest_screen(browser: Opened, made: Path) -> None:
    pages = sorted(made.rglob("*.html"))
    assert len(pages) > 50
    wide, small = {}, {}
    for page in pages:
        browser.open(page, 320, "light")
        browser.value(OPEN_ALL)
        name = page.relative_to(made).as_posix()
        if (found := browser.value("document.documentElement.scrollWidth")) > 320:
            wide[name] = found
        if targets := browser.value(SMALL):
            small[name] = targets
    assert wide == {}
    assert small == {}
