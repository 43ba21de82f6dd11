"""Keeps what is told of each act's row of the table: every line of every page asks."""

from __future__ import annotations

from collections.abc import Callable
from typing import TypeVar

from backbud_grammar.forms import ActForm

T = TypeVar("T")


def by_row(told: Callable[[ActForm], T]) -> Callable[[ActForm], T]:
    """The same function of an act's row, asked once for each row of a table.

    Rows are told apart by their word; another row of the same word, of another journal's plugin, is
    asked anew.
    """
    known: dict[str, tuple[ActForm, T]] = {}

    def of_row(row: ActForm) -> T:
        found = known.get(row.word)
        if found is None or found[0] is not row:
            found = known[row.word] = (row, told(row))
        return found[1]

    return of_row
