"""Writes the index for finding: small scripts that the page to find on loads as they are asked for.

A page that lies in a folder may load scripts, and nothing else. Each holds the words that begin
alike, or some of the things that are found, by their numbers. `templates/find.js` reads them.
"""

from __future__ import annotations

import json
from bisect import insort
from collections.abc import Iterable, Iterator, Mapping, Sequence
from functools import partial
from itertools import groupby

from msgspec import Struct

from backbud.memo import NO_MEMO, Identical, Memo
from backbud.pages import links
from backbud.views.finding import Findable, numbers_by_word

# Letters of the text of one script: no key waits for more than that.
MOST_LETTERS = 32_000
# Where more things than these have other words, all are gone through.
FEW = 50
# So many things stand in one script.
ITEMS = 128
_PATHS = {"tree": links.tree_page, "place": links.place_page, "kind": links.kind_page}


class Index(Struct, frozen=True):
    """The index: its files, and by what letters the words in them begin, of names and of what is
    written."""

    files: tuple[tuple[str, bytes], ...]
    names: tuple[str, ...]
    written: tuple[str, ...]


def index_of(things: Sequence[Findable], kept: Memo = NO_MEMO) -> Index:
    """The index of all that can be found, in their order.

    `kept`: what an earlier run of this process left of each script and of the numbers of a word.
    """
    numbered = list(enumerate(things))
    called = numbers_by_word((n, one.called) for n, one in numbered)
    of = numbers_by_word((n, one.of) for n, one in numbered)
    names = {
        word: f"{_numbers(called.get(word, ()))}\t{_numbers(of.get(word, ()))}"
        for word in called.keys() | of.keys()
    }
    written = kept.once("words written", (), _Written).of(things)
    by_names, by_written = dict(_shards(names)), dict(_shards(written))

    def script(sort: str, beginning: str, text: str) -> tuple[str, bytes]:
        work = partial(_script, sort, beginning, text)
        return kept.once(("script", sort, beginning), (text,), work)

    def items(at: int) -> tuple[str, bytes]:
        some = things[at : at + ITEMS]
        return kept.once(("items", at), (Identical(*some),), partial(_items, at // ITEMS, some))

    files = (
        *(script("n", beginning, text) for beginning, text in by_names.items()),
        *(script("w", beginning, text) for beginning, text in by_written.items()),
        *map(items, range(0, len(things), ITEMS)),
    )
    return Index(files, tuple(by_names), tuple(by_written))


class _Written:
    """The words of histories and the numbers of the things that have each, as the last run in this
    process had them: where a few things have other words now, only those words are told anew."""

    def __init__(self) -> None:
        self._words: list[tuple[str, ...]] = []
        self._numbers: dict[str, list[int]] = {}
        self._told: dict[str, str] = {}

    def of(self, things: Sequence[Findable]) -> Mapping[str, str]:
        """The numbers of the things that have each word, as they are written."""
        words, before = [one.written for one in things], self._words
        # Where this fails half way, nothing of it is believed the next time.
        self._words = []
        others = [n for n, (a, b) in enumerate(zip(words, before, strict=False)) if a != b]
        if len(words) != len(before) or len(others) > FEW:
            self._numbers = numbers_by_word(enumerate(words))
            self._told = {word: _numbers(those) for word, those in self._numbers.items()}
        else:
            changed = {word for n in others for word in {*words[n]} ^ {*before[n]}}
            for n in others:
                self._change(n, {*before[n]}, {*words[n]})
            for word in changed:
                self._tell(word)
        self._words = words
        return self._told

    def _change(self, number: int, before: set[str], now: set[str]) -> None:
        for word in before - now:
            self._numbers[word].remove(number)
        for word in now - before:
            insort(self._numbers.setdefault(word, []), number)

    def _tell(self, word: str) -> None:
        numbers = self._numbers[word]
        if numbers:
            self._told[word] = _numbers(numbers)
        else:
            del self._numbers[word]
            self._told.pop(word, None)


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
    rows = [(one.sort, one.name, one.beside, way_to_thing(one)) for one in things]
    return f"{links.FIND_FOLDER}t{number}.js", _call("things", number, rows)


def way_to_thing(one: Findable) -> str:
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
