"""What was read goes in, and comes out again on the next run: syntax by the hash of its text.

The memory may be deleted at any time; a torn or foreign one is as good as none. It holds values
only, never code.
"""

from __future__ import annotations

import os

import msgspec

from backbud.publish import MEMORY
from backbud_grammar.parse import Reading
from backbud_grammar.syntax import Section, Subjects

SYNTAX_FILE = "syntax.msgpack"


class Memory(msgspec.Struct, gc=False):
    """`mark`: versions of the language it was read with. `sections` by digest of their bytes,
    `readings` of details by act and text, `subjects` by subject line."""

    mark: str
    sections: dict[bytes, Section]
    readings: dict[str, Reading]
    subjects: dict[str, Subjects]


def recall(journal: str, mark: str) -> Memory:
    """Return what the last run read, or an empty memory."""
    try:
        with open(os.path.join(journal, MEMORY, SYNTAX_FILE), "rb") as file:
            memory = msgspec.msgpack.decode(file.read(), type=Memory)
    except (OSError, msgspec.MsgspecError, UnicodeDecodeError, RecursionError):
        return Memory(mark, {}, {}, {})
    return memory if memory.mark == mark else Memory(mark, {}, {}, {})


def keep(journal: str, memory: Memory) -> None:
    """Write the memory, atomically; where the folder cannot be written, nothing is kept."""
    folder = os.path.join(journal, MEMORY)
    path = os.path.join(folder, SYNTAX_FILE)
    waiting = f"{path}.{os.getpid()}"
    try:
        make_memory_folder(journal)
        with open(waiting, "wb") as file:
            file.write(msgspec.msgpack.encode(memory))
        os.replace(waiting, path)
    except OSError:
        return


def make_memory_folder(journal: str) -> str:
    """Make the folder of what is remembered, which git ignores; return its path."""
    folder = os.path.join(journal, MEMORY)
    os.makedirs(folder, exist_ok=True)
    ignore = os.path.join(folder, ".gitignore")
    if not os.path.exists(ignore):
        with open(ignore, "w", encoding="utf-8") as file:
            file.write("*\n")
    return folder
