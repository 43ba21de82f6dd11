"""Lays out a register for a terminal: a block a row, so that nothing is cut off."""

from __future__ import annotations

from collections.abc import Iterator

from backbud.say import Heading
from backbud.views.registers.register import RegisterView

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
        yield f"  {'  '.join(filter(None, (row.get(key, '') for key in first)))}"
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
