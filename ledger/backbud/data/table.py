"""What a table of the data is: its columns, each with its meaning, and its rows."""

from __future__ import annotations

from datetime import date
from decimal import Decimal
from typing import Literal

from msgspec import Struct

Cell = str | int | float | None


class DataColumn(Struct, frozen=True):
    """A column. `name` ends in the unit where it is a figure. `references`: the table whose key
    its cells name, "" for none."""

    name: str
    sort: Literal["text", "integer", "real"]
    about: str
    references: str = ""


class DataTable(Struct, frozen=True):
    """A table of the data. `key`: the columns that tell its rows apart. A day is ISO 8601, money a
    decimal number as text with its currency beside it, yes and no are 1 and 0, and what nobody
    wrote is nothing at all (NULL in SQLite, an empty cell in CSV)."""

    name: str
    about: str
    columns: tuple[DataColumn, ...]
    key: tuple[str, ...]
    rows: tuple[tuple[Cell, ...], ...]


def text(name: str, about: str, references: str = "") -> DataColumn:
    """A column of words, days or money."""
    return DataColumn(name, "text", about, references)


def whole(name: str, about: str, references: str = "") -> DataColumn:
    """A column of whole numbers."""
    return DataColumn(name, "integer", about, references)


def figure_column(name: str, about: str) -> DataColumn:
    """A column of figures; the name tells the unit."""
    return DataColumn(name, "real", about)


def cell(value: str | int | float | bool | date | Decimal | None) -> Cell:
    """A value as it stands in a table.

    >>> cell(date(2027, 3, 6)), cell(Decimal("18.50")), cell(True), cell("")
    ('2027-03-06', '18.50', 1, None)
    """
    match value:
        case bool():
            return int(value)
        case date():
            return value.isoformat()
        case Decimal():
            return f"{value:f}"
        case "":
            return None
    return value
