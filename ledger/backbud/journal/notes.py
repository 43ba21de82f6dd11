"""Flaws with their places go in; the journal's problems come out, sorted, each with its line."""

from __future__ import annotations

from collections.abc import Mapping

from backbud.journal.events import Origin
from backbud_grammar.outline import LONGEST_LINE
from backbud_grammar.problems import Flaw, Problem

# A file that is no journal at all would drown what matters.
MOST_PER_FILE = 200


class Notes:
    """Collects problems; the text of a file is asked for only when there is one."""

    def __init__(self, texts: Mapping[str, bytes]) -> None:
        self._texts = texts
        self._lines: dict[str, list[str]] = {}
        self._found: dict[tuple[str, int, int, str, str], Problem] = {}
        self._counts: dict[str, int] = {}

    def __len__(self) -> int:
        """How much was noted so far."""
        return len(self._found)

    def add(self, file: str, line: int, flaw: Flaw) -> None:
        """Note a flaw of a section that begins on `line` (0 first)."""
        number = line + flaw.line + 1
        key = (file, number, flaw.column, flaw.code, flaw.message)
        if key not in self._found:
            self._counts[file] = self._counts.get(file, 0) + 1
            self._found[key] = Problem(
                flaw.code,
                flaw.severity,
                file,
                number,
                flaw.column,
                flaw.length,
                flaw.message,
                flaw.hint,
                self._source(file, number),
                flaw.lines,
            )

    def flooded(self, file: str) -> bool:
        """Whether more was found in a file than is shown; hints need no more be sought."""
        return self._counts.get(file, 0) > 2 * MOST_PER_FILE

    def at(
        self,
        origin: Origin,
        code: str,
        message: str,
        hint: str,
        offset: int,
        length: int,
        severity: str = "error",
        lines: int = 1,
    ) -> None:
        """Note a problem `offset` characters behind an origin."""
        self.add(
            origin.file,
            origin.line - 1,
            Flaw(code, 0, origin.column + offset, length, message, hint, severity, lines),
        )

    def line_of(self, origin: Origin) -> str:
        """The line at an origin, as problems show it."""
        return self._source(origin.file, origin.line)

    def _source(self, file: str, number: int) -> str:
        if file not in self._lines:
            text = self._texts.get(file, b"").decode(errors="replace")
            self._lines[file] = text.split("\n")
        lines = self._lines[file]
        return lines[number - 1][:LONGEST_LINE] if number <= len(lines) else ""

    def all(self) -> list[Problem]:
        """Every problem, by file, line and column."""
        return sorted(self._found.values(), key=lambda p: (p.file, p.line, p.column))

    def problems(self) -> tuple[Problem, ...]:
        """The same, but a flood from one file is cut and counted."""
        out: list[Problem] = []
        counts: dict[str, int] = {}
        for problem in self.all():
            counts[problem.file] = counts.get(problem.file, 0) + 1
            if counts[problem.file] <= MOST_PER_FILE:
                out.append(problem)
        for file, count in counts.items():
            if count > MOST_PER_FILE:
                out.append(
                    Problem(
                        "many-problems",
                        "error",
                        file,
                        1,
                        1,
                        1,
                        f"{count - MOST_PER_FILE} more problems in this file",
                        "Mend the first ones; the rest often go with them.",
                        "",
                    )
                )
        return tuple(out)
