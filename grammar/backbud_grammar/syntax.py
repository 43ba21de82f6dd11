"""What a page of the journal is made of: frozen values with their places, and nothing else.

Lines count from the section's first line (0), columns from 1, so that a section that only
moved in its file keeps its syntax.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Sequence

from msgspec import Struct

from backbud_grammar.act_words import DetailName, LabelName
from backbud_grammar.measures import Measure
from backbud_grammar.problems import Flaw


class Seam(Struct, frozen=True, array_like=True, gc=False):
    """Where a joined text goes on: from `offset` it stands on `line` at `column`."""

    offset: int
    line: int
    column: int


class Act(Struct, frozen=True, array_like=True, gc=False):
    """An act line with its continuations joined: the word, the details, the remark.

    `left_out`: what was refused below it, and may go on with it. `kept`: words of its line that
    were not used and bear on nothing; they stand in no detail. `written`: its line as it stands in
    the file, where it was said in other words. `hour`: as written (`10:30`), "" where none.
    """

    word: str
    text: str
    remark: str
    line: int
    column: int
    text_column: int
    seams: tuple[Seam, ...] = ()
    left_out: str = ""
    kept: tuple[str, ...] = ()
    written: str = ""
    hour: str = ""

    def place_of(self, offset: int) -> tuple[int, int]:
        """Return the line and column of a character of `text`."""
        return _place(offset, self.line, self.text_column, self.seams)


def _place(offset: int, line: int, column: int, seams: tuple[Seam, ...]) -> tuple[int, int]:
    # A text may have as many seams as problems, so they are not gone through one by one.
    behind = bisect_right(seams, offset, key=_offset)
    if not behind:
        return line, column + offset
    seam = seams[behind - 1]
    return seam.line, seam.column + offset - seam.offset


def _offset(seam: Seam) -> int:
    return seam.offset


class Block(Struct, frozen=True, array_like=True, gc=False):
    """A subject line and the acts under it; `subjects` is "" when the line is missing."""

    subjects: str
    line: int
    acts: tuple[Act, ...]


def last_line(blocks: Sequence[Block]) -> int:
    """The last line that blocks say something on."""
    last = blocks[-1]
    if not last.acts:
        return last.line
    act = last.acts[-1]
    return act.seams[-1].line if act.seams else act.line


class CardLine(Struct, frozen=True, array_like=True, gc=False):
    """A line of a card with its continuations joined, label and value not yet parted."""

    text: str
    line: int
    column: int
    seams: tuple[Seam, ...] = ()

    def place_of(self, offset: int) -> tuple[int, int]:
        """Return the line and column of a character of `text`."""
        return _place(offset, self.line, self.column, self.seams)


class Page(Struct, frozen=True, array_like=True, gc=False, tag="page"):
    """A dated page: the date and the day's weather as written, then the blocks.

    `hour`: behind the date, as written (`10:30`), "" where none. `has_hours`: some of its acts have
    one of their own.
    """

    date: str
    weather: str
    weather_column: int
    blocks: tuple[Block, ...]
    flaws: tuple[Flaw, ...] = ()
    hour: str = ""
    has_hours: bool = False


class Card(Struct, frozen=True, array_like=True, gc=False, tag="card"):
    """A card: its kind, its handle as written, its lines."""

    kind: str
    handle: str
    column: int
    lines: tuple[CardLine, ...]
    blocks: tuple[Block, ...] = ()
    flaws: tuple[Flaw, ...] = ()


class Stray(Struct, frozen=True, array_like=True, gc=False, tag="stray"):
    """What stands in a file before any date or card."""

    blocks: tuple[Block, ...]
    flaws: tuple[Flaw, ...] = ()


Section = Page | Card | Stray


class Detail(Struct, frozen=True, array_like=True, gc=False):
    """One detail of an act or one line of a card, read against the table of forms.

    `name`: the form's name. `words`: what stood there besides label, measure and reference.
    `handle`: the thing referred to, as written. `part`: the part of the tree after `on`.
    `date`: a date or span as written. `share`: "each", "together" or "" (the act's own way).
    `offset`, `length`: where it stands in the text that was read.
    """

    name: DetailName | LabelName
    words: str = ""
    measure: Measure | None = None
    handle: str = ""
    part: str = ""
    date: str = ""
    share: str = ""
    offset: int = 0
    length: int = 0


class Selection(Struct, frozen=True, array_like=True, gc=False):
    """One item of a subject line: a handle, or all in a place, of a person, of a kind.

    `by`: "handle", "in", "of", "kind" or "all".
    """

    by: str
    words: str
    offset: int = 0


class Subjects(Struct, frozen=True, array_like=True, gc=False):
    """A subject line: what is meant, and what is not."""

    chosen: tuple[Selection, ...]
    left_out: tuple[Selection, ...] = ()
