"""A journal with a word of its own in every place that takes words, and what searches an output."""

from __future__ import annotations

import gzip
import io
import itertools
import re
import zipfile
from collections.abc import Iterator
from html import unescape
from pathlib import Path
from urllib.parse import unquote

from PIL import Image

from backbud_grammar.acts import ACTS
from backbud_grammar.forms import ANY_WORDS, ActForm
from backbud_grammar.kinds import KINDS

SETTINGS = """\
language = 1
name = "The nursery {house}"
home = "yard"
keeper = "wrenfold"
currency = "EUR"
journal_id = "planted"
speaks = "{speaks}"
public_name = "Trees to look at"

[tax]
rate = 20
number = "{tax number}"

[letterhead]
address = "{head address}"
telephone = "{head telephone}"
email = "{head email}"
pay = "{head pay}"
"""
_LETTERS = "bcdfghjkmnpqrtvwx"
_PLANTED = re.compile(rf"q[{_LETTERS}]{{4}}zz")


class Planted:
    """Words that stand nowhere else, each with where it was put."""

    def __init__(self) -> None:
        self.where: dict[str, str] = {}
        self._words = ("q" + "".join(letters) + "zz" for letters in
                       itertools.product(_LETTERS, repeat=4))  # fmt: skip

    def word(self, where: str) -> str:
        found = next(self._words)
        self.where[found] = where
        return found

    def words_in(self, text: str) -> set[str]:
        """The planted words that stand anywhere in a text."""
        return {*_PLANTED.findall(text)} & self.where.keys()

    def found_in(self, text: str, may: frozenset[str] = frozenset()) -> list[str]:
        """Where each planted word that stands in a text was put, but for those that may."""
        seen = {word: self.where[word] for word in self.words_in(text)}
        return sorted(f"{word}: {where}" for word, where in seen.items() if where not in may)


def _card(plant: Planted, kind: str, handle: str, *lines: str) -> str:
    """A card with a word in each of its labels that takes any."""
    told = [f"  {line}" for line in lines]
    said = {line.split("  ")[0] for line in lines}
    for form in KINDS[kind].forms:
        if form.prose and form.name not in (*said, "kind", "weather", "hardiness zone", "town"):
            told.append(f"  {form.name}  {plant.word(f'{handle} {form.name}')}")
    formerly = plant.word(f"{handle} formerly")
    return "\n".join([f"{kind} {handle}", *told, f"  formerly  {formerly}", ""])


def _lines(plant: Planted, tree: str, row: ActForm) -> Iterator[str]:
    """An act of a tree with a word wherever free words may stand, and one behind it."""
    bare = f"  {row.word}"
    at = f"{tree} {row.word}"
    if row.prose:
        yield f"{bare} {plant.word(f'{at} prose')}"
        return
    for form in row.forms:
        label = form.labels[0] if form.labels else ""
        if form.words == ANY_WORDS and not form.refers and form.name != "as":
            yield f"{bare} {label} {plant.word(f'{at} {form.name}')}".replace("  ", " ").rstrip()
            yield f"{bare} {label} 55{len(plant.where):06}".replace("  ", " ")
        elif form.part:
            yield f"{bare} on {plant.word(f'{at} part')}"
    yield f"{bare} -- {plant.word(f'{at} remark')}"
    yield f"{bare} {plant.word(f'{at} odd word')}"


