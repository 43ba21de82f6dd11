"""Opens a workbook (Office Open XML, ECMA-376): its sheets, read a row at a time."""

from __future__ import annotations

import datetime
from collections import Counter
from collections.abc import Iterator
from io import BytesIO
from typing import TYPE_CHECKING, Any
from warnings import catch_warnings
from zipfile import ZipFile

from backbud.bring.archive import holds, open_archive
from backbud.bring.numbers import day_in_words, number_in_words, time_in_words
from backbud.bring.sheet import (
    EMPTY,
    MOST_COLUMNS,
    MOST_SHEETS,
    BringError,
    ListSheet,
    SheetCell,
    SheetRow,
    SheetRows,
    in_plain_words,
)
from backbud.words import number

if TYPE_CHECKING:
    from openpyxl import Workbook

# A merged cell as it lies in a sheet: first and last row, first column, all counted from 1.
Merged = tuple[int, int, int]


def open_workbook(data: bytes) -> tuple[ListSheet, ...]:
    """Every sheet of cells. BringError where the file is unsound or too large."""
    archive = open_archive(data, _may_be_large)
    # Whatever is wrong in the archive's XML ends in one of a dozen errors of the library.
    try:
        # What the library leaves out (validation, charts) is no cell.
        with catch_warnings(action="ignore"):
            return tuple(_sheets(data, archive))
    except (BringError, ModuleNotFoundError):
        raise
    except Exception as error:
        raise BringError(f"this workbook cannot be read: {type(error).__name__}: {error}") from None


def _may_be_large(name: str) -> bool:
    name = name.lower()
    return "/worksheets/" in name or "sharedstrings" in name or not name.endswith((".xml", ".rels"))


def _sheets(data: bytes, archive: ZipFile) -> Iterator[ListSheet]:
    from openpyxl import load_workbook

    parts = set(archive.namelist())
    book = load_workbook(BytesIO(data), read_only=True, data_only=True, keep_links=False)
    sheets = [sheet for sheet in book.worksheets if getattr(sheet, "_worksheet_path", "") in parts]
    if len(sheets) > MOST_SHEETS:
        raise BringError(f"it has more than {MOST_SHEETS} sheets")
    # Formulas are read only where there are any: the whole is read twice for them.
    formulas = None
    comments = sum(1 for part in parts if "/comments" in part or "threadedcomment" in part.lower())
    for sheet in sheets:
        path = sheet._worksheet_path  # type: ignore[attr-defined]
        if formulas is None and holds(archive, path, b"<f"):
            formulas = load_workbook(BytesIO(data), read_only=True, keep_links=False)
        told = []
        if comments and sheet is sheets[0]:
            told.append("the file holds comments hung on cells; those are not read")
        yield _sheet(book, formulas, sheet, told)


def _sheet(book: Workbook, formulas: Workbook | None, sheet: Any, told: list[str]) -> ListSheet:
    where = f"the sheet “{in_plain_words(sheet.title)}”"
    rows, counts = SheetRows(where), Counter[str]()
    parser = _parser(book, sheet)
    as_written = _parser(formulas, sheet).parse() if formulas is not None else None
    for at, cells in parser.parse():
        written = {c["column"]: c["value"] for c in next(as_written)[1]} if as_written else {}
        rows.add(at, _row(sheet, cells, written, counts))
    rows.rows.sort(key=lambda row: row.number)
    found = parser.merged_cells.mergeCell if parser.merged_cells is not None else ()
    merged: list[Merged] = [(one.min_row, one.max_row, one.min_col) for one in found]
    filled, repeated = fill_merged(rows.rows, merged)
    if repeated:
        told.append(
            f"{number(repeated, 'merged cell')} over several rows: its words hold for each of them"
        )
    if counts["formula"]:
        told.append(
            f"{number(counts['formula'], 'cell')} with a formula: what it last came to was read"
        )
    hidden = {int(at) for at, row in parser.row_dimensions.items() if row.get("hidden") in _YES}
    count = sum(1 for row in rows.rows if row.number in hidden)
    if count:
        told.append(f"{number(count, 'row')} hidden there: read like the others")
    epoch = "1904" if book.epoch.year == 1904 else "1900"
    name = in_plain_words(sheet.title)
    return ListSheet(name, tuple(filled), sheet.sheet_state != "visible", tuple(told), epoch)


_YES = ("1", "true")


def _parser(book: Workbook, sheet: Any) -> Any:
    """Reads the cells as they come: the rows of the library itself are filled up to a size that the
    file only claims."""
    from openpyxl.worksheet._reader import WorkSheetParser

    return WorkSheetParser(
        book._archive.open(sheet._worksheet_path),  # type: ignore[attr-defined]
        sheet._shared_strings,
        data_only=book.data_only,
        epoch=book.epoch,
        date_formats=book._date_formats,  # type: ignore[attr-defined]
        timedelta_formats=book._timedelta_formats,  # type: ignore[attr-defined]
    )


def _row(
    sheet: Any, cells: list[dict[str, Any]], written: dict[int, Any], counts: Counter[str]
) -> list[SheetCell]:
    from openpyxl.cell.read_only import ReadOnlyCell

    out: list[SheetCell] = []
    for cell in cells:
        at = cell["column"] - 1
        formula = written.get(cell["column"])
        is_formula = isinstance(formula, str) and formula.startswith("=")
        if cell["value"] is None and formula is None:
            continue
        if at >= MOST_COLUMNS:
            raise BringError(f"there are cells beyond the {MOST_COLUMNS}th column")
        out += [EMPTY] * (at + 1 - len(out))
        if is_formula and cell["value"] is not None:
            counts["formula"] += 1
        if is_formula and cell["value"] is None:
            why = "a formula of which nothing is kept that it came to"
            out[at] = SheetCell(in_plain_words(str(formula)), wrong=why)
        elif cell["value"] is not None:
            out[at] = _cell(ReadOnlyCell(sheet, **cell))
    return out


def _cell(cell: Any) -> SheetCell:
    value = cell.value
    if cell.data_type == "e":
        return SheetCell(in_plain_words(str(value)), wrong="an error of the spreadsheet")
    if isinstance(value, bool):
        return SheetCell("yes" if value else "no")
    if isinstance(value, int | float):
        return SheetCell(in_plain_words(number_in_words(value, cell.number_format or "")))
    if isinstance(value, datetime.datetime | datetime.date):
        return SheetCell(*day_in_words(value))
    if isinstance(value, datetime.time | datetime.timedelta):
        return SheetCell(time_in_words(value))
    return SheetCell(in_plain_words(str(value)))


def fill_merged(rows: list[SheetRow], merged: list[Merged]) -> tuple[list[SheetRow], int]:
    """The rows with the words of a merged cell in each row that it covers, and how many such cells
    there are. Of several columns it stays in the first. Rows with nothing else stay away."""
    tall = [one for one in merged if one[1] > one[0]]
    if not tall:
        return rows, 0
    at = {row.number: n for n, row in enumerate(rows)}
    out, count = list(rows), 0
    for first, last, column in tall:
        top = rows[at[first]].cell(column - 1) if first in at else EMPTY
        if not top.text:
            continue
        count += 1
        for n in range(at[first] + 1, len(rows)):
            if rows[n].number > last:
                break
            cells = list(out[n].cells)
            cells += [EMPTY] * (column - len(cells))
            cells[column - 1] = top
            out[n] = SheetRow(out[n].number, tuple(cells))
    return out, count
