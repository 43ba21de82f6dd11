"""What is wrong in a line goes in; one problem that a person can act on comes out.

A problem never stops the reading: every other line still compiles.
"""

from __future__ import annotations

import unicodedata
from collections.abc import Callable, Iterable

from msgspec import Struct


class Flaw(Struct, frozen=True, array_like=True, gc=False):
    """A problem before it knows its file: the line counts from the section's first line (0).

    `column` counts characters from 1, `length` how many of them are meant.
    """

    code: str
    line: int
    column: int
    length: int
    message: str
    hint: str = ""
    severity: str = "error"


class Problem(Struct, frozen=True, gc=False):
    """A problem in its place: line and column count from 1, `source` is the line itself."""

    code: str
    severity: str
    file: str
    line: int
    column: int
    length: int
    message: str
    hint: str
    source: str

    def as_json(self) -> dict[str, object]:
        """The seven fields a program reads; see `backbud check --json`."""
        return {
            "code": self.code,
            "severity": self.severity,
            "file": self.file,
            "line": self.line,
            "column": self.column,
            "message": self.message,
            "hint": self.hint,
        }


class Misread(Exception):
    """Raised inside the reading of one detail; its caller turns it into a `Flaw`.

    `offset` and `length` are within the text that was being read. A hint that takes time to find
    may be given as a function: many readings are tried, and few are told to anybody.
    """

    def __init__(
        self,
        code: str,
        message: str,
        hint: str | Callable[[], str] = "",
        offset: int = 0,
        length: int = 0,
    ) -> None:
        super().__init__(message)
        self.code, self.message = code, message
        self.offset, self.length = offset, length
        self._hint = hint

    @property
    def hint(self) -> str:
        """What to do about it: the nearest known word, or what was expected."""
        return self._hint if isinstance(self._hint, str) else self._hint()


# A screen line of a bench laptop; a longer source line is cut around the mark.
SHOWN_WIDTH = 100


def show(problem: Problem) -> str:
    """Return the problem as a person reads it: place, message, the line, a mark, a hint."""
    head = f"{problem.file}:{problem.line}:{problem.column}: {problem.message} [{problem.code}]"
    out = [head]
    if problem.source.strip():
        line, column, length = _cut(problem.source, problem.column, max(problem.length, 1))
        margin = "    "
        # Tabs stay tabs under tabs, and wide letters take two cells, so that the mark lines up.
        lead = "".join(c if c == "\t" else " " * _cells(c) for c in line[: column - 1])
        marked = line[column - 1 : column - 1 + length]
        out.append(f"{margin}{line}")
        out.append(f"{margin}{lead}{'^' * max(sum(map(_cells, marked)), 1)}")
    if problem.hint:
        out.append(f"    {problem.hint}")
    return "\n".join(out)


def _cut(line: str, column: int, length: int) -> tuple[str, int, int]:
    """The line, the mark's column and length in it, cut around the mark where it is long."""
    start, end, lead, tail = 0, len(line), "", ""
    if len(line) > SHOWN_WIDTH:
        start = max(0, min(column - 1 - SHOWN_WIDTH // 2, len(line) - SHOWN_WIDTH))
        end = start + SHOWN_WIDTH
        lead, tail = "…" if start else "", "…" if end < len(line) else ""
    piece = "".join(
        c if c == "\t" or c.isprintable() else "\N{REPLACEMENT CHARACTER}" for c in line[start:end]
    )
    length = min(length, max(end - column + 1, 1))
    return lead + piece + tail, column - start + len(lead), length


def _cells(char: str) -> int:
    if unicodedata.combining(char):
        return 0
    return 2 if unicodedata.east_asian_width(char) in "WF" else 1


# The longest word that is compared: to compare two takes as long as the product of their lengths.
LONGEST_COMPARED = 60


def nearest(word: str, known: Iterable[str]) -> str:
    """Return the known word most like `word`, or "" when none is near."""
    if len(word) > LONGEST_COMPARED:
        return ""
    # difflib is needed only where something is wrong.
    from difflib import get_close_matches

    folded = {k.casefold(): k for k in known if len(k) <= LONGEST_COMPARED}
    found = get_close_matches(word.casefold(), folded, n=1, cutoff=0.6)
    return folded[found[0]] if found else ""


def did_you_mean(word: str, known: Iterable[str], otherwise: str = "") -> str:
    """Return a hint that names the nearest known word, or `otherwise`."""
    near = nearest(word, known)
    return f"Did you mean “{near}”?" if near else otherwise
