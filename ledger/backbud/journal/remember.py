"""What was read goes in, and comes out again on the next run: syntax by the hash of its text.

The memory may be deleted at any time; a torn or foreign one is as good as none. It holds values
only, never code.
"""

from __future__ import annotations

import os
from collections.abc import Iterable
from contextlib import suppress

import msgspec

from backbud.publish import MEMORY
from backbud_grammar.parse import Reading
from backbud_grammar.syntax import Detail, Section, Subjects

SYNTAX_FILE = "syntax.msgpack"
KINDS_FILE = "kinds"


class Sound(msgspec.Struct, frozen=True, array_like=True, gc=False):
    """An act that was read without a flaw: the past form of its word, its details as places in
    `Memory.details`, the act that it names."""

    word: str
    details: tuple[int, ...]
    named: str


class Memory(msgspec.Struct, gc=False):
    """`mark`: versions of the language it was read with. `sections` by digest of their bytes,
    `files`: by digest of a whole file the first line and the digest of each of its sections,
    `readings` of details by act and text, `subjects` by subject line. `sound`: by word and text
    the acts in which nothing was wrong, as long as the handles are those of the digest `things`.
    """

    mark: str
    sections: dict[bytes, Section]
    files: dict[bytes, list[tuple[int, bytes]]]
    readings: dict[str, Reading]
    subjects: dict[str, Subjects]
    things: bytes = b""
    details: list[Detail] = []
    sound: dict[str, dict[str, Sound]] = {}


def recall(journal: str, mark: str) -> Memory:
    """Return what the last run read, or an empty memory."""
    try:
        with open(os.path.join(journal, MEMORY, SYNTAX_FILE), "rb") as file:
            memory = msgspec.msgpack.decode(file.read(), type=Memory)
    except (OSError, msgspec.MsgspecError, UnicodeDecodeError, RecursionError):
        return Memory(mark, {}, {}, {}, {})
    return memory if memory.mark == mark else Memory(mark, {}, {}, {}, {})


def keep(journal: str, memory: Memory) -> None:
    """Write the memory, atomically; where the folder cannot be written, nothing is kept."""
    _write(journal, SYNTAX_FILE, msgspec.msgpack.encode(memory))


def recall_kinds(journal: str, mark: str) -> frozenset[str]:
    """Return the kinds of tree that some species was found for, while the mark is the same."""
    try:
        with open(os.path.join(journal, MEMORY, KINDS_FILE), encoding="utf-8") as file:
            head, *kinds = file.read().split("\n")
    except (OSError, UnicodeDecodeError):
        return frozenset()
    return frozenset(kinds) if head == mark else frozenset()


def keep_kinds(journal: str, mark: str, kinds: Iterable[str]) -> None:
    """Write the kinds of tree that some species was found for."""
    _write(journal, KINDS_FILE, "\n".join((mark, *sorted(kinds))).encode())


def _write(journal: str, name: str, data: bytes) -> None:
    # Only a run that has something to keep needs the machinery of publishing.
    from backbud.publish.commit import PublishError, memory_folder, write_whole

    with suppress(OSError, PublishError):
        write_whole(memory_folder(journal), name, data)
