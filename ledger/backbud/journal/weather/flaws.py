"""Keeps the flaws of one weather file few: a wrong unit would else make one of every row."""

from __future__ import annotations

from backbud.words import number
from backbud_grammar.problems import Flaw

MOST_FLAWS = 20


class Flaws:
    """Collects the flaws of one file: a wrong unit would make one of every row."""

    def __init__(self) -> None:
        self._of_file: list[Flaw] = []
        self._of_rows: list[Flaw] = []
        self._left_out: list[int] = []

    def of_file(self, flaw: Flaw) -> None:
        """Note what is wrong with the file as a whole; it comes before what is wrong with rows."""
        self._of_file.append(flaw)

    def of_row(
        self,
        line: int,
        place: tuple[int, int],
        code: str,
        message: str,
        hint: str,
        severity: str = "error",
    ) -> None:
        """Note what is wrong with a row; `place`: column and length."""
        if len(self._of_rows) < MOST_FLAWS:
            self._of_rows.append(Flaw(code, line, *place, message, hint, severity))
        else:
            self._left_out.append(line)

    def all(self) -> tuple[Flaw, ...]:
        """The first flaws in full, and one that counts the rest."""
        found = self._of_file + sorted(self._of_rows, key=lambda flaw: (flaw.line, flaw.column))
        shown, rest = found[:MOST_FLAWS], [flaw.line for flaw in found[MOST_FLAWS:]]
        rest += self._left_out
        if not rest:
            return tuple(found)
        said = f"{number(len(rest), 'more problem')} in this file"
        hint = "Mend the first ones; the rest often go with them."
        return (*shown, Flaw("many-problems", rest[0], 1, 1, said, hint))
