"""Plants a word in every place of a journal that takes words, and searches all that leaves the
house for each of them: every byte of every file, and the name of each."""

from __future__ import annotations

import gzip
import io
import re
import zipfile
from base64 import b64decode
from datetime import date
from pathlib import Path
from typing import NamedTuple

import exifread
import pytest
from tests.folders.planted import Planted, journal, readings

from backbud.compiled import compiled
from backbud.papers.gather import papers_of
from backbud.papers.keep import issue
from backbud.session import open_session

DAY = date(2026, 6, 1)


class Made(NamedTuple):
    plant: Planted
    named: dict[str, str]
    files: dict[str, bytes]

    def folder(self, begin: str) -> dict[str, bytes]:
        return {name: content for name, content in self.files.items() if name.startswith(begin)}

    @property
    def owners_root(self) -> str:
        (feed,) = (name for name in self.files if name.startswith("for/") and name[-4:] == ".ics")
        return feed.removesuffix("calendar.ics")

    @property
    def helpers_root(self) -> str:
        (trees,) = (name for name in self.folder("for/") if name.endswith("/trees.html"))
        return trees.removesuffix("trees.html")

    def owners(self) -> dict[str, bytes]:
        # The feed at its old path; the name of that is the card's oldest handle.
        old = [content for name, content in self.files.items()
               if name.startswith("calendars/owners/") and b"Ada" in content]  # fmt: skip
        assert len(old) == 1
        # Their papers in the keeper's own output are handed over, too.
        return self.folder(self.owners_root) | self.folder("papers/marrow/") | {"feed": old[0]}


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory) -> Made:
    return made_in(tmp_path_factory.mktemp("planted"), "en")


def made_in(folder: Path, speaks: str) -> Made:
    plant, named = journal(folder, speaks)
    session = open_session(str(folder), DAY)
    view = papers_of(session, "marrow")
    assert view is not None
    issue(session, view, ["receipt", "statement", "care", "provenance"])
    session = open_session(str(folder), DAY)
    return Made(plant, named, dict(compiled(session).output.files))


# What an owner reads of the keeper's own words: what is called theirs, and what is marked for them.
OWNERS = frozenset(
    {"house", "own name", "for owner note", "for owner remark", "hoshi name", "hoshi front",
     "hoshi style", "hoshi origin", "hoshi passport", "hoshi formerly", "tray-7 name", "grit name"}
)  # fmt: skip
# A paper says who wrote it, how a tree came, on which part what was done, where it was shown.
PAPERS = OWNERS | {"head address", "head telephone", "head email", "head pay", "tax number",
                   "marrow address", "marrow town", "wrenfold town", "wrenfold name", "yard name",
                   "part", "hoshi received condition", "hoshi shown at",
                   "hoshi shown award"}  # fmt: skip
# What was agreed with them, and billed.
THEIR_MONEY = ("118.23", "131.71")
MONEY = re.compile(r"\b(38\.17|73\.19|17\.29|913\.37|118\.23|131\.71)\b")


def test_the_journal_is_planted_everywhere(made: Made) -> None:
    """The keeper's own pages show what stands in it: so the words are there to be found."""
    keeper = "\n".join(readings(name, made.files[name]) for name in made.files
                       if not name.startswith(("for/", "public/")))  # fmt: skip
    seen = made.plant.words_in(keeper)
    assert len(made.plant.where) > 1000
    assert len(seen) > 700
    assert MONEY.search(keeper)


def test_an_owner_s_folder_holds_nothing_that_is_not_theirs(made: Made) -> None:
    files = made.owners()
    assert len(files) > 6
    for name, content in files.items():
        text = readings(name, content)
        if "papers/" in name:
            found = made.plant.found_in(text, PAPERS)
            assert [one for one in found if not re.search(r": hoshi \S+ part$", one)] == [], name
            assert {*MONEY.findall(text)} <= {*THEIR_MONEY}, name
        else:
            assert made.plant.found_in(text, OWNERS) == [], name
            assert not MONEY.search(text), name
            assert not re.search(r"\b55\d{6}\b", text), name
        for other in ("pell", "dunnick", "yuki", "aki", "nami", "far-corner", ".txt"):
            assert not re.search(rf"(?<![\w-]){re.escape(other)}\b", text), (name, other)


def test_another_language_tells_no_more(tmp_path: Path) -> None:
    """A sentence of another language is put together by a text of its own."""
    made = made_in(tmp_path, "de")
    assert b'lang="de"' in made.files[f"{made.owners_root}index.html"]
    test_an_owner_s_folder_holds_nothing_that_is_not_theirs(made)
    test_the_public_s_folder_holds_no_name_no_place_and_no_word(made)
    test_a_helper_s_folder_holds_no_money_no_contact_and_nothing_private(made)


