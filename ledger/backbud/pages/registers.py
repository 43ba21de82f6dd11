"""Lays out the registers: for each entry what it is first, then all else that is written of it."""

from __future__ import annotations

from collections.abc import Iterator

from msgspec import Struct

from backbud import words
from backbud.pages.links import register_csv, register_page
from backbud.tongue import phrase
from backbud.views.history import date_view
from backbud.views.registers.parts import FIRST_ENTRIES, RegisterPart, in_order, register_parts
from backbud.views.registers.register import RegisterView
from backbud_grammar.dates import read_date
from backbud_grammar.problems import Misread

# Of each register what stands in the margin, in the title, and as its amount.
_PLACES = {
    "treatments": ("date", ("product", "target"), ()),
    "plants": ("date", ("act", "tree"), ()),
    "stock": ("sort", ("name",), ("value", "currency")),
    "unpaid": ("date", ("name", "number"), ("open", "currency")),
}


# What stands in the stock.
_SORTS = {"tree": "tree", "pot": "pot"}


class RegisterCell(Struct, frozen=True):
    """What is written of an entry, and what it is."""

    heading: str
    text: str


class RegisterRow(Struct, frozen=True):
    """An entry of a register. `missing`: what is asked for and not written; `at`: its line."""

    margin: str
    title: str
    amount: str
    rest: tuple[RegisterCell, ...]
    missing: str
    at: str


class RegisterLink(Struct, frozen=True):
    """The way to a part of a register, and what it holds."""

    page: str
    title: str
    entries: int


class RegisterSheet(Struct, frozen=True):
    """A register on the page of all, with its first entries; `csv`: the way to it as CSV; `parts`:
    the pages that hold all entries, where the first are not all. `count`: how many there are."""

    name: str
    title: str
    about: str
    csv: str
    count: int
    rows: tuple[RegisterRow, ...]
    notes: tuple[str, ...]
    parts: tuple[RegisterLink, ...]


class RegisterPartSheet(Struct, frozen=True):
    """A part of a register on a page of its own. `others`: the other parts."""

    page: str
    title: str
    csv: str
    rows: tuple[RegisterRow, ...]
    others: tuple[RegisterLink, ...]


def sheet(register: RegisterView) -> RegisterSheet:
    """Lay out a register for the page of all."""
    return RegisterSheet(
        register.register,
        register.title,
        register.about,
        register_csv(register.register),
        len(register.rows),
        tuple(_row(register, row) for row in in_order(register)[:FIRST_ENTRIES]),
        register.notes,
        tuple(_link(register, part) for part in register_parts(register)),
    )


def part_sheets(register: RegisterView) -> Iterator[RegisterPartSheet]:
    """Lay out the parts of a register that is too long for the page of all."""
    parts = register_parts(register)
    for part in parts:
        yield RegisterPartSheet(
            register_page(register.register, part.name),
            ": ".join(filter(None, (register.title, part.title))),
            register_csv(register.register),
            tuple(_row(register, row) for row in part.rows),
            tuple(_link(register, other) for other in parts if other is not part),
        )


def _link(register: RegisterView, part: RegisterPart) -> RegisterLink:
    page = register_page(register.register, part.name)
    return RegisterLink(page, part.title or phrase("all"), len(part.rows))


def _row(register: RegisterView, row: dict[str, str]) -> RegisterRow:
    margin, title, amount = _PLACES[register.register]
    # The act says whether it came or went.
    apart = {margin, *title, *amount, "not_written", "way", "at"}
    told = {"who": phrase("from") if row.get("way") == "in" else phrase("to")}
    rest = tuple(
        RegisterCell(told.get(column.key, column.heading), _shown(column.key, row[column.key]))
        for column in register.columns
        if column.key not in apart and row.get(column.key)
    )
    return RegisterRow(
        _shown(margin, row[margin]),
        words.sentence(
            ", ".join(filter(None, (_shown(key, row[key]) for key in title)))
            or phrase("not written")
        ),
        _money(row, amount),
        rest,
        row.get("not_written", ""),
        row.get("at", ""),
    )


def _money(row: dict[str, str], keys: tuple[str, ...]) -> str:
    return " ".join(filter(None, (row[key] for key in keys)))


def _shown(key: str, text: str) -> str:
    """A cell in words, where it is a day, an act or a sort of thing."""
    if key in ("act", "sort"):
        return phrase(_SORTS.get(text, text))
    if key not in ("date", "since", "bbch_seen"):
        return text
    try:
        return words.written(date_view(read_date(text)), 0)
    except Misread:
        return text
