"""Names each line of a diary by its day, whose it is and what it says, wherever it stands."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import NamedTuple

# A page or a card begins at a line of the left edge; so little is read of revisions long past.
_PIECE = re.compile(rb"\n(?=\d)")
_EXACT = re.compile(r"\d{4}-\d\d-\d\d")


class LineKey(NamedTuple):
    """A line's day (ISO 8601), its subject line, and its words with the lines that go on below it,
    with one blank between two words."""

    day: str
    subjects: str
    words: str

    @property
    def act(self) -> str:
        return self.words.partition(" ")[0].rstrip(",:")


def pieces_of(text: bytes) -> list[bytes]:
    """A text parted where a line begins with a digit: at its pages, mostly."""
    return _PIECE.split(text.replace(b"\r\n", b"\n").replace(b"\r", b"\n"))


def line_keys(text: bytes) -> Iterator[tuple[int, LineKey]]:
    """Each indented line below an exact date, by its number (1 first). Lines that go on with the
    one above are part of that."""
    day, subjects, depth = "", "", 0
    begun: tuple[int, list[str]] | None = None
    for number, line in enumerate(text.decode(errors="replace").split("\n"), 1):
        words = line.split()
        if not words or words[0].startswith("#"):
            continue
        at_edge = not line[0].isspace()
        indent = len(line) - len(line.lstrip())
        if begun is not None and not at_edge and indent > depth:
            begun[1].extend(words)
            continue
        if begun is not None:
            yield begun[0], LineKey(day, subjects, " ".join(begun[1]))
            begun = None
        if not at_edge:
            if day:
                begun, depth = (number, words), indent
        elif words[0][0].isdigit():
            day, subjects = words[0] if _EXACT.fullmatch(words[0]) else "", ""
        else:
            subjects = " ".join(words)
    if begun is not None:
        yield begun[0], LineKey(day, subjects, " ".join(begun[1]))
