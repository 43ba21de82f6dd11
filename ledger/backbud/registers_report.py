"""Lays out a register for a terminal: a block a row, so that nothing is cut off."""

from __future__ import annotations

from collections.abc import Iterator

from backbud.say import Heading
from backbud.views.registers.register import RegisterView
from backbud.words import written as in_words
from backbud_grammar.dates import read_span

# What stands on the first line of a row; all else below it, with its heading.
_FIRST = {
    "treatments": ("date", "product", "target"),
    "plants": ("date", "way", "act", "tree", "kind"),
    "stock": ("sort", "handle", "name", "value", "currency"),
    "unpaid": ("date", "number", "name", "open", "currency", "age"),
}


def register_lines(register: RegisterView) -> Iterator[str]:
    """A register: its rows, what is written of each, and what it cannot tell."""
    yield Heading(f"{register.title} ({len(register.rows)})")
    first = _FIRST.get(register.register, ())
    for row in register.rows:
        told = row | {"date": _day(row.get("date", ""))}
        yield f"  {'  '.join(filter(None, (told.get(key, '') for key in first)))}"
        rest = [
            f"{column.heading} {row[column.key]}"
            for column in register.columns
            if column.key not in first and row.get(column.key)
        ]
        if rest:
            yield f"      {'; '.join(rest)}"
    yield from (f"  {note}" for note in register.notes)
    yield f"  {register.about}"
    yield ""


def _day(written: str) -> str:
    """An exact day as the diary has it; a rough one in words: `spring 2009` for `2009-21`."""
    if not written or (when := read_span(written)).exact:
        return written
    return in_words(when, 0)
