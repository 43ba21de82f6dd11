"""Of very many visits the first stand on the page of all, and each person's on one of their own."""

from __future__ import annotations

import posixpath
import re
from collections.abc import Mapping
from pathlib import Path

import html5lib
import pytest
from msgspec.structs import replace
from tests.browser import needs_chromium
from tests.pages.test_accessible import axe, browser  # noqa: F401
from tests.pages.test_in_chromium import Opened

from backbud.compiled import nursery_of
from backbud.memo import Memo
from backbud.pages import render_pages
from backbud.views import open_visits

# Ada has two trees here, wanted by April and by January, and one that went in July with something
# to bill; Bo one that went in August. Cy paid ahead and has no tree here; with Dee nothing is open.
DIARY = """\
place yard
person me
person ada
  name Ada
person bo
  name Bo
person cy
  name Cy
person dee
  name Dee
tree ash
  kind trident maple
  owner ada
tree birch
  kind trident maple
  owner ada
tree cedar
  kind trident maple
  owner ada
tree elm
  kind trident maple
  owner bo
tree fir
  kind trident maple
  owner dee
2026-03-01
ash
  received from ada, wanted by 2027-04
birch
  received from ada, wanted by 2027-01
cedar
  received from ada
  agreed 40 EUR for pruning
elm
  received from bo
  agreed 70 EUR for wiring
fir
  received from dee
2026-07-01
cedar, fir
  returned
2026-08-01
elm
  returned
cy
  paid 15 EUR
"""


@pytest.fixture
def pages(written, monkeypatch: pytest.MonkeyPatch):
    def made(most: int, first: int) -> Mapping[str, str]:
        monkeypatch.setattr(open_visits, "MOST_VISITS", most)
        monkeypatch.setattr(open_visits, "FIRST_VISITS", first)
        settings = 'home = "yard"\nkeeper = "me"\n'
        session = written(DIARY, settings=settings, any_problems=True)
        found = render_pages(nursery_of(session, session.plan()))
        return {
            path: page.decode() for path, page in found.items() if path.endswith((".html", ".css"))
        }

    return made


def told(page: str) -> list[str]:
    """The trees whose visits a page tells of, in their order."""
    return re.findall(r'<h3><a href="(?:\.\./)?trees/([a-z]+)\.html"', page)


def standing(page: str) -> str:
    return re.sub(r"<[^>]*>", " ", page.partition('id="standing-heading"')[2].partition("</dl>")[0])


def test_so_many_stand_on_one_page(pages) -> None:
    found = pages(4, 1)
    assert told(found["visits.html"]) == ["birch", "ash", "cedar", "elm"]
    assert "more tree" not in found["visits.html"]
    assert not [path for path in found if path.startswith("visits/")]


def test_more_stand_with_each_person(pages) -> None:
    found = pages(3, 1)
    whole = found["visits.html"]
    # Wanted home soonest, and gone home the latest.
    assert told(whole) == ["birch", "elm"]
    assert whole.count('1 more tree: <a href="#standing-heading">What stands with each</a>') == 2
    assert '<span class="total">2 trees</span>' in whole
    assert {path: told(page) for path, page in found.items() if path.startswith("visits/")} == {
        "visits/ada.html": ["birch", "ash", "cedar"],
        "visits/bo.html": ["elm"],
    }
    said = " ".join(standing(whole).split())
    assert "Ada 3 trees, to bill 40.00 EUR" in said
    assert "Bo 1 tree, to bill 70.00 EUR" in said
    # All that stands with him is told there.
    assert "Cy paid ahead 15.00 EUR" in said
    assert "Dee" not in said
    assert "Bo" not in found["visits/ada.html"]


def test_every_way_leads_somewhere(pages) -> None:
    found = pages(0, 0)
    assert told(found["visits.html"]) == []
    assert '<a href="visits/ada.html">Ada</a>' in found["visits.html"]
    for at in ("visits.html", "visits/ada.html", "visits/bo.html"):
        page = found[at]
        ids = set(re.findall(r' id="([^"]+)"', page))
        for way in re.findall(r' href="([^"]+)"', page):
            path, _, anchor = way.partition("#")
            if not path:
                assert anchor in ids
            elif path.endswith(".html"):
                assert posixpath.normpath(posixpath.join(posixpath.dirname(at), path)) in found


def test_the_pages_are_valid(pages) -> None:
    parser = html5lib.HTMLParser(strict=True, namespaceHTMLElements=False)
    for path, page in pages(1, 1).items():
        if path.startswith("visits"):
            parser.parse(page)


def test_what_changes_of_one_person_is_told_anew(written, monkeypatch: pytest.MonkeyPatch) -> None:
    """`watch` keeps the pages of the others."""
    monkeypatch.setattr(open_visits, "MOST_VISITS", 0)
    settings = 'home = "yard"\nkeeper = "me"\n'
    session = written(DIARY, settings=settings, any_problems=True)
    before = nursery_of(session, session.plan())
    after = replace(
        before,
        accounts=tuple(
            replace(one, visits=one.visits[:1]) if one.person == "ada" else one
            for one in before.accounts
        ),
    )
    kept = Memo()
    first = render_pages(before, kept)
    again = render_pages(after, kept)
    assert again == render_pages(after)
    assert again["visits/ada.html"] != first["visits/ada.html"]
    assert again["visits.html"] != first["visits.html"]
    assert again["visits/bo.html"] is first["visits/bo.html"]


def test_how_many_are_many() -> None:
    assert (open_visits.MOST_VISITS, open_visits.FIRST_VISITS) == (300, 100)


class TestByAxe:
    pytestmark = needs_chromium

    def test_nothing_is_found(
        self,
        pages,
        browser: Opened,  # noqa: F811
        tmp_path: Path,
    ) -> None:
        folder = tmp_path / "shown"
        for path, page in pages(3, 1).items():
            (folder / path).parent.mkdir(parents=True, exist_ok=True)
            (folder / path).write_text(page, "utf-8")
        for path in ("visits.html", "visits/ada.html"):
            found = axe(browser, folder / path, 390, "light", False)
            assert found == {"violations": [], "incomplete": []}, path
