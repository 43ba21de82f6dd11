"""The pages as files: whole, linked, escaped, and saying what they should."""

from __future__ import annotations

import re
import subprocess
import sys
from collections.abc import Mapping
from datetime import date
from html.parser import HTMLParser
from itertools import pairwise
from posixpath import dirname, join, normpath
from urllib.parse import unquote, urlsplit

import msgspec
import pytest

from backbud.collection.state import Tree
from backbud.pages import Nursery, render_pages
from backbud.pages.links import FEEDS
from backbud.pages.templating import octets

# Elements without an end tag (HTML Living Standard, 13.1.2).
VOID = ("area", "base", "br", "col", "embed", "hr", "img", "input", "link", "meta", "source",
        "track", "wbr")  # fmt: skip
INLINE = ("a", "b", "bdi", "i", "s", "span", "strong", "time")
HEADINGS = ("h1", "h2", "h3", "h4", "h5", "h6")


class Outline(HTMLParser):
    """What the checks need of a page; a tag that does not close raises."""

    def __init__(self, page: bytes) -> None:
        super().__init__(convert_charrefs=True)
        self.open: list[str] = []
        self.tags: list[tuple[str, dict[str, str]]] = []
        self.texts: list[str] = []
        self.feed(page.decode())
        self.close()
        assert self.open == []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        assert len({name for name, _ in attrs}) == len(attrs), attrs
        self.tags.append((tag, {name: value or "" for name, value in attrs}))
        self._part(tag)
        if tag not in VOID:
            self.open.append(tag)

    def handle_endtag(self, tag: str) -> None:
        assert self.open and self.open[-1] == tag, (tag, self.open, self.getpos())
        self.open.pop()
        self._part(tag)

    def _part(self, tag: str) -> None:
        """Two blocks never read as one word."""
        if tag not in INLINE:
            self.texts.append(" ")

    def handle_data(self, data: str) -> None:
        self.texts.append(data)

    @property
    def text(self) -> str:
        return " ".join("".join(self.texts).split())

    def all(self, *names: str) -> list[dict[str, str]]:
        return [attrs for tag, attrs in self.tags if tag in names]

    @property
    def ids(self) -> list[str]:
        return [attrs["id"] for _, attrs in self.tags if "id" in attrs]

    @property
    def headings(self) -> list[int]:
        return [int(tag[1]) for tag, _ in self.tags if tag in HEADINGS]


@pytest.fixture(scope="module")
def pages(nursery: Nursery) -> Mapping[str, bytes]:
    return render_pages(nursery)


@pytest.fixture(scope="module")
def outlines(pages: Mapping[str, bytes]) -> Mapping[str, Outline]:
    return {path: Outline(page) for path, page in pages.items() if path.endswith(".html")}


def test_every_tree_has_a_page_and_assets_carry_their_digest(pages: Mapping[str, bytes]) -> None:
    assets = [path for path in pages if path.startswith("assets/")]
    assert sorted(re.sub(r"\.[0-9a-f]{8}\.", ".#.", path) for path in assets) == [
        "assets/backbud.#.css",
        "assets/leaf.#.svg",
    ]
    assert len([path for path in pages if re.fullmatch(r"trees/[^/]+", path)]) == 12
    earlier = [path for path in pages if re.fullmatch(r"trees/.+/.+", path)]
    assert earlier == ["trees/hoshi/earlier.html"]
    assert {"index.html", "trees.html", "trees/hoshi.html", "trees/anvil.html"} < set(pages)


def test_same_view_same_bytes(nursery: Nursery, pages: Mapping[str, bytes]) -> None:
    assert render_pages(nursery) == pages
    mapping = dict(reversed(list(nursery.plans.items())))
    assert render_pages(msgspec.structs.replace(nursery, plans=mapping)) == pages


def test_structure_of_every_page(outlines: Mapping[str, Outline]) -> None:
    for path, outline in outlines.items():
        (html,) = outline.all("html")
        # What is printed with a running title has it in its margins by way of a property.
        assert re.fullmatch(r'(--running: "[^"]+")?', html.pop("style", "")), path
        assert html == {"lang": "en"}, path
        assert {"charset": "utf-8"} in outline.all("meta")
        # A drawing has a title of its own, with an id.
        assert [title for title in outline.all("title") if "id" not in title] == [{}]
        assert [len(outline.all(tag)) for tag in ("main", "header", "footer")] == [1] * 3
        assert all("aria-label" in nav for nav in outline.all("nav"))
        assert len(outline.ids) == len(set(outline.ids)), path
        # The first link skips to the page.
        assert outline.all("a")[0]["href"] == "#page"
        assert outline.all("main")[0]["id"] == "page"


