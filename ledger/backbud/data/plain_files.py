"""Writes tables as CSV, a file each, and what the columns mean as one more."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from backbud.data.table import Cell, DataTable
from backbud.views.plain_cell import plain_cell


def csv_files(tables: Iterable[DataTable]) -> Iterator[tuple[str, bytes]]:
    """Name and bytes of each file, as RFC 4180 has it, in UTF-8. A figure's unit stands in its
    heading. A cell of text that a spreadsheet would reckon with has an apostrophe before it."""
    columns = []
    for table in tables:
        heads = [column.name for column in table.columns]
        yield f"csv/{table.name}.csv", csv_bytes(heads, table.rows)
        columns += [
            (table.name, one.name, one.sort, one.references or None, one.about)
            for one in table.columns
        ]
    yield "csv/columns.csv", csv_bytes(["table", "column", "sort", "references", "about"], columns)


def csv_bytes(heads: Iterable[str], rows: Iterable[Iterable[Cell]]) -> bytes:
    """A heading and rows as CSV."""
    import csv
    import io

    out = io.StringIO()
    lines = csv.writer(out)
    lines.writerow(heads)
    for row in rows:
        lines.writerow([_cell(one) for one in row])
    return out.getvalue().encode()


def _cell(value: Cell) -> str:
    if isinstance(value, str):
        return plain_cell(value)
    return "" if value is None else f"{value:.6g}" if isinstance(value, float) else str(value)
