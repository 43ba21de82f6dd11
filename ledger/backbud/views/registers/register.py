"""A register as it is shown: its columns, its rows of text, and what it cannot tell."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence

from msgspec import Struct

from backbud.journal.things import Things
from backbud.tongue import phrase
from backbud.views.plain_cell import plain_cell


class ColumnView(Struct, frozen=True):
    """A column: the key of its cells in each row, and its heading."""

    key: str
    heading: str


class RegisterView(Struct, frozen=True):
    """One register on a day, for the keeper's eyes.

    `register`: its name; `title`, `about`: what it is for and by what rule, in words. `rows`: for
    each column's key the cell, "" where nothing is written; days are ISO 8601, sums of money
    decimal with their currency in a column of its own. `notes`: what it cannot tell, and totals.
    """

    register: str
    title: str
    about: str
    columns: tuple[ColumnView, ...]
    rows: tuple[dict[str, str], ...]
    notes: tuple[str, ...] = ()


def register_of(
    name: str,
    title: str,
    about: str,
    headings: Mapping[str, str],
    rows: Sequence[dict[str, str]],
    notes: Sequence[str] = (),
) -> RegisterView:
    """A register from its rows. `headings`: of each key, in their order."""
    columns = tuple(ColumnView(key, phrase(heading)) for key, heading in headings.items())
    return RegisterView(name, title, phrase(about), columns, tuple(rows), tuple(notes))


# What the handle of a person or a place, as a line has it, is called.
Called = Callable[[str], str]


def name_of(things: Things, names: Mapping[str, str], written: str) -> str:
    """What a thing is called, by any handle it ever had; as written where nothing has it."""
    found = things.find(written) if written else None
    return names.get(found.handle, found.handle) if found is not None else written


def csv_of(register: RegisterView) -> bytes:
    """The register as RFC 4180 has it, in UTF-8: the keys, then a line a row. A cell that a
    spreadsheet would reckon with has an apostrophe before it, so that it stays text."""
    import csv
    import io

    out = io.StringIO()
    keys = [column.key for column in register.columns]
    lines = csv.writer(out)
    lines.writerow(keys)
    for row in register.rows:
        lines.writerow([plain_cell(row.get(key, "")) for key in keys])
    return out.getvalue().encode()