def test_headings_go_down_one_step_at_a_time(outlines: Mapping[str, Outline]) -> None:
    for path, outline in outlines.items():
        steps = outline.headings
        assert steps[0] == 1 and steps.count(1) == 1, path
        assert all(b <= a + 1 for a, b in pairwise(steps)), (path, steps)
    assert 3 in outlines["index.html"].headings


def test_tables_have_captions_and_scopes(outlines: Mapping[str, Outline]) -> None:
    assert len(outlines["trees.html"].all("table")) == 3
    for outline in outlines.values():
        assert len(outline.all("table")) == len(outline.all("caption"))
        assert all(cell.get("scope") in ("row", "col") for cell in outline.all("th"))


def test_labels_point_to_something(outlines: Mapping[str, Outline]) -> None:
    for outline in outlines.values():
        for _, attrs in outline.tags:
            for name in ("aria-labelledby", "aria-describedby"):
                # Each may name several (WAI-ARIA 1.2, ID reference list).
                assert set(attrs.get(name, "").split()) <= set(outline.ids), attrs


def test_links_stay_inside_and_resolve(
    pages: Mapping[str, bytes], outlines: Mapping[str, Outline]
) -> None:
    seen = 0
    for path, outline in outlines.items():
        for attrs in outline.all("a", "link"):
            parts = urlsplit(attrs["href"])
            assert not parts.scheme and not parts.netloc and not parts.path.startswith("/")
            there = normpath(join(dirname(path), unquote(parts.path))) if parts.path else path
            if there.startswith(FEEDS):
                # Which of these there are, test_ways.py looks at.
                continue
            assert there in pages, (path, attrs["href"])
            if parts.fragment:
                assert parts.fragment in outlines[there].ids, (path, attrs["href"])
            seen += 1
    assert seen > 100


def test_nothing_from_outside_and_no_script(pages: Mapping[str, bytes]) -> None:
    foreign = re.compile(
        r"https?:|(href|src)=\"//|url\((?!#)|@import|<(script|style|img|iframe)\b"
        r"|<[^>]* (on[a-z]+|style)="
    )
    # One page has a script: to find on; it works without, too.
    script = re.compile(r'<script src="find/find\.[0-9a-f]{8}\.js" defer></script>')
    for path, page in pages.items():
        if path.startswith("find/"):
            continue
        # The name of SVG's namespace is no request.
        text = page.decode().replace("http://www.w3.org/2000/svg", "")
        text = re.sub(r'<html lang="en" style="--running: &#34;[^"]*&#34;">', "<html>", text)
        if path == "find.html":
            text, count = script.subn("", text)
            assert count == 1
        assert not foreign.search(text), (path, foreign.search(text))


def test_what_was_written_is_escaped(nursery: Nursery) -> None:
    # The comment stands in a template for rows that are put in later.
    evil = "<!--0--><script>alert('1')</script>\" onload=\"x"
    hoshi = nursery.trees[0]
    plans = tuple(
        msgspec.structs.replace(plan, title=evil, cautions=(evil,)) for plan in
        nursery.plans["hoshi"]
    )  # fmt: skip
    event = msgspec.structs.replace(
        hoshi.history[0].event, text=evil, remark=evil, file=f"{evil}.txt"
    )
    things = (msgspec.structs.replace(hoshi.on_tree[0], what=evil, part=evil),)
    tree = msgspec.structs.replace(
        hoshi, name=evil, kind=evil, cultivar=evil, facts={evil: evil}, on_tree=things,
        wanted=evil, history=(msgspec.structs.replace(hoshi.history[0], event=event),),
    )  # fmt: skip
    view = msgspec.structs.replace(
        nursery, title=evil, home=evil, trees=(tree,), plans={"hoshi": plans},
        names={"marrow": evil, "tunnel": evil}, problems=(evil,),
    )  # fmt: skip
    for path, page in render_pages(view).items():
        if path.endswith(".html"):
            outline = Outline(page)
            # On the page to find on stands its own.
            assert len(outline.all("script")) == (path == "find.html"), path
            assert all("onload" not in attrs for _, attrs in outline.tags)
            assert "<!--0--><script>alert('1')" in outline.text
            assert b"<!--" not in page


