"""Plants a word in every place of a journal that takes words, and searches all that leaves the
house for each of them: every byte of every file, and the name of each."""

from __future__ import annotations

import gzip
import io
import re
import zipfile
from datetime import date
from pathlib import Path
from typing import NamedTuple

import exifread
import pytest
from tests.folders.planted import Planted, journal, readings

from backbud.compiled import compiled
from backbud.session import open_session

DAY = date(2026, 6, 1)


class Made(NamedTuple):
    plant: Planted
    named: dict[str, str]
    files: dict[str, bytes]

    def folder(self, begin: str) -> dict[str, bytes]:
        return {name: content for name, content in self.files.items() if name.startswith(begin)}

    def owners(self) -> dict[str, bytes]:
        return self.folder("for/") | self.folder("calendars/owners/marrow")


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory) -> Made:
    folder = tmp_path_factory.mktemp("planted")
    plant, named = journal(folder)
    session = open_session(str(folder), DAY)
    return Made(plant, named, dict(compiled(session).output.files))


# What an owner reads of the keeper's own words: what is called theirs, and what is marked for them.
OWNERS = frozenset(
    {"house", "own name", "for owner note", "for owner remark", "hoshi name", "hoshi front",
     "hoshi style", "hoshi origin", "hoshi passport", "hoshi formerly", "tray-7 name", "grit name"}
)  # fmt: skip
MONEY = re.compile(r"\b(38\.17|73\.19|17\.29|913\.37|118\.23|131\.71)\b")


def test_the_journal_is_planted_everywhere(made: Made) -> None:
    """The keeper's own pages show what stands in it: so the words are there to be found."""
    keeper = "\n".join(readings(name, made.files[name]) for name in made.files
                       if not name.startswith(("for/", "public/")))  # fmt: skip
    seen = {word for word in made.plant.where if word in keeper}
    assert len(made.plant.where) > 1000
    assert len(seen) > 700
    assert MONEY.search(keeper)


def test_an_owner_s_folder_holds_nothing_that_is_not_theirs(made: Made) -> None:
    files = made.owners()
    assert len(files) > 6
    for name, content in files.items():
        text = readings(name, content)
        assert made.plant.found_in(text, OWNERS) == [], name
        assert not MONEY.search(text), name
        assert not re.search(r"\b55\d{6}\b", text), name
        for other in ("pell", "dunnick", "wrenfold", "yuki", "aki", "nami", "far-corner", ".txt"):
            assert not re.search(rf"(?<![\w-]){re.escape(other)}\b", text), (name, other)


def test_an_owner_reads_what_was_done_and_what_is_marked(made: Made) -> None:
    (page,) = (c.decode() for n, c in made.folder("for/").items() if n.endswith("trees/hoshi.html"))
    marked = (made.named["for owner note"], made.named["for owner remark"])
    typed = ("same pot, 2 cm off below, wedges N E, mix grit 3 L", "3 mm Al on left 2, 2 mm Al")
    for said in (*typed, "40 min", *marked):
        assert said in page
    pictures = [name for name in made.folder("for/") if "/photographs/" in name]
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
    assert any(b"wired" in files[name] for name in pages)
    assert not any(name.endswith(".ics") for name in files)


def test_each_folder_is_a_web_root_of_its_own(made: Made) -> None:
    for begin in ("public/", next(n for n in made.files if n.startswith("for/"))[:37]):
        files = made.folder(begin)
        assert f"{begin}index.html" in files
        for name, content in files.items():
            if not name.endswith(".html"):
                continue
            for to in re.findall(r'(?:href|src)="([^"#]+)', content.decode()):
                assert not re.match(r"[a-z]+:|/", to), to
                path = (Path("/") / Path(name).parent / to).as_posix()
                resolved = str(Path(path).resolve()).lstrip("/")
                assert resolved in files, (name, to)


def test_pictures_say_nothing_but_the_picture(made: Made) -> None:
    """Read by a library that has no part in writing them."""
    pictures = [c for n, c in made.files.items() if n.endswith(".jpg") and n[0] in "fp"]
    assert len(pictures) >= 10
    for content in pictures:
        assert exifread.process_file(io.BytesIO(content), details=True) == {}
        assert made.named["exif"].encode() not in content
        assert b"Exif" not in content and b"http://ns.adobe.com" not in content


def test_the_keeper_is_told_where_the_folder_lies(made: Made) -> None:
    (index,) = (n for n in made.files if n.startswith("for/") and n.count("/") == 2
                and n.endswith("index.html"))  # fmt: skip
    assert re.fullmatch(r"for/[0-9a-f]{32}/index\.html", index)
    assert f'href="../{index}"' in made.files["trees/hoshi.html"].decode()


def test_what_is_packed_is_searched_too() -> None:
    packed = io.BytesIO()
    with zipfile.ZipFile(packed, "w", zipfile.ZIP_DEFLATED) as archive:
        archive.writestr("a.txt", gzip.compress(b"a qbbbbzz in it"))
    assert "qbbbbzz" in readings("x.zip", packed.getvalue())