def test_an_owner_reads_what_was_done_and_what_is_marked(made: Made) -> None:
    page = made.files[f"{made.owners_root}trees/hoshi.html"].decode()
    marked = (made.named["for owner note"], made.named["for owner remark"])
    plainly = (
        "Repotted: in its own pot, 2 cm of the root ball cut away from below, 2 parts of the root "
        "ball opened, the rest left in peace, fresh soil (grit)",
        "Wired: 3 mm aluminium on left 2, 2 mm aluminium",
        "Time worked on it: 40 min",
    )
    for said in (*plainly, *marked):
        assert said in page
    pictures = [name for name in made.folder(made.owners_root) if "/photographs/" in name]
    assert len(pictures) == 2  # of the one that is marked, small and large


def test_the_public_s_folder_holds_no_name_no_place_and_no_word(made: Made) -> None:
    files = made.folder("public/")
    pages = [name for name in files if re.fullmatch(r"public/trees/[0-9a-f]{32}\.html", name)]
    # aki is the keeper's; the owner of yuki consents; those of hoshi and sora were not asked.
    assert len(pages) == 2
    for name, content in files.items():
        text = readings(name, content)
        assert made.plant.found_in(text) == [], name
        assert not MONEY.search(text) and not re.search(r"\b55\d{6}\b", text), name
        for word in ("hoshi", "yuki", "aki", "nami", "marrow", "pell", "wrenfold", "far-corner",
                     "tray-7", "grit", "lava", ".txt", "left 1"):  # fmt: skip
            assert not re.search(rf"(?<![\w-]){re.escape(word)}\b", text), (name, word)
    in_german = b'lang="de"' in files["public/index.html"]
    wired = b"Gedrahtet" if in_german else b"Wired"
    assert any(wired in files[name] for name in pages)
    assert not any(name.endswith(".ics") for name in files)


def test_each_folder_is_a_web_root_of_its_own(made: Made) -> None:
    for begin in ("public/", made.owners_root, made.helpers_root):
        files = made.folder(begin)
        assert f"{begin}index.html" in files
        for name, content in files.items():
            if not name.endswith(".html"):
                continue
            for to in re.findall(r'(?:href|src)="([^"#]+)', content.decode()):
                if to.startswith("data:image/jpeg;base64,"):
                    continue  # A picture in the page itself leads nowhere.
                assert not re.match(r"[a-z]+:|/", to), to
                path = (Path("/") / Path(name).parent / to).as_posix()
                resolved = str(Path(path).resolve()).lstrip("/")
                assert resolved in files, (name, to)


def test_pictures_say_nothing_but_the_picture(made: Made) -> None:
    """Read by a library that has no part in writing them."""
    pictures = [c for n, c in made.files.items() if n.endswith(".jpg") and n[0] in "fp"]
    assert len(pictures) >= 10
    embedded = re.compile(rb"data:image/jpeg;base64,([A-Za-z0-9+/=]+)")
    within = [b64decode(one) for c in made.files.values() for one in embedded.findall(c)]
    assert len(within) >= 2
    pictures += within
    for content in pictures:
        assert exifread.process_file(io.BytesIO(content), details=True) == {}
        assert made.named["exif"].encode() not in content
        assert b"Exif" not in content and b"http://ns.adobe.com" not in content


def test_the_keeper_is_told_where_the_folder_lies(made: Made) -> None:
    index = f"{made.owners_root}index.html"
    assert re.fullmatch(r"for/[0-9a-f]{32}/index\.html", index)
    assert f'href="../{index}"' in made.files["trees/hoshi.html"].decode()
    # hoshi and sora are to be public, and nobody asked their owners.
    (told,) = re.findall(
        r"no consent on this day: <bdi>(.*?)</bdi>", made.files["trees.html"].decode()
    )
    assert len(told.split(", ")) == 2
    for root in (made.owners_root, made.helpers_root, "public/"):
        assert f'href="{root}index.html"' in made.files["trees.html"].decode()


# What a helper does not read: money, what is private, and how to reach a person.
def is_for_keeper(where: str) -> bool:
    return (
        where.endswith((" note", " contact", " town", " experience", " private prose"))
        and where != "for owner note"
    ) or any(f" {act} " in where for act in ("quoted", "agreed", "billed", "paid"))


def test_a_helper_s_folder_holds_no_money_no_contact_and_nothing_private(made: Made) -> None:
    files = made.folder(made.helpers_root)
    assert len([name for name in files if "/trees/" in name]) == 5
    hidden = frozenset(where for where in made.plant.where.values() if not is_for_keeper(where))
    assert len(set(made.plant.where.values()) - hidden) > 50
    for name, content in files.items():
        text = readings(name, content)
        assert made.plant.found_in(text, hidden) == [], name
        assert not MONEY.search(text), name
    # They read what was done, and what was remarked.
    page = readings("", files[f"{made.helpers_root}trees/hoshi.html"])
    assert made.named["other tree"] in page and "2 cm off below" in page


def test_what_is_packed_is_searched_too() -> None:
    packed = io.BytesIO()
    with zipfile.ZipFile(packed, "w", zipfile.ZIP_DEFLATED) as archive:
        archive.writestr("a.txt", gzip.compress(b"a qbbbbzz in it"))
    assert "qbbbbzz" in readings("x.zip", packed.getvalue())
