"""Remembers what was read, by the hash of its text, so that the next run reads only what is new.

The memory may be deleted at any time; a torn or foreign one is as good as none. It holds values
only, never code.
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterable, Mapping, Sequence
from functools import partial
from typing import Any, Generic, TypeVar

import msgspec
from msgspec import Raw

from backbud.journal.dated import Said, SoundActs
from backbud.journal.page_text import PageText
from backbud.publish.memory import MemoryOf
from backbud_grammar.details import Reading
from backbud_grammar.parse import Details
from backbud_grammar.shape import SHAPES, Part
from backbud_grammar.syntax import Card, Stray, Subjects

SYNTAX_FILE = "syntax.msgpack"
# The kinds of tree that some species was found for, and the figures that something asks for.
KINDS_FILE = "kinds"
FIGURES_FILE = "figures"
# A large diary has some hundreds.
MOST_SHAPES = 2000


S = TypeVar("S")

# Place, name, value and unit.
SaidWeather = tuple[str, str, float, str]


class Sound(msgspec.Struct, frozen=True, array_like=True, gc=False):
    """A page in which nothing was wrong: how many acts it has, the past form of each, a block on a
    line, with tabs between them, the weather on its first line, and the `cuts` of its blocks
    (`PageByLines`), where it was read line by line."""

    acts: int
    words: str
    weather: tuple[SaidWeather, ...]
    cuts: Sequence[int] = ()


def sound_of(
    words: Collection[tuple[str, ...]],
    weather: tuple[SaidWeather, ...],
    cuts: Sequence[int] = (),
) -> Sound:
    """What is kept of a page in which nothing was wrong."""
    written = "\n".join(["\t".join(block) for block in words])
    return Sound(sum(map(len, words)), written, weather, cuts)


class WordsDigest(msgspec.Struct, frozen=True, array_like=True, gc=False):
    """The digest of a section's words, line by line, and how many of its lines are indented."""

    digest: bytes
    indented: int


class Kept(msgspec.Struct, Generic[S], array_like=True, gc=False):
    """A section: the digest of its bytes, its lines, what was read; `sound` where that is so.

    `said`: what tells whether two sections say the same.
    """

    digest: bytes
    lines: int
    said: WordsDigest
    section: S
    sound: Sound | None = None


Recalled = PageText | Card | Stray


class Memory(msgspec.Struct, gc=False):
    """`mark`: versions of the language it was read with. `files`: by digest of a whole file its
    sections. `readings`: of details, by the act or card they stand in and by text. `subjects`: by
    subject line. `shapes`: what shapes of details were parsed as (`Shapes`).

    What is said to be sound is so as long as the handles are those of the digest `things`;
    `said`: by word and text the acts in which nothing was wrong. `readings_beside`: those of a
    second process of the same run, by act or card and text.

    Most of it is never asked for, so that is decoded only when it is.
    """

    mark: str
    things: bytes = b""
    files: dict[bytes, list[Kept[Recalled]]] = {}
    readings: dict[str, Raw] = {}
    subjects: dict[str, Subjects] = {}
    said: dict[str, dict[str, Raw]] = {}
    shapes: Raw = Raw()
    readings_beside: dict[str, dict[str, Raw]] = {}

    def forget_sound(self, files: Mapping[bytes, Iterable[Kept[Any]]]) -> None:
        """Let go of all that was sound only as long as every handle meant what it did."""
        self.said = {}
        for row in files.values():
            for kept in row:
                kept.sound = None

    def readings_of(self, what: str) -> dict[str, Reading]:
        """The readings of the details of an act or a card, as far as they are remembered."""
        raw = self.readings.get(what)
        if raw is None:
            return {}
        try:
            return _READINGS.decode(raw)
        except (msgspec.MsgspecError, UnicodeDecodeError):
            return {}

    def known_shapes(self) -> dict[str, tuple[Part, ...] | None]:
        """What shapes of details were parsed as."""
        if not bytes(self.shapes):
            return {}
        try:
            return _SHAPES.decode(self.shapes)
        except (msgspec.MsgspecError, UnicodeDecodeError):
            return {}

    def said_of(self, word: str, text: str) -> Said | None:
        """What an act says, as far as that is remembered."""
        texts = self.said.get(word)
        raw = texts.get(text) if texts is not None else None
        if raw is None:
            return None
        try:
            return _SAID.decode(raw)
        except (msgspec.MsgspecError, UnicodeDecodeError):
            return None


_READINGS = msgspec.msgpack.Decoder(dict[str, Reading])
_SHAPES = msgspec.msgpack.Decoder(dict[str, tuple[Part, ...] | None])
_SAID = msgspec.msgpack.Decoder(Said)


def recall_read(memory: MemoryOf, mark: str) -> Memory:
    """Return what the last run read, or an empty memory."""
    known = read_memory(memory, SYNTAX_FILE, Memory)
    return known if known is not None and known.mark == mark else Memory(mark)


def read_memory(memory: MemoryOf, name: str, sort: type[S]) -> S | None:
    """Return what a file of the memory holds, or None where it holds no such thing."""
    data = memory.recall(name)
    try:
        return None if data is None else msgspec.msgpack.decode(data, type=sort)
    except (msgspec.MsgspecError, UnicodeDecodeError, RecursionError):
        return None


def write_memory(memory: MemoryOf, name: str, value: object) -> None:
    """Write a file of the memory, atomically; where the folder cannot be written, nothing is.

    It is no more than what the journal says: torn by a loss of power it is as good as none, so no
    run waits for the disk.
    """
    memory.keep(name, msgspec.msgpack.encode(value), synced=False)


def keep_read(
    memory: MemoryOf,
    known: Memory,
    details: Details,
    said: SoundActs,
    beside: Callable[[Callable[[], None]], None] | None = None,
) -> None:
    """Write the memory, atomically; where the folder cannot be written, nothing is kept.

    What this run read and found sound is added to what the memory holds already. `beside`: has it
    written while this run goes on.
    """
    whole = {
        "mark": known.mark,
        "things": known.things,
        "files": known.files,
        "readings": {**known.readings, **_with_those_beside(known, details)},
        "subjects": details.known_subjects,
        "said": {
            word: {**known.said.get(word, {}), **said.get(word, {})}
            for word in {**known.said, **said}
        },
        "shapes": _shapes(known),
    }
    if beside is None:
        write_memory(memory, SYNTAX_FILE, whole)
    else:
        data = msgspec.msgpack.encode(whole)
        beside(partial(memory.keep, SYNTAX_FILE, data, synced=False))


def _with_those_beside(known: Memory, details: Details) -> dict[str, dict[str, Raw | Reading]]:
    """The readings of this run, and of a second process of it."""
    beside = known.readings_beside
    return {key: {**beside.get(key, {}), **of} for key, of in details.readings.items()}


def _shapes(known: Memory) -> Mapping[str, tuple[Part, ...] | None]:
    """Those of this run, and of earlier ones as long as they are not too many."""
    before = known.known_shapes()
    return SHAPES.parsed if len(before) > MOST_SHAPES else {**before, **SHAPES.parsed}


def recall_names(memory: MemoryOf, name: str, mark: str) -> frozenset[str]:
    """Return the names in a file of the memory, while the mark is the same."""
    data = memory.recall(name)
    if data is None:
        return frozenset()
    head, *names = data.decode().split("\n")
    return frozenset(names) if head == mark else frozenset()


def keep_names(memory: MemoryOf, name: str, mark: str, names: Iterable[str]) -> None:
    """Write names into a file of the memory; no run waits for the disk."""
    memory.keep(name, "\n".join((mark, *sorted(names))).encode(), synced=False)
