"""Each page ends with the way to the calendar of what it shows, and to its sheets for paper."""

from __future__ import annotations

import re
from collections.abc import Mapping
from posixpath import dirname, join, normpath
from urllib.parse import unquote

import pytest
from tests.conftest import Written
from tests.pages.test_render import Outline

from backbud.compiled import compiled
from backbud.pages.ways import subscription

JOURNAL = """\
place tunnel
  formerly  old-tunnel

place yard

person marrow
  name      Odile Marrow

tree hoshi
  formerly  star
  kind      trident maple
  place     tunnel
  owner     marrow

tree moth
  kind      hornbeam
"""


@pytest.fixture
def files(written: Written) -> Mapping[str, bytes]:
    return compiled(written(JOURNAL)).output.files


def feeds_linked(page: bytes) -> list[str]:
    links = [attrs["href"] for attrs in Outline(page).all("a")]
    return [link for link in links if link.endswith(".ics")]


def test_every_page_links_the_calendar_of_what_it_shows(files: Mapping[str, bytes]) -> None:
    # A paper that goes to somebody else leads nowhere.
    pages = {
        path: page
        for path, page in files.items()
        if path.endswith(".html") and not path.startswith("papers/")
    }
    for path, page in pages.items():
        linked = feeds_linked(page)
        assert linked, path
        for link in linked:
            assert normpath(join(dirname(path), unquote(link))) in files, (path, link)
    # By the first handle, so that who subscribed keeps it.
    assert feeds_linked(pages["trees/hoshi.html"]) == ["../calendars/trees/star.ics"]
    assert feeds_linked(pages["places/tunnel.html"]) == ["../calendars/places/old-tunnel.ics"]
    assert feeds_linked(pages["places/_.html"]) == ["../calendars/all.ics"]
    assert feeds_linked(pages["index.html"]) == ["calendars/all.ics", "calendars/tasks/all.ics"]
    assert "calendars/works/roots.ics" in feeds_linked(pages["season.html"])


def test_with_an_address_a_phone_subscribes() -> None:
    path = "calendars/trees/hoshi.ics"
    assert subscription(path, "https://a.example/w/", "../") == f"webcal://a.example/w/{path}"
    assert subscription(path, "https://a.example", "../") == f"webcal://a.example/{path}"
    assert subscription(path, "", "../") == f"../{path}"
    # What is no address is no way.
    assert subscription(path, "javascript:alert(1)", "../") == f"../{path}"


def test_a_tree_links_its_card_and_its_label(files: Mapping[str, bytes]) -> None:
    page = files["trees/hoshi.html"].decode()
    assert '<a href="#card">its card, A5</a>' in page and 'id="card"' in page
    (label,) = re.findall(r'href="\.\./paper/labels/tunnel\.html#([^"]+)">its label', page)
    labels = files["paper/labels/tunnel.html"].decode()
    assert f'<li class="label" id="{label}"><p><a href="../../trees/hoshi.html"' in labels
