"""Writes the index for finding: small scripts that the page to find on loads as they are asked for.

A page that lies in a folder may load scripts, and nothing else. Each holds the words that begin
alike, or some of the things that are found, by their numbers. `templates/find.js` reads them.
"""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator, Mapping, Sequence
from itertools import groupby

from msgspec import Struct

from backbud.pages import links
from backbud.views.finding import Findable, by_word

# Letters of the text of one script: no key waits for more than that.
MOST_LETTERS = 32_000
# So many things stand in one script.
ITEMS = 128
_PATHS = {"tree": links.tree_page, "place": links.place_page, "kind": links.kind_page}


class Index(Struct, frozen=True):
    """The index: its files, and by what letters the words in them begin, of names and of what is
    written."""

    files: tuple[tuple[str, bytes], ...]
    names: tuple[str, ...]
    written: tuple[str, ...]


def index_of(things: Sequence[Findable]) -> Index:
    """The index of all that can be found, in their order."""
    numbered = list(enumerate(things))
    called = by_word((n, one.called) for n, one in numbered)
    of = by_word((n, one.of) for n, one in numbered)
    names = {
        word: f"{_numbers(called.get(word, ()))}\t{_numbers(of.get(word, ()))}"
        for word in called.keys() | of.keys()
    }
    written = {
        word: _numbers(those)
        for word, those in by_word((n, one.written) for n, one in numbered).items()
    }
    by_names, by_written = dict(_shards(names)), dict(_shards(written))
    files = (
        *(_script("n", beginning, text) for beginning, text in by_names.items()),
        *(_script("w", beginning, text) for beginning, text in by_written.items()),
        *(_items(at // ITEMS, things[at : at + ITEMS]) for at in range(0, len(things), ITEMS)),
    )
    return Index(files, tuple(by_names), tuple(by_written))


def _shards(lines: Mapping[str, str]) -> Iterator[tuple[str, str]]:
    """The words by what they begin with: by as few letters as leave each text short."""
    yield from _parted(sorted(lines.items()), 1)


def _parted(some: Sequence[tuple[str, str]], letters: int) -> Iterator[tuple[str, str]]:
    for beginning, those in groupby(some, key=lambda one: one[0][:letters]):
        lines = list(those)
        text = "\n".join(f"{word}\t{found}" for word, found in lines)
        if len(text) <= MOST_LETTERS or len(beginning) < letters:
            yield beginning, text
        else:
            # A word that is no longer than this stands in a script of its own name.
            yield from _parted(lines, letters + 1)


def _script(sort: str, beginning: str, text: str) -> tuple[str, bytes]:
    return f"{links.FIND_FOLDER}{sort}{beginning.encode().hex()}.js", _call(
        "words", sort + beginning, text
    )


def _items(number: int, things: Iterable[Findable]) -> tuple[str, bytes]:
    rows = [(one.sort, one.name, one.beside, way_to(one)) for one in things]
    return f"{links.FIND_FOLDER}t{number}.js", _call("things", number, rows)


def way_to(one: Findable) -> str:
    """The link to a thing from the top; a person has a place on the page of all."""
    if one.sort == "person":
        return links.link(links.PEOPLE, "", links.person_anchor(one.handle))
    return links.link(_PATHS[one.sort](one.handle))


def _call(function: str, *values: object) -> bytes:
    told = ",".join(json.dumps(one, ensure_ascii=False, separators=(",", ":")) for one in values)
    # ECMAScript takes every sign of JSON in a string; so does whoever shows the file.
    return f"backbud.{function}({told})\n".encode(errors="replace")


def _numbers(ascending: Sequence[int]) -> str:
    """Numbers in few letters: the steps between them to base 36, or, where that is shorter, one bit
    each, six in a letter."""
    if not ascending:
        return ""
    last, steps = -1, []
    for number in ascending:
        steps.append(_base_36(number - last))
        last = number
    told = " ".join(steps)
    if len(told) <= ascending[-1] // 6 + 2:
        return told
    bits = 0
    for number in ascending:
        bits |= 1 << number
    letters = []
    while bits:
        letters.append(chr(48 + (bits & 63)))
        bits >>= 6
    # A sign that begins no step, and none that a script writes otherwise: 48 to 111 but for \\.
    return "!" + "".join(letters).replace("\\", "~")


def _base_36(number: int) -> str:
    digits = ""
    while True:
        number, digit = divmod(number, 36)
        digits = "0123456789abcdefghijklmnopqrstuvwxyz"[digit] + digits
        if not number:
            return digits
