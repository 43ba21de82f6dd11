"""A mark of the program's source files in a folder, so that what others made is told apart."""

from __future__ import annotations

import os
from collections.abc import Iterator
from functools import cache

from backbud_grammar.digest import digest


def language_mark() -> str:
    """Return the digest of every source file of the language."""
    return sources_mark(os.path.dirname(__file__))


@cache
def sources_mark(folder: str) -> str:
    """Return the digest of every source file in a folder of the program, and in those below it."""
    pieces: list[bytes] = []
    for path in sorted(_sources(folder)):
        with open(os.path.join(folder, path), "rb") as file:
            pieces += (path.replace(os.sep, "/").encode() + b"\0", file.read())
    return digest(*pieces).hex()


def _sources(folder: str) -> Iterator[str]:
    for at, _, names in os.walk(folder):
        for name in names:
            if name.endswith((".py", ".lark")):
                yield os.path.relpath(os.path.join(at, name), folder)
