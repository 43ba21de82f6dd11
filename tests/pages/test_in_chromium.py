"""The pages in a real browser: their width, their colours, their targets, and on paper."""

from __future__ import annotations

import re
from collections.abc import Iterator
from datetime import date
from pathlib import Path

import pytest
from tests.browser import Browser, needs_chromium

from backbud.pages import Nursery, render_pages
from backbud.pages.drawings.vigour import vigour
from backbud.pages.links import anchor_of
from backbud.pages.render import SHEETS

PAGES = (
    *(path for path, _ in SHEETS),
    "trees/hoshi.html",
    "trees/ferryman.html",
    "places/tunnel.html",
    "kinds/trident-maple.html",
    "paper/labels/tunnel.html",
)
# Letters of a browser as it comes: 14, 17, 20, 25 and 36 px.
SIZES = {14, 17, 20, 25, 36}
WIDTHS = (320, 360, 1280)
SCHEMES = ("light", "dark")

pytestmark = needs_chromium


class Opened(Browser):
    """A browser that opens pages as files."""

    def open(self, page: Path, width: int, scheme: str) -> None:
        self.call("Emulation.setDeviceMetricsOverride", width=width, height=800,
                  deviceScaleFactor=1, mobile=False)  # fmt: skip
        self.call("Emulation.setEmulatedMedia",
                  features=[{"name": "prefers-color-scheme", "value": scheme}])  # fmt: skip
        name, mark, part = page.name.partition("#")
        file = page.with_name(name)
        assert file.is_file()
        if mark:
            # Another part of the page that is open would not be loaded anew.
            self.call("Page.navigate", url="about:blank")
            self.wait_for("Page.loadEventFired")
        self.call("Page.navigate", url=f"{file.as_uri()}{mark}{part}")
        self.wait_for("Page.loadEventFired")