def test_every_page_says_its_day(outlines: Mapping[str, Outline]) -> None:
    for outline in outlines.values():
        assert "as of 25 November 2026" in outline.text
    assert "Wednesday 25 November 2026" in outlines["index.html"].text


def test_list_of_trees_own_first_then_others_then_gone(outlines: Mapping[str, Outline]) -> None:
    text = outlines["trees.html"].text
    assert "Trees 10" in text and "Own 6 trees" in text and "Not here 2 trees" in text
    assert (
        "1 March 2021 星降る夜 trident maple Tunnel Protect the pot against frost 2 days late"
        in text
    )
    assert (
        "about 2006 Hoshi trident maple ‘Evening Rill’ Odile Marrow Tunnel "
        "Take the wire off left 2 12 days late"
    ) in text
    assert "about 2010 Anvil yew sold 3 March 2024" in text
    names = ["Old Goat", "Yuki", "In care for others", "Hoshi", "little-red", "The Ferryman",
             "Not here", "Anvil", "Cinder"]  # fmt: skip
    places = [text.index(name) for name in names]
    assert places == sorted(places)


def test_page_of_a_tree_tells_the_chain_of_reasons(outlines: Mapping[str, Outline]) -> None:
    text = outlines["trees/hoshi.html"].text
    assert (
        "written Wired 3 mm Al on left 2 on 4 May 2026. "
        "rule Wire on a trident maple bites within six weeks of strong growth. "
        "reckoned 29 weeks have passed since, and the branch thickened until leaf fall."
    ) in text


def test_where_a_line_stands_is_told_on_hovering_alone(
    pages: Mapping[str, bytes], outlines: Mapping[str, Outline]
) -> None:
    page = pages["trees/hoshi.html"].decode()
    assert 'title="diary/2026.txt:214"' in page and 'title="diary/2024.txt:12"' in page
    for path, outline in outlines.items():
        if path.startswith(("trees/", "places/", "kinds/")):
            assert not re.search(r"\w\.txt:\d", outline.text), path


def test_page_of_a_tree_tells_what_it_is(pages: Mapping[str, bytes],
                                         outlines: Mapping[str, Outline]) -> None:  # fmt: skip
    text = outlines["trees/hoshi.html"].text
    assert (
        b"<i>Acer buergerianum</i> \xe2\x80\x98Evening Rill\xe2\x80\x99"
        in (pages["trees/hoshi.html"])
    )
    assert "stands in Tunnel belongs to Odile Marrow wanted back May 2027" in text
    assert 'href="../kinds/trident-maple.html"' in pages["trees/hoshi.html"].decode()
    assert 'href="../places/tunnel.html"' in pages["trees/hoshi.html"].decode()
    for fact in ("since about 2006", "pot Grey tray, no 7", "mix Maple mix", "trunk 9 cm",
                 "root ball 34 × 24 × 6 cm", "style informal upright", "passport ZZ-0-114",
                 "note Odile may sell it only for you", "handle hoshi"):  # fmt: skip
        assert fact in text
    # Yuki is the keeper's own.
    assert "belongs to" not in outlines["trees/yuki.html"].text
    assert "Weak: no hard work on it." in outlines["trees/yuki.html"].text
    assert "In quarantine" in outlines["trees/moth.html"].text
    assert "Planted out" in outlines["trees/two-sisters.html"].text
    assert "Sold 3 March 2024." in outlines["trees/anvil.html"].text


def test_page_of_a_tree_tells_what_is_on_it(outlines: Mapping[str, Outline]) -> None:
    text = outlines["trees/hoshi.html"].text
    # 12 March 2022 to 25 November 2026 is 1719 days; what should be out stands first.
    assert (
        "2 mm anchor tie × 2 since 12 March 2022, 4 years "
        "from before the last potting, not said to be out"
    ) in text
    # 4 May to 25 November is 205 days.
    assert "3 mm Al wire left 2 since 4 May, 7 months" in text
    assert text.index("2 mm anchor tie") < text.index("3 mm Al wire left 2")
    assert "Mesh × 2" in text and "1.5 mm Cu guy wire right 1" in text
    assert "apex 5 of 5, very strong seen 2 September" in text
    assert "low right 1 of 5, very weak seen 14 September 2025" in text
    assert "W, left 2 March 2019 7 years" in text
    assert "E, right 9 March 2024 2 years" in text and "NW never" in text


