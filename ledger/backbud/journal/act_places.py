"""Where a piece of an act's line stands on the page, however the line was put together."""

from __future__ import annotations

from backbud_grammar.own_words import Expanded
from backbud_grammar.problems import Flaw
from backbud_grammar.syntax import Act


def line_of(act: Act) -> str:
    """The line as it was written, without its remark."""
    return f"{act.word} {act.text}".rstrip()


def place_in(act: Act, at: int) -> tuple[int, int]:
    """The line and column of a character of `line_of`."""
    behind = at - len(act.word) - 1
    return act.place_of(behind) if behind >= 0 else (act.line, act.column + at)


def in_its_place(flaw: Flaw, act: Act, own: Expanded | None) -> Flaw:
    """A flaw of an act's text, or of the whole act, where it stands on the page."""
    if flaw.length == 0:
        at, column, length = act.line, act.column, len(act.word)
    elif own is not None:
        offset, length = own.span(flaw.column, flaw.length)
        at, column = act.place_of(offset) if offset >= 0 else (act.line, act.column)
    else:
        at, column = act.place_of(flaw.column)
        length = flaw.length
    return Flaw(flaw.code, at, column, length, flaw.message, flaw.hint, flaw.severity)
