"""What a list is once its file was opened: sheets of rows of cells, and how much of it is read."""

from __future__ import annotations

from msgspec import Struct

from backbud_grammar.shown import shown

# What is more than this is no list that a hand kept, or is made to fill a memory.
MOST_FILE_BYTES = 64 << 20
MOST_UNPACKED_BYTES = 128 << 20
MOST_SHEETS = 100
MOST_ROWS = 100_000
MOST_COLUMNS = 1_000
MOST_CELLS = 1_000_000
# The longest that a spreadsheet itself holds (ECMA-376 part 1, 18.18.17: 32,767 characters).
LONGEST_CELL = 32_767


class BringError(Exception):
    """A file that cannot be brought in at all; the sentence says why and what to do."""


class SheetCell(Struct, frozen=True, gc=False):
    """A cell in plain words, one line. `day`: the date (ISO 8601) where the file itself says that
    it is one. `wrong`: why its words are not to be believed, "" where they are."""

    text: str
    day: str = ""
    wrong: str = ""


EMPTY = SheetCell("")


class SheetRow(Struct, frozen=True, gc=False):
    """A row that is not empty; `number` counts from 1 as in the file."""

    number: int
    cells: tuple[SheetCell, ...]

    def cell(self, column: int) -> SheetCell:
        """The cell of a column (0 first), an empty one where the row is shorter."""
        return self.cells[column] if column < len(self.cells) else EMPTY


class ListSheet(Struct, frozen=True):
    """One table of a file. `name`: "" where the file has but one. `told`: what is to be said of how
    it was read. `epoch`: the year that numbers of days count from, where the file says it."""

    name: str
    rows: tuple[SheetRow, ...]
    hidden: bool = False
    told: tuple[str, ...] = ()
    epoch: str = ""


def in_plain_words(text: str) -> str:
    """The words of a cell in one line: nothing in it can begin another line, turn the direction of
    writing or be unseen; what has no look of its own is written out.

    >>> in_plain_words("one\\n  two\u202e")
    'one two\\\\u202e'
    """
    if len(text) > LONGEST_CELL:
        raise BringError(
            f"a cell holds {len(text)} characters, more than {LONGEST_CELL}; this is no list"
        )
    return shown(" ".join(text.split()))


class SheetRows:
    """Gathers the rows of one sheet, and ends the reading where they are too many."""

    def __init__(self, where: str) -> None:
        self._where, self._cells = where, 0
        self.rows: list[SheetRow] = []

    def add(self, number: int, cells: list[SheetCell]) -> None:
        """Add a row if anything stands in it."""
        while cells and not cells[-1].text and not cells[-1].wrong:
            cells.pop()
        if not cells:
            return
        self._cells += len(cells)
        if len(cells) > MOST_COLUMNS:
            raise BringError(f"{self._where} has more than {MOST_COLUMNS} columns")
        if len(self.rows) >= MOST_ROWS:
            raise BringError(f"{self._where} has more than {MOST_ROWS} rows; part it into several")
        if self._cells > MOST_CELLS:
            raise BringError(
                f"{self._where} has more than {MOST_CELLS} cells; part it into several"
            )
        self.rows.append(SheetRow(number, tuple(cells)))