@pytest.fixture(scope="module")
def folder(nursery: Nursery, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The pages as files."""
    folder = tmp_path_factory.mktemp("made")
    for path, page in render_pages(nursery).items():
        (folder / path).parent.mkdir(parents=True, exist_ok=True)
        (folder / path).write_bytes(page)
    return folder


@pytest.fixture(scope="module")
def browser(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Opened]:
    browser = Opened(tmp_path_factory.mktemp("profile"))
    yield browser
    browser.close()


OPEN_ALL = "document.querySelectorAll('details').forEach(d => d.open = true)"

# Every element that ends beyond the window, but for what scrolls in itself or is kept unseen.
BEYOND = """
[...document.body.querySelectorAll('*')].filter(e => {
  const box = e.getBoundingClientRect();
  return !e.closest('.unseen, .skip, pre, thead') && box.width &&
    (box.right > innerWidth + 0.5 || box.left < -0.5);
}).map(e => e.outerHTML.slice(0, 80))
"""

# Each text with its colour and the colours under it, from the text's element up to the root.
COLOURS = """
(() => {
  const found = {};
  const walk = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  while (walk.nextNode()) {
    if (!walk.currentNode.data.trim()) continue;
    const of = getComputedStyle(walk.currentNode.parentElement);
    const under = [];
    for (let e = walk.currentNode.parentElement; e; e = e.parentElement)
      under.push(getComputedStyle(e).backgroundColor);
    const inDrawing = walk.currentNode.parentElement.closest('svg text');
    found[(inDrawing ? of.fill : of.color) + '|' + under.filter(c => c != 'rgba(0, 0, 0, 0)')[0]] =
      walk.currentNode.data.trim();
  }
  return found;
})()
"""

# Links and summaries by their size; a link is where it can be hit, in each of its lines.
TARGETS = """
[...document.querySelectorAll('a:not(.skip), summary')].flatMap(e =>
  [...e.getClientRects()].map(box => [e.textContent.trim(), box.width, box.height]))
"""


@pytest.mark.parametrize("page", PAGES)
@pytest.mark.parametrize("scheme", SCHEMES)
@pytest.mark.parametrize("width", WIDTHS)
def test_nothing_runs_over_the_side(
    browser: Opened, folder: Path, width: int, scheme: str, page: str
) -> None:
    browser.open(folder / page, width, scheme)
    browser.value(OPEN_ALL)
    assert browser.value("innerWidth") == width
    assert browser.value("document.documentElement.scrollWidth") == width
    assert browser.value(BEYOND) == []


@pytest.mark.parametrize("page", PAGES)
@pytest.mark.parametrize("scheme", SCHEMES)
def test_every_text_on_the_page_can_be_read(
    browser: Opened, folder: Path, scheme: str, page: str
) -> None:
    """WCAG 2.2, 1.4.3, on the colours that the browser computes."""
    browser.open(folder / page, 1280, scheme)
    browser.value(OPEN_ALL)
    colours: dict[str, str] = browser.value(COLOURS)
    assert len(colours) >= 3
    for pair, text in colours.items():
        ratio = contrast(*pair.split("|"))
        assert ratio >= 4.5, (pair, text, ratio)
    papers = {pair.split("|")[1] for pair in colours}
    assert {"light": "rgb(251, 248, 240)", "dark": "rgb(25, 26, 22)"}[scheme] in papers


def contrast(*colours: str) -> float:
    """Contrast ratio of two colours as CSS serialises them, `rgb(1, 2, 3)` (WCAG 2.2)."""
    both = []
    for colour in colours:
        channels = [int(c) / 255 for c in colour.removeprefix("rgb(").rstrip(")").split(",")]
        linear = [c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in channels]
        both.append(0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2] + 0.05)
    return max(both) / min(both)


@pytest.mark.parametrize("page", PAGES)
@pytest.mark.parametrize("width", [360, 1280])
def test_every_target_is_big_enough(browser: Opened, folder: Path, width: int, page: str) -> None:
    """44 by 44 CSS pixels (WCAG 2.2, 2.5.5): a wet thumb."""
    browser.open(folder / page, width, "light")
    browser.value(OPEN_ALL)
    targets: list[tuple[str, float, float]] = browser.value(TARGETS)
    assert len(targets) >= 3
    assert [target for target in targets if min(target[1:]) < 43.9] == []


# A title that fills its line, and the German of "why, take care", put into each round; then where
# the letters of a title lie below those of its summary.
GERMAN_ROUNDS = """
(() => {
  document.documentElement.lang = 'de';
  return [...document.querySelectorAll('.rounds .round:has(> details)')].map(round => {
    const summary = round.querySelector(':scope > details > summary');
    summary.innerHTML = summary.querySelector('b') ? 'warum, <b>Achtung</b>' : 'warum';
    const title = round.querySelector('h3');
    title.textContent = 'auf an in zu am um ab '.repeat(8);
    const letters = document.createRange();
    letters.selectNodeContents(title);
    const of = summary.getBoundingClientRect();
    return [...letters.getClientRects()].some(line =>
      line.right > of.left && line.top < of.bottom && line.bottom > of.top);
  });
})()
"""


@pytest.mark.parametrize("width", [370, 390])
def test_why_stands_clear_of_a_german_title(browser: Opened, folder: Path, width: int) -> None:
    browser.open(folder / "index.html", width, "light")
    covered: list[bool] = browser.value(GERMAN_ROUNDS)
    assert len(covered) >= 2
    assert not any(covered)


def test_the_focus_is_seen_and_the_skip_link_comes_first(browser: Opened, folder: Path) -> None:
    browser.open(folder / "index.html", 1280, "light")
    for step in range(2):
        for kind in ("rawKeyDown", "keyUp"):
            browser.call("Input.dispatchKeyEvent", type=kind, key="Tab", code="Tab",
                         windowsVirtualKeyCode=9)  # fmt: skip
        focused = browser.value(
            "[document.activeElement.textContent,"
            " getComputedStyle(document.activeElement).outlineStyle,"
            " parseFloat(getComputedStyle(document.activeElement).outlineWidth),"
            " document.activeElement.getBoundingClientRect().top >= 0]"
        )
        assert focused[1:] == ["solid", 3, True]
        if step == 0:
            assert focused[0] == "Skip to the page"


def test_the_browser_asks_for_nothing_but_the_pages(browser: Opened, folder: Path) -> None:
    del browser.requests[:]
    for page in PAGES:
        browser.open(folder / page, 1280, "light")
    assert len(browser.requests) >= 2 * len(PAGES)
    assert {url for url in browser.requests if not url.startswith(folder.as_uri() + "/")} == set()


@pytest.mark.parametrize(
    ("page", "least"), [("index.html", 1), ("trees/hoshi.html", 4), ("weather.html", 3)]
)
def test_prints_on_a4(browser: Opened, folder: Path, page: str, least: int) -> None:
    browser.open(folder / page, 1280, "dark")
    pdf = browser.print()
    assert pdf.startswith(b"%PDF-")
    boxes = re.findall(rb"/MediaBox\s*\[([^\]]*)\]", pdf)
    assert len(boxes) >= least
    for box in boxes:
        # ISO 216: 210 x 297 mm, at 72 points an inch.
        left, bottom, right, top = (float(number) for number in box.split())
        assert (right - left, top - bottom) == pytest.approx((595.3, 841.9), abs=1)


def test_on_paper_every_year_is_open_and_nothing_is_left_to_click(
    browser: Opened, folder: Path
) -> None:
    browser.open(folder / "trees/hoshi.html", 760, "light")
    browser.call("Emulation.setEmulatedMedia", media="print")
    try:
        heights = browser.value(
            "[...document.querySelectorAll('.history details')].map(d => d.offsetHeight)"
        )
        assert len(heights) == 8
        # A year is its heading and at least one line.
        assert min(heights) > 40
        hidden = browser.value(
            "['.skip', 'nav', '.foot']"
            ".map(s => getComputedStyle(document.querySelector(s)).display)"
        )
        assert hidden == ["none"] * 3
        assert browser.value(
            "getComputedStyle(document.querySelector('.round')).breakInside"
        ) == "avoid"  # fmt: skip
        # The plan of the root ball is worked by at the bench: its table is on the paper too.
        assert browser.value("document.querySelector('#roots table').offsetHeight") > 100
        browser.open(folder / "trees/hoshi/earlier.html", 760, "light")
        earlier = browser.value(
            "[...document.querySelectorAll('.history details')].map(d => d.offsetHeight)"
        )
        assert len(earlier) == 13 and min(earlier) > 40
    finally:
        browser.call("Emulation.setEmulatedMedia", media="")


@pytest.mark.parametrize("page", PAGES)
@pytest.mark.parametrize("width", [390, 1280])
def test_five_sizes_of_letters(browser: Opened, folder: Path, width: int, page: str) -> None:
    browser.open(folder / page, width, "light")
    browser.value(OPEN_ALL)
    found = browser.value(
        "[...new Set([...document.body.querySelectorAll('*')]"
        ".filter(e => [...e.childNodes].some(n => n.nodeType == 3 && n.data.trim()) &&"
        " !['TITLE', 'DESC'].includes(e.tagName.toUpperCase()))"
        ".map(e => parseFloat(getComputedStyle(e).fontSize)))]"
    )
    assert set(found) <= SIZES and 17 in found


def test_a_line_has_60_to_66_letters(browser: Opened, folder: Path) -> None:
    browser.open(folder / "index.html", 1280, "light")
    letters = browser.value(
        "(() => { const p = document.createElement('p'); document.querySelector('main').append(p);"
        " p.textContent = 'It is wanted that each line of a text holds as many letters as one reads"
        " with ease, and no more of them than that, here and on paper. '.repeat(20);"
        " const height = parseFloat(getComputedStyle(p).lineHeight);"
        " return p.textContent.length / Math.round(p.getBoundingClientRect().height / height); })()"
    )
    assert 60 <= letters <= 66


@pytest.mark.parametrize("width", [320, 390, 1280])
def test_zones_keep_their_letters_on_every_screen(
    browser: Opened, folder: Path, width: int
) -> None:
    drawn = vigour("zones", {date(year, 5, 1): {"apex": 5, "low": 1} for year in range(2018, 2027)})
    style = next((folder / "assets").glob("*.css"))
    page = folder / "zones.html"
    page.write_text(
        f'<!doctype html><link rel="stylesheet" href="assets/{style.name}">'
        f'<div class="sheet"><figure>{drawn.svg}</figure></div>'
    )
    browser.open(page, width, "light")
    assert browser.value(BEYOND) == []
    sizes = browser.value(
        "[...document.querySelectorAll('.zones text')]"
        ".map(t => parseFloat(getComputedStyle(t).fontSize))"
    )
    assert set(sizes) == {14}


@pytest.mark.parametrize("width", [320, 1280])
def test_the_root_ball_is_not_shrunk(browser: Opened, folder: Path, width: int) -> None:
    """So a letter of 14 px is one."""
    browser.open(folder / "trees/hoshi.html", width, "light")
    wide = browser.value("document.querySelector('svg.root-ball').getBoundingClientRect().width")
    assert wide == 268


def test_the_way_to_a_work_that_is_folded_away_unfolds_it(
    browser: Opened, folder: Path, nursery: Nursery
) -> None:
    """The fourth work of Hoshi, pruning, stands behind the three that are shown."""
    anchor = anchor_of(next(one.id for one in nursery.plans["hoshi"] if one.act == "repotted"))
    browser.call("Page.navigate", url="about:blank")
    browser.wait_for("Page.loadEventFired")
    browser.call("Page.navigate", url=f"{(folder / 'trees/hoshi.html').as_uri()}#{anchor}")
    browser.wait_for("Page.loadEventFired")
    height = f"document.getElementById('{anchor}').getBoundingClientRect().height"
    assert browser.value(height) > 40
    assert browser.value("document.querySelector('#next > details').open") is True


@pytest.mark.parametrize("width", [320, 1280])
def test_the_first_screen_of_a_phone_says_what_is_wanted(
    browser: Opened, folder: Path, width: int
) -> None:
    """The day, and the first work with its place, above the fold of 800 px."""
    browser.open(folder / "index.html", width, "light")
    bottom = browser.value("document.querySelector('.round .at').getBoundingClientRect().bottom")
    assert bottom < 800


@pytest.mark.parametrize("width", [360, 1280])
def test_letters_of_a_drawing_keep_their_size_and_stand_apart(
    browser: Opened, folder: Path, width: int
) -> None:
    browser.open(folder / "weather.html", width, "light")
    browser.value(OPEN_ALL)
    sizes = browser.value(
        "[...document.querySelectorAll('svg.drawing text')]"
        ".map(t => parseFloat(getComputedStyle(t).fontSize))"
    )
    assert len(sizes) > 100 and set(sizes) == {14}
    # Months, figures, unit and today: no two texts of a drawing lie on each other.
    assert browser.value(ON_EACH_OTHER) == []


ON_EACH_OTHER = """
[...document.querySelectorAll('svg.drawing')].flatMap(svg => {
  const boxes = [...svg.querySelectorAll('text')]
    .map(t => [t.textContent, t.getBoundingClientRect()]).filter(([_, box]) => box.width);
  return boxes.flatMap(([one, a], n) => boxes.slice(n + 1)
    .filter(([_, b]) => a.left < b.right - 0.5 && b.left < a.right - 0.5 &&
      a.top + 3 < b.bottom && b.top + 3 < a.bottom)
    .map(([other]) => one + ' | ' + other));
})
"""
