"""A problem as an editor asks to have it mended, and what a fix is."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Mapping, Sequence
from datetime import date

from lsprotocol import types as lsp
from msgspec import Struct

from backbud.editor.desk import Desk
from backbud.editor.led_to import day_of_page
from backbud.editor.pieces import TextPiece
from backbud.editor.text import OpenText
from backbud.jot.placing import DiaryPlace
from backbud.jot.trial import page_of
from backbud_grammar.problems import KEPT, meant_in
from backbud_grammar.syntax import Act

MOST_MEANINGS = 3
_MAYBE = re.compile(r"It may have meant ([^:]+): ")
_OR = re.compile(r", | or ")


class ToMend(Struct, frozen=True):
    """A problem in a text. `line`, `column`: from 0; `written`: the words it is about."""

    desk: Desk
    text: OpenText
    diagnostic: lsp.Diagnostic
    line: int
    column: int
    written: str

    @staticmethod
    def of(desk: Desk, text: OpenText, diagnostic: lsp.Diagnostic) -> ToMend:
        line, column = text.place(diagnostic.range.start)
        last, end = text.place(diagnostic.range.end)
        stop = end if last == line else len(text.line(line))
        return ToMend(desk, text, diagnostic, line, column, text.line(line)[column:stop])

    @property
    def code(self) -> str:
        return str(self.diagnostic.code or "")

    @property
    def message(self) -> str:
        return self.diagnostic.message.partition("\n")[0]

    @property
    def hint(self) -> str:
        return self.diagnostic.message.partition("\n")[2]

    @property
    def meanings(self) -> list[str]:
        """The words that may have been meant, as the hint names them."""
        near = meant_in(self.hint)
        maybe = _MAYBE.match(self.hint)
        some = _OR.split(maybe[1]) if maybe is not None else []
        return [near] if near else some[:MOST_MEANINGS]

    @property
    def piece(self) -> TextPiece:
        return self.desk.pieces(self.text).at(self.line)

    @property
    def act(self) -> Act | None:
        """The act that the problem stands in."""
        return self.piece.act_at(self.line) if self.piece.page is not None else None

    @property
    def day(self) -> date | None:
        return day_of_page(self.piece, self.desk.speech.southern)

    def over(self, column: int, length: int, new: str) -> lsp.TextEdit:
        """An edit on the line of the problem."""
        return lsp.TextEdit(self.text.range(self.line, column, length), new)

    def is_sound_with(self, line: str) -> bool:
        """Whether nothing is wrong any more on the problem's line if it is written so."""
        snapshot, day, piece = self.desk.snapshot, self.day, self.piece
        if snapshot is None or day is None or self.line == piece.first:
            return False
        lines = [self.text.line(n) for n in range(piece.first + 1, piece.last + 1)]
        lines[self.line - piece.first - 1] = line
        place = DiaryPlace(self.text.name, piece.first, day, False)
        _, flaws = page_of(snapshot.journal, day, "\n".join(lines), place)
        # There is a blank line more below the date.
        at = self.line - piece.first + 1
        return not any(flaw.line == at and flaw.severity != KEPT for flaw in flaws)


class Fix(Struct, frozen=True):
    """A way to mend a problem: edits by file. `sure`: nothing is wrong there any more then."""

    title: str
    changes: Mapping[str, Sequence[lsp.TextEdit]]
    sure: bool = False


FixOf = Callable[[ToMend], Iterator[Fix]]


def here(asked: ToMend, title: str, *edits: lsp.TextEdit, sure: bool = False) -> Fix:
    """A fix in the file of the problem."""
    return Fix(title, {asked.text.name: edits}, sure)