def test_wire_that_should_bite_by_now_is_to_be_looked_at(nursery: Nursery) -> None:
    bites = (date(2023, 6, 12), date(2027, 5, 1), None, None, None, None)
    pages = render_pages(msgspec.structs.replace(nursery, bites={"hoshi": bites}))
    text = Outline(pages["trees/hoshi.html"]).text
    assert "should have begun to bite about 12 June 2023, look at it" in text
    assert "bites about 1 May 2027" in text


def test_page_of_a_tree_tells_what_was_settled(outlines: Mapping[str, Outline]) -> None:
    text = outlines["trees/hoshi.html"].text
    assert "30 June Check the wire done 12 June" in text
    assert "12 June Defoliate skipped too weak after the hail" in text


def test_history_is_by_year_newest_first_and_two_years_open(pages: Mapping[str, bytes]) -> None:
    page = pages["trees/hoshi.html"].decode()
    history = page[page.index('id="history"') : page.index('id="settled"')]
    of_year = re.compile(r"<details( open)?>\s*<summary[^>]*><h3[^>]*>(\d+)</h3>")
    years = of_year.findall(history)
    before = of_year.findall(pages["trees/hoshi/earlier.html"].decode())
    assert [year for _, year in years] == [str(year) for year in range(2026, 2018, -1)]
    assert [year for _, year in before] == [str(year) for year in range(2018, 2005, -1)]
    assert [year for is_open, year in (*years, *before) if is_open] == ["2026", "2025"]


def test_history_shows_both_readings_of_a_corrected_line(
    outlines: Mapping[str, Outline], pages: Mapping[str, bytes]
) -> None:
    text = outlines["trees/hoshi.html"].text
    assert (
        "repotted same pot, 1 cm off below, wedges N E S, mix maple "
        "First written: repotted same pot, 2 cm off below, wedges N E S, mix maple. "
        "Corrected 12 March: measured again at the bench"
    ) in text
    assert "<s><b>defoliated</b> full</s>" in pages["trees/hoshi.html"].decode()
    assert "Not done after all 22 June: that was Yuki" in text


def test_history_marks_what_is_private_and_shared(outlines: Mapping[str, Outline]) -> None:
    text = outlines["trees/hoshi.html"].text
    assert "private promised to Odile if the nebari closes only for you" in text
    assert "worked 4 h at pruning shared among 6 trees" in text
    assert "planned repotted to 2028-03" in text
    earlier = outlines["trees/hoshi/earlier.html"].text
    assert "spring moved tunnel" in earlier
    assert "about 2006 bought from a grower in the next valley" in earlier


def test_names_in_any_script_are_set_apart(pages: Mapping[str, bytes]) -> None:
    assert "<h1><bdi>شجرة الوادي</bdi></h1>" in pages["trees/shajara.html"].decode()
    assert "<bdi>شجرة الوادي</bdi></a>" in pages["trees.html"].decode()


def test_no_page_holds_what_a_parser_takes_for_an_error() -> None:
    """HTML Living Standard, 13.2.3.5: controls but ASCII white space, and noncharacters."""
    for code in (*range(0xD800), *range(0xE000, 0x10000), 0x1F333):
        is_control = code < 0x20 or 0x7F <= code < 0xA0
        wrong = is_control and code not in (0x09, 0x0A, 0x0C, 0x0D)
        wrong = wrong or 0xFDD0 <= code <= 0xFDEF or code in (0xFFFE, 0xFFFF)
        found = octets(f"é {chr(code)}")
        assert found == ("é \ufffd" if wrong else f"é {chr(code)}").encode(), hex(code)


def test_an_empty_nursery_is_fine() -> None:
    pages = render_pages(Nursery("New journal", date(2026, 11, 25), ""))
    assert {"index.html", "trees.html", "weather.html"} <= set(pages)
    assert not any(path.startswith("trees/") for path in pages)
    for path in ("index.html", "trees.html"):
        assert "No tree is written down yet." in Outline(pages[path]).text


def test_trees_with_nothing_to_do_say_so(nursery: Nursery) -> None:
    bare: Tree = msgspec.structs.replace(nursery.trees[9], history=())
    pages = render_pages(Nursery("Bare", date(2026, 11, 25), "", (bare,)))
    assert "Nothing wants doing now." in Outline(pages["index.html"]).text
    assert "Nothing wants doing on it." in Outline(pages["trees/pip.html"]).text


def test_jinja_is_imported_only_to_render() -> None:
    code = "import sys, backbud.pages; print('jinja2' in sys.modules)"
    run = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert run.stdout == "False\n"
