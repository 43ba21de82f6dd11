"""Lays out the registers: for each entry what it is first, then all else that is written of it."""

from __future__ import annotations

from collections.abc import Iterable

from msgspec import Struct

from backbud import words
from backbud.pages.links import register_csv
from backbud.views.history import date_view
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

_LATEST_FIRST = frozenset({"treatments", "plants"})


class RegisterCell(Struct, frozen=True):
    """What is written of an entry, and what it is."""

    heading: str
    text: str


class RegisterRow(Struct, frozen=True):
    """An entry of a register. `missing`: what is asked for and not written."""

    margin: str
    title: str
    amount: str
    rest: tuple[RegisterCell, ...]
    missing: str


class RegisterSheet(Struct, frozen=True):
    """A register on the page; `csv`: the way to it as CSV."""

    name: str
    title: str
    about: str
    csv: str
    rows: tuple[RegisterRow, ...]
    notes: tuple[str, ...]


def sheet(register: RegisterView) -> RegisterSheet:
    """Lay out a register."""
    return RegisterSheet(
        register.register,
        register.title,
        register.about,
        register_csv(register.register),
        tuple(_row(register, row) for row in _in_order(register)),
        register.notes,
    )


def _in_order(register: RegisterView) -> Iterable[dict[str, str]]:
    """What was written last is asked for first; what is owed longest, too."""
    return reversed(register.rows) if register.register in _LATEST_FIRST else register.rows


def _row(register: RegisterView, row: dict[str, str]) -> RegisterRow:
    margin, title, amount = _PLACES[register.register]
    # The act says whether it came or went.
    apart = {margin, *title, *amount, "not_written", "way"}
    told = {"who": "from" if row.get("way") == "in" else "to"}
    rest = tuple(
        RegisterCell(told.get(column.key, column.heading), _shown(column.key, row[column.key]))
        for column in register.columns
        if column.key not in apart and row.get(column.key)
    )
    return RegisterRow(
        _shown(margin, row[margin]),
        words.sentence(", ".join(filter(None, (row[key] for key in title))) or "not written"),
        _money(row, amount),
        rest,
        row.get("not_written", ""),
    )


def _money(row: dict[str, str], keys: tuple[str, ...]) -> str:
    return " ".join(filter(None, (row[key] for key in keys)))


def _shown(key: str, text: str) -> str:
    """A cell in words, where it is a day."""
    if key not in ("date", "since", "bbch_seen"):
        return text
    try:
        return words.written(date_view(read_date(text)), 0)
    except Misread:
        return text