def journal(folder: Path, speaks: str = "en") -> tuple[Planted, dict[str, str]]:
    """Write it into a folder; the planted words, and those that a test asks for by name.

    `speaks`: the language of the pages."""
    plant = Planted()
    keys = (
        "house", "file", "photo file", "public photo file", "exif", "for owner note",
        "for owner remark", "part", "own name", "other tree", "other person", "weather file",
        "own words", "group handle", "head address", "head telephone", "head email", "head pay",
        "tax number",
    )  # fmt: skip
    named = {key: plant.word(key) for key in keys}
    (folder / "backbud.toml").write_text(SETTINGS.format(speaks=speaks, **named))
    cards = [
        _card(plant, "place", "yard", "latitude  52 N", f"weather  {named['weather file']}.csv"),
        f"words {plant.word('words handle')}\n  {named['own words']}  watered\n",
        f"group {named['group handle']}\n  trees  hoshi, yuki\n",
        _card(plant, "place", "far-corner"),
        _card(plant, "person", "wrenfold", "rate  38.17 EUR/h"),
        _card(plant, "person", "marrow", f"name  Ada {named['own name']}", "pages  yes"),
        _card(plant, "person", "pell", f"name  Jo {named['other person']}", "consent  2026-01-01"),
        _card(plant, "person", "dunnick"),
        _card(plant, "person", "lammet", "pages  as helper"),
        _card(plant, "pot", "tray-7", "value  73.19 EUR"),
        _card(plant, "mix", "grit"),
        _card(plant, "material", "lava", "sold in  bag of 14 L", "price  17.29 EUR"),
    ]
    for handle, owner, public in (
        ("hoshi", "marrow", "yes"), ("yuki", "pell", "yes"), ("aki", "", "yes"), ("nami", "", "no"),
        ("sora", "dunnick", "yes"),
    ):  # fmt: skip
        lines = ["kind  trident maple", f"public  {public}", "place  far-corner", "pot  tray-7",
                 "mix  grit", "value  913.37 EUR", "trunk  7 cm"]  # fmt: skip
        cards.append(_card(plant, "tree", handle, *lines, *([f"owner  {owner}"] * bool(owner))))
    pages = []
    for tree in ("hoshi", "yuki", "aki", "nami", "sora"):
        lines = [line for row in ACTS for line in _lines(plant, tree, row)
                 if row.word not in ("sold", "returned", "died", "lost", "lent", "separated",
                                     "corrected", "photographed")]  # fmt: skip
        for at in range(0, len(lines), 40):
            some = "\n".join(lines[at : at + 40])
            pages.append(f"\n2026-{1 + at // 1000:02}-{1 + at // 40 % 25:02}\n{tree}\n{some}\n")
    # Some of these acts made them the keeper's.
    for tree, owner in (("hoshi", "marrow"), ("yuki", "pell"), ("sora", "dunnick")):
        pages.append(f"\n2026-03-30\n{tree}\n  sold to {owner}, stays here\n")
    pages.append(
        "\n2026-04-02\nhoshi, yuki, nami\n"
        f"  watered -- beside {named['other tree']}\n"
        f"{named['group handle']}\n  {named['own words']}\n"
        "hoshi\n  repotted  same pot, 2 cm off below, wedges N E, mix grit 3 L\n"
        "  wired     3 mm Al on left 2, 2 mm Al on the " + named["part"] + "\n"
        f"  noted     for owner: it likes the {named['for owner note']}\n"
        f"  pruned    1/3 off -- for owner: {named['for owner remark']}\n"
        "  grafted   from yuki, on apex\n  moved     far-corner\n"
        "  agreed    pruning, 118.23 EUR\n  billed    131.71 EUR\n  worked    40 min\n"
        f"  planned   repot, to 2027-03 -- {plant.word('hoshi plan remark')}\n"
        f"  photographed front, {named['photo file']}.jpg, for owner\n"
        f"  photographed back, {plant.word('unmarked photo file')}.jpg\n"
        "aki\n  pruned  1/3 off\n  wired  2 mm Al on left 1\n"
        f"  photographed front, {named['public photo file']}.jpg, for public\n"
        "yuki\n  repotted  same pot\n"
    )
    for at, (file, word) in enumerate(plant.where.items()):
        if word.endswith("photo file"):
            picture(folder / f"{file}.jpg", named["exif"], at)
    days = "".join(f"2026-03-{day:02},1,9,0\n" for day in range(1, 31))
    (folder / f"{named['weather file']}.csv").write_text(f"date,low,high,rain\n{days}")
    (folder / f"{named['file']}.txt").write_text("\n".join(cards) + "".join(pages))
    return plant, named


def picture(path: Path, word: str, shade: int) -> None:
    """A photograph that says in its metadata who took it, with what, and where."""
    exif = Image.Exif()
    exif[0x010E] = exif[0x013B] = exif[0x8298] = exif[0x0131] = f"by {word}"
    exif[0x8825] = {1: "N", 2: (52.0, 1.0, 2.0), 3: "E", 4: (4.0, 5.0, 6.0)}
    image = Image.new("RGB", (64, 48), (shade % 256, 90, 60))
    image.save(path, exif=exif, comment=word.encode())


def readings(name: str, content: bytes) -> str:
    """All that can be read in a file, its name too: as it is, unfolded, unescaped, unpacked."""
    parts = [name, *(part.decode("utf-8", "replace") for part in unpacked(content))]
    text = "\n".join(parts)
    unfolded = re.sub(r"\r?\n[ \t]", "", text)
    found = "\n".join((text, unfolded, unescape(text), unquote(text), unquote(unfolded)))
    wide = content.decode("utf-16-le", "ignore") if b"\0" in content else ""
    return f"{found}\n{wide}".casefold()


def unpacked(content: bytes) -> Iterator[bytes]:
    """The bytes, and what is packed in them."""
    yield content
    if content[:2] == b"\x1f\x8b":
        yield from unpacked(gzip.decompress(content))
    elif content[:4] == b"PK\x03\x04":
        with zipfile.ZipFile(io.BytesIO(content)) as packed:
            for name in packed.namelist():
                yield name.encode()
                yield from unpacked(packed.read(name))
