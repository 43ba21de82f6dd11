"""What the rows of a list become, before it is read: new cards, lines, and what is only told."""

from __future__ import annotations

from collections import Counter
from datetime import date

from msgspec import Struct

from backbud.bring.called import CalledThings
from backbud.bring.days import DayOrder
from backbud.bring.sheet import SheetCell, SheetRow
from backbud_grammar.digest import digest
from backbud_grammar.outline import Known

# A note is told on several lines where it is longer: a line of the journal has its bounds.
LONGEST_NOTE = 8_000
LONGEST_ACT = 2_000


class RowPlace(Struct, frozen=True, gc=False):
    """A row of the list; `sheet` "" where the file has but one."""

    sheet: str
    row: int


class NewCard(Struct, frozen=True):
    """A card that a row asks for; `name` as the list has it."""

    kind: str
    handle: str
    name: str
    place: RowPlace


class BroughtLine(Struct, frozen=True, gc=False):
    """One line that cells of a row become.

    On a card: `kind` and `handle`. In the diary: `day` (ISO 8601, EDTF) and `subject`. `text`: as
    it is to be read; `words`: all its words as a note; `note`: whether it is one from the start.
    `details`: what of the text came from a column of its own.
    """

    place: RowPlace
    heading: str
    text: str
    words: str
    kind: str = ""
    handle: str = ""
    day: str = ""
    subject: str = ""
    note: bool = False
    details: str = ""


class ToldCell(Struct, frozen=True, gc=False):
    """A cell that no line was made of, with why; `heading` "" where it is about the whole row."""

    sheet: str
    row: int
    heading: str
    words: str
    why: str


class Around(Struct, frozen=True):
    """What rows are read by: the day, the handle of home ("" where nobody says), the words that a
    line may begin with, who is called what, the digests of rows that were brought before, and what
    the diary says was done to whom, on which day (past form of the act, handle, first day)."""

    today: date
    home: str
    known: Known
    names: CalledThings
    brought: frozenset[str]
    counts: Counter[str]
    done: frozenset[tuple[str, str, date]]


class Gathered:
    """Grows row by row, from the first sheet to the last."""

    def __init__(self) -> None:
        self.cards: list[NewCard] = []
        self.described: set[tuple[str, str]] = set()
        self.kinds: dict[str, str] = {}
        self.lines: list[BroughtLine] = []
        self.told: list[ToldCell] = []
        # What was decided of a row without a loss, to be seen before it is written.
        self.said: list[ToldCell] = []
        self.digests: dict[RowPlace, str] = {}
        self.left_out: Counter[str] = Counter()
        self.before = 0


class RowOfList(Struct, frozen=True):
    """A row with what its columns mean: for each the heading, the meaning, its unit, the cell."""

    place: RowPlace
    cells: tuple[tuple[str, str, str, SheetCell], ...]
    order: DayOrder

    def by(self, meaning: str) -> SheetCell | None:
        """The cell of a meaning that is not empty and can be believed."""
        return next(
            (cell for _, what, _, cell in self.cells if what == meaning and cell.text), None
        )

    def text(self, meaning: str) -> str:
        """Its words, "" where there are none."""
        found = self.by(meaning)
        return found.text if found is not None else ""

    def heading(self, meaning: str) -> str:
        """What its column is headed by."""
        return next((heading for heading, what, _, _ in self.cells if what == meaning), "")


def row_digest(row: SheetRow, headings: tuple[str, ...], counts: Counter[str]) -> str:
    """What a row is known by when it comes again: its headings and cells, and of equal rows which
    one it is. The order of the columns does not enter, nor empty ones."""
    cells = [(name, row.cell(n)) for n, name in enumerate(headings)]
    told = sorted(f"{name}\x1f{cell.text}{cell.wrong}" for name, cell in cells if cell.text)
    whole = "\x1e".join(told)
    counts[whole] += 1
    return digest(whole.encode(), b"\x1d%d" % counts[whole]).hex()[:16]


def pieces(text: str, longest: int = LONGEST_NOTE) -> list[str]:
    """A text in pieces, parted at blanks where there are any."""
    out: list[str] = []
    while len(text) > longest:
        at = text.rfind(" ", 1, longest)
        at = at if at > 0 else longest
        out.append(text[:at])
        text = text[at:].strip()
    return [*out, text] if text else out
