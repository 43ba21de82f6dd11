"""Finding: by any word, folded as handles are, from files alone, among thousands of trees."""

from __future__ import annotations

import json
import time
from collections.abc import Iterator, Mapping
from pathlib import Path
from random import Random
from typing import Any

import pytest
from msgspec.structs import replace
from tests.browser import PATIENCE_S, Browser, needs_chromium
from tests.pages.conftest import TODAY, event, tree
from tests.pages.test_render import Outline

from backbud.collection.state import Entry
from backbud.memo import Memo
from backbud.pages import Nursery, render_pages
from backbud.pages.finding import FEW, MOST_LETTERS, _numbers, index_of
from backbud.views.finding import Findable, tree_found, words_of_texts
from backbud.views.people import PersonView
from backbud_grammar.handles import fold


def test_words_are_folded_as_handles_are_and_bare_figures_left_out() -> None:
    assert words_of_texts("Kōyō, the OLD one; 2.5 mm on left 2, in 2024") == (
        "2024", "in", "koyo", "left", "mm", "old", "on", "one", "the",
    )  # fmt: skip
    assert words_of_texts("星降る夜 が") == ("星降る夜",)


def test_a_tree_is_found_by_its_names_its_kind_place_and_owner_and_its_history() -> None:
    hoshi = tree(
        "hoshi", name="Hoshi", cultivar="Evening Rill", owner="marrow", first_handle="star",
        history=(
            Entry(event("pruned", "2019-11-03", "hard on right 3", "sealed at once")),
            Entry(event("private", "2020-03-02", "promised to Odile")),
        ),
    )  # fmt: skip
    found = tree_found(hoshi, {"marrow": "Odile Marrow", "tunnel": "Tunnel"})
    assert found.called == ("evening", "hoshi", "rill", "star")
    assert found.of == ("maple", "marrow", "odile", "trident", "tunnel")
    assert found.beside == "trident maple ‘Evening Rill’, Tunnel"
    # The pages are the keeper's, so the words of private lines are among them.
    assert set(found.written) == {
        "2019", "2020", "at", "hard", "odile", "on", "once", "private", "promised", "pruned",
        "right", "sealed", "to",
    }  # fmt: skip


def test_numbers_are_steps_or_bits_whichever_is_shorter() -> None:
    assert _numbers([]) == ""
    # From before nought: one step, then three more, then 36.
    assert _numbers([0, 3, 39]) == "1 3 10"
    # Six of twelve: 0b111111 is 63, and 48 + 63 is an o; one bit alone is a 1.
    assert _numbers([0, 1, 2, 3, 4, 5, 6]) == "!o1"


def test_a_page_holds_no_word_that_a_script_could_end() -> None:
    evil = '</script>\u2028"\\'
    (_, content) = index_of([Findable("tree", "a", evil, evil, ("evil",))]).files[-1]
    told = content.decode().removeprefix("backbud.things(0,").removesuffix(")\n")
    assert json.loads(told) == [["tree", evil, evil, "trees/a.html"]]


# ------------------------------------------------------------------ thousands


def many(count: int) -> list[Findable]:
    """Trees with names of their own, some of 72 kinds, and 60 words each of 6,000."""
    random = Random(7)

    def invented() -> str:
        return "".join(random.choice("bdfgklmnprst") + random.choice("aeiou") for _ in range(3))

    words = sorted({invented() for _ in range(6000)})
    kinds = [(f"kind{n}", "tree") for n in range(72)]
    return [
        Findable(
            "tree",
            f"tree-{n}",
            f"Tree {n}",
            "a kind, a place",
            words_of_texts(f"tree-{n}", random.choice(words)),
            kinds[n % 72],
            tuple(random.choice(words) for _ in range(60)),
        )
        for n in range(count)
    ]


@pytest.fixture(scope="module")
def thousands() -> Mapping[str, Any]:
    things = many(8000)
    index = index_of(things)
    return {"things": things, "index": index, "files": dict(index.files)}


def test_eight_thousand_trees_make_small_scripts(thousands: Mapping[str, Any]) -> None:
    files: Mapping[str, bytes] = thousands["files"]
    assert max(map(len, files.values())) < MOST_LETTERS + 1000
    assert sum(map(len, files.values())) < 3_500_000
    index = thousands["index"]
    assert len(" ".join((*index.names, *index.written))) < 10_000


def test_an_index_that_goes_on_from_the_last_is_a_whole_one() -> None:
    """Words that come and go again, of few things and of many, in any order."""
    random, kept = Random(1), Memo()
    words = ["aphid", "birch", "candle", "dew", "elm"]
    things = [Findable("tree", f"t{n}", f"t{n}", "", (f"t{n}",)) for n in range(FEW + 9)]
    for count in range(40):
        for at in random.sample(range(len(things)), random.choice((0, 1, 3, FEW + 1))):
            some = tuple(sorted(random.sample(words, random.randrange(len(words)))))
            things[at] = replace(things[at], written=some)
        if count % 13 == 12:
            things.pop(random.randrange(len(things)))
        assert index_of(things, kept) == index_of(things), count
        kept.end()
    # A word that nothing has any more is in no script.
    without = [replace(one, written=()) for one in things]
    assert index_of(without, kept).written == ()


# ------------------------------------------------------------------ in a browser


