"""The files of the language go in; a mark that changes when any of them does comes out."""

from __future__ import annotations

import os
from functools import cache

from backbud_grammar.digest import digest


def language_mark() -> str:
    """Return the digest of every source file of the language."""
    return sources_mark(os.path.dirname(__file__))


@cache
def sources_mark(folder: str) -> str:
    """Return the digest of every source file in a folder of the program."""
    pieces: list[bytes] = []
    for name in sorted(os.listdir(folder)):
        if name.endswith((".py", ".lark")):
            with open(os.path.join(folder, name), "rb") as file:
                pieces += (name.encode() + b"\0", file.read())
    return digest(*pieces).hex()
