"""Turns the flaws that the steps found into the problems a person reads, each with its line."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from functools import lru_cache
from typing import Generic, NamedTuple, TypeVar

from msgspec import Struct

from backbud.journal.events import Origin
from backbud_grammar.outline import LONGEST_LINE
from backbud_grammar.problems import KEPT, Flaw, Problem

T = TypeVar("T")

# A file that is no journal at all would drown what matters.
MOST_PER_FILE = 200


class PlacedFlaw(Struct, frozen=True, gc=False):
    """A flaw of the section that begins on `line` (0 first) of a file."""

    file: str
    line: int
    flaw: Flaw

    @property
    def number(self) -> int:
        """The line it stands in, counted from 1 in the file."""
        return self.line + self.flaw.line + 1

    @property
    def is_kept(self) -> bool:
        """Whether it is no problem, but tells of words that were kept and not used."""
        return self.flaw.severity == KEPT


PlacedFlaws = tuple[PlacedFlaw, ...]


class WithFlaws(NamedTuple, Generic[T]):
    """What a step makes of its values, and all that was wrong with them."""

    value: T
    flaws: PlacedFlaws = ()


def placed(file: str, line: int, flaws: Sequence[Flaw]) -> PlacedFlaws:
    """The flaws of a section that begins on `line` (0 first), in their place."""
    return tuple([PlacedFlaw(file, line, flaw) for flaw in flaws]) if flaws else ()


def flaw_at(
    origin: Origin,
    code: str,
    message: str,
    hint: str,
    offset: int,
    length: int,
    severity: str = "error",
    lines: int = 1,
) -> PlacedFlaw:
    """A flaw `offset` characters behind an origin."""
    column = origin.column + offset
    flaw = Flaw(code, 0, column, length, message, hint, severity, lines)
    return PlacedFlaw(origin.file, origin.line - 1, flaw)


def is_flood(flaws: int) -> bool:
    """Whether so many flaws of one file are more than is shown; hints need no more be sought."""
    return flaws > 2 * MOST_PER_FILE


def line_at(origin: Origin, texts: Mapping[str, bytes]) -> str:
    """The line at an origin, as problems show it. `texts`: the bytes of each file."""
    return _line(_lines_of(origin.file, texts), origin.line)


def as_problems(flaws: Iterable[PlacedFlaw], texts: Mapping[str, bytes]) -> tuple[Problem, ...]:
    """Every problem once, by file, line and column, with its line; a flood from one file is cut
    and counted. `texts`: the bytes of each file."""
    in_order = sorted(_once(flaws), key=lambda one: (one.file, one.number, one.flaw.column))
    by_file: dict[str, list[PlacedFlaw]] = {}
    for one in in_order:
        by_file.setdefault(one.file, []).append(one)
    out: list[Problem] = []
    for file, those in by_file.items():
        lines = _lines_of(file, texts)
        out += [_problem(one, lines) for one in those[:MOST_PER_FILE]]
    more = {file: len(those) - MOST_PER_FILE for file, those in by_file.items()}
    out += [_more(file, count) for file, count in more.items() if count > 0]
    return tuple(out)


def _once(flaws: Iterable[PlacedFlaw]) -> Iterable[PlacedFlaw]:
    first: dict[tuple[str, int, int, str, str], PlacedFlaw] = {}
    for one in flaws:
        flaw = one.flaw
        first.setdefault((one.file, one.number, flaw.column, flaw.code, flaw.message), one)
    return first.values()


def _problem(one: PlacedFlaw, lines: list[str]) -> Problem:
    flaw = one.flaw
    return Problem(
        flaw.code,
        flaw.severity,
        one.file,
        one.number,
        flaw.column,
        flaw.length,
        flaw.message,
        flaw.hint,
        _line(lines, one.number),
        flaw.lines,
    )


def _more(file: str, count: int) -> Problem:
    message = f"{count} more problems in this file"
    hint = "Mend the first ones; the rest often go with them."
    return Problem("many-problems", "error", file, 1, 1, 1, message, hint, "")


def _lines_of(file: str, texts: Mapping[str, bytes]) -> list[str]:
    return _lines_in(texts.get(file, b""))


# Many lines of one file may be asked for, one after another.
@lru_cache(maxsize=1)
def _lines_in(data: bytes) -> list[str]:
    return data.decode(errors="replace").split("\n")


def _line(lines: list[str], number: int) -> str:
    return lines[number - 1][:LONGEST_LINE] if number <= len(lines) else ""