class Finder(Browser):
    """A browser on the page to find on."""

    def open(self, page: Path) -> None:
        del self.requests[:]
        self.call("Page.navigate", url=page.as_uri())
        self.wait_for("Page.loadEventFired")

    def find(self, words: str) -> tuple[str, list[str]]:
        """What is said of so many words, and the links that are found."""
        self.value(
            "(() => { document.getElementById('said').textContent = '…';"
            f" const field = document.getElementById('words'); field.value = {json.dumps(words)};"
            " field.dispatchEvent(new Event('input')) })()"
        )
        until = time.monotonic() + PATIENCE_S
        while (said := self.value("document.getElementById('said').textContent")) == "…":
            assert time.monotonic() < until
            time.sleep(0.01)
        links = "[...document.querySelectorAll('#found a')].map(a => a.getAttribute('href'))"
        return str(said), self.value(links)


@pytest.fixture(scope="module")
def finder(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Finder]:
    one = Finder(tmp_path_factory.mktemp("profile"))
    yield one
    one.close()


def put(folder: Path, files: Mapping[str, bytes]) -> None:
    for path, content in files.items():
        (folder / path).parent.mkdir(parents=True, exist_ok=True)
        (folder / path).write_bytes(content)


@pytest.fixture(scope="module")
def folder(nursery: Nursery, tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("made")
    birkwell = PersonView("birkwell", "Tam Birkwell", "", "", "", "", "", ())
    put(folder, render_pages(replace(nursery, people=(birkwell,))))
    return folder


class TestInChromium:
    pytestmark = needs_chromium

    def test_it_finds_from_files_alone(self, finder: Finder, folder: Path) -> None:
        finder.open(folder / "find.html")
        # The page, its style, its icon perhaps, and its script: nothing of the index.
        assert not [one for one in finder.requests if "/find/" in one and "/find." not in one]
        assert finder.find("hosh") == ("1 found:", ["trees/hoshi.html"])
        # A kind stands before its trees.
        said, links = finder.find("trident")
        assert said == "4 found:" and links[0] == "kinds/trident-maple.html"
        assert finder.find("maple TUNNEL")[1] == ["trees/hoshi.html", "trees/star.html"]
        # A word of a note, whole; a person; a tree that is gone; a name in another script.
        assert finder.find("plating")[1] == ["trees/hoshi.html"]
        assert finder.find("plat") == ("Nothing is found.", [])
        assert finder.find("tam")[1][0] == "people.html#person-birkwell"
        assert finder.find("anvil")[1] == ["trees/anvil.html"]
        assert finder.find("شجرة")[1] == ["trees/shajara.html"]
        # What was written in a year is on its line.
        assert finder.find("2019 pinched")[1] == ["trees/hoshi.html#y2019"]
        assert finder.find("") == ("", [])
        assert finder.said == []

    def test_a_word_is_folded_as_handles_are(self, finder: Finder, folder: Path) -> None:
        finder.open(folder / "find.html")
        script = next((folder / "find").glob("find.*.js")).read_text()
        body = script[script.index("const fold = text =>") :].partition(";")[0]
        words = ["Kōyō", "Straße", "ΆΝΕΜΟΣ", "Ёлка", "が", "Ünal", "İnce"[1:], "résumé", "夜"]
        finder.value(body.replace("const fold", "var fold"))
        assert finder.value(f"{json.dumps(words)}.map(fold)") == [fold(word) for word in words]

    def test_without_a_script_lists_and_letters_reach_everything(
        self, finder: Finder, folder: Path
    ) -> None:
        outline = Outline((folder / "find.html").read_bytes())
        links = [attrs["href"] for attrs in outline.all("a")]
        assert {"places/tunnel.html", "kinds/trident-maple.html", "trees.html#own-y",
                "trees.html#others", "trees.html#gone"} <= set(links)  # fmt: skip
        (form,) = outline.all("form")
        assert "hidden" in form
        trees = Outline((folder / "trees.html").read_bytes())
        assert {link.partition("#")[2] for link in links if link.startswith("trees.html#")} <= set(
            trees.ids
        )

    def test_among_eight_thousand_trees(
        self, finder: Finder, thousands: Mapping[str, Any], tmp_path: Path
    ) -> None:
        pages = render_pages(Nursery("", TODAY, "", (tree("hoshi"),)))
        index = thousands["index"]
        page = pages["find.html"].decode()
        for name, some in (("names", index.names), ("written", index.written)):
            old = page[page.index(f"data-{name}=") :].partition('"')[2].partition('"')[0]
            page = page.replace(f'data-{name}="{old}"', f'data-{name}="{" ".join(some)}"')
        own = {path: content for path, content in pages.items() if not path.startswith("find/n")}
        put(tmp_path, own | thousands["files"] | {"find.html": page.encode()})
        finder.open(tmp_path / "find.html")
        loaded = [Path(one.removeprefix("file://")).stat().st_size for one in finder.requests]
        assert sum(loaded) < 100_000
        said, links = finder.find("kind7")
        # 8,000 trees of 72 kinds: of the eighth, and of the 71st and 72nd; the kinds 70 and 71 too.
        wanted = [n for n in range(8000) if n % 72 in (7, 70, 71)]
        assert said == f"{len(wanted)} found; the first 30:"
        assert links == [f"trees/tree-{n}.html" for n in wanted[:30]]
        one = thousands["things"][4321]
        both = f"{one.written[0]} {one.written[1]} {one.called[0]}"
        assert f"trees/{one.handle}.html" in finder.find(both)[1]
