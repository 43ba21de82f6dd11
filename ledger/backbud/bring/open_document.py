"""Opens a spreadsheet of the OpenDocument format (ISO/IEC 26300), as its parts come.

No document is built of it: a cell or a row may be told to stand a million times.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from contextlib import suppress
from typing import TYPE_CHECKING
from zipfile import ZipFile

from backbud.bring.archive import OPEN_DOCUMENT, open_archive
from backbud.bring.numbers import number_in_words, time_in_words
from backbud.bring.sheet import (
    EMPTY,
    MOST_COLUMNS,
    MOST_ROWS,
    MOST_SHEETS,
    BringError,
    ListSheet,
    SheetCell,
    SheetRows,
    in_plain_words,
)
from backbud.bring.workbook import Merged, fill_merged
from backbud.words import number

if TYPE_CHECKING:
    from xml.etree.ElementTree import Element

_NS = "{urn:oasis:names:tc:opendocument:xmlns:"
_TABLE, _TEXT = f"{_NS}table:1.0}}", f"{_NS}text:1.0}}"
_OFFICE, _STYLE = f"{_NS}office:1.0}}", f"{_NS}style:1.0}}"
_CALC = "{urn:org:documentfoundation:names:experimental:calc:xmlns:calcext:1.0}"
_CELLS = (f"{_TABLE}table-cell", f"{_TABLE}covered-table-cell")
_ROW, _OF_TABLE = f"{_TABLE}table-row", f"{_TABLE}table"


def open_document(data: bytes) -> tuple[ListSheet, ...]:
    """Every sheet of it. BringError where the file is unsound or too large."""
    archive = open_archive(data, lambda name: name == OPEN_DOCUMENT or not name.endswith(".xml"))
    if OPEN_DOCUMENT not in archive.namelist():
        raise BringError("this is no spreadsheet: it has no content")
    # A file that is locked, cut off or made to harm ends in one of several errors of the parser.
    try:
        sheets = tuple(_sheets(archive))
    except BringError:
        raise
    except Exception as error:
        raise BringError(
            f"its content cannot be read (is it locked?): {type(error).__name__}: {error}"
        ) from None
    return sheets


class _SheetSoFar:
    """One table while its rows come."""

    def __init__(self, element: Element, hidden_styles: set[str]) -> None:
        self.name = in_plain_words(element.get(f"{_TABLE}name", ""))
        self.hidden = element.get(f"{_TABLE}style-name", "") in hidden_styles
        self.rows = SheetRows(f"the sheet “{self.name}”")
        self.at = 1
        self.merged: list[Merged] = []
        self.counts: Counter[str] = Counter()

    def add(self, element: Element) -> None:
        """The row of an element, as often as it is told to stand."""
        times = _times(element, "rows")
        cells = list(self._cells(element))
        if any(cell.text or cell.wrong for cell in cells):
            if times > MOST_ROWS:
                raise BringError(f"the sheet “{self.name}” has more than {MOST_ROWS} rows")
            if element.get(f"{_TABLE}visibility", "visible") != "visible":
                self.counts["hidden"] += times
            for n in range(times):
                self.rows.add(self.at + n, list(cells))
        self.at += times

    def _cells(self, row: Element) -> Iterator[SheetCell]:
        # Empty cells that nothing follows are none: the last one often stands a thousand times.
        empty = column = 0
        for element in row:
            if element.tag not in _CELLS:
                continue
            times = _times(element, "columns")
            cell = _cell(element, self.counts)
            column += times
            if not cell.text and not cell.wrong:
                empty += times
                continue
            if column > MOST_COLUMNS:
                raise BringError(f"there are cells beyond the {MOST_COLUMNS}th column")
            rows = int(element.get(f"{_TABLE}number-rows-spanned", "1"))
            if rows > 1:
                self.merged.append((self.at, self.at + rows - 1, column))
            yield from [EMPTY] * empty
            yield from [cell] * times
            empty = 0

    def done(self) -> ListSheet:
        """All of it, with what is to be said of it."""
        rows, repeated = fill_merged(self.rows.rows, self.merged)
        told = []
        if repeated:
            told.append(
                f"{number(repeated, 'merged cell')} over several rows: its words hold for each "
                "of them"
            )
        if self.counts["formula"]:
            told.append(
                f"{number(self.counts['formula'], 'cell')} with a formula: what it last came to "
                "was read"
            )
        if self.counts["hidden"]:
            told.append(
                f"{number(self.counts['hidden'], 'row')} hidden there: read like the others"
            )
        if self.counts["comment"]:
            told.append(f"{number(self.counts['comment'], 'comment')} hung on cells: not read")
        return ListSheet(self.name, tuple(rows), self.hidden, tuple(told))


def _sheets(archive: ZipFile) -> Iterator[ListSheet]:
    from defusedxml.ElementTree import iterparse

    hidden: set[str] = set()
    path: list[Element] = []
    sheet: _SheetSoFar | None = None
    count = 0
    with archive.open(OPEN_DOCUMENT) as file:
        for event, element in iterparse(file, ("start", "end"), forbid_dtd=True):
            if event == "start":
                path.append(element)
                if element.tag == _OF_TABLE and sheet is None:
                    count += 1
                    if count > MOST_SHEETS:
                        raise BringError(f"it has more than {MOST_SHEETS} sheets")
                    sheet, depth = _SheetSoFar(element, hidden), len(path)
                continue
            path.pop()
            if element.tag == f"{_STYLE}style":
                hidden |= _hidden_style(element)
            elif (
                element.tag == _ROW
                and sheet is not None
                and _OF_TABLE not in (one.tag for one in path[depth:])
            ):
                sheet.add(element)
                # What was read is let go, and so is its place in what it stands in.
                path[-1].clear()
            elif element.tag == _OF_TABLE and sheet is not None and len(path) < depth:
                yield sheet.done()
                sheet = None
                element.clear()


def _hidden_style(style: Element) -> set[str]:
    shown = [one.get(f"{_TABLE}display", "true") for one in style]
    return {style.get(f"{_STYLE}name", "")} if "false" in shown else set()


def _times(element: Element, of: str) -> int:
    return max(int(element.get(f"{_TABLE}number-{of}-repeated", "1")), 1)


def _cell(element: Element, counts: Counter[str]) -> SheetCell:
    sort = element.get(f"{_OFFICE}value-type", "")
    text = in_plain_words(_words(element, counts))
    formula = element.get(f"{_TABLE}formula", "")
    if element.get(f"{_CALC}value-type") == "error":
        return SheetCell(text, wrong="an error of the spreadsheet")
    if formula and not (text or sort):
        why = "a formula of which nothing is kept that it came to"
        return SheetCell(in_plain_words(formula), wrong=why)
    counts["formula"] += bool(formula)
    value = element.get(f"{_OFFICE}value", "")
    if sort == "date":
        written = element.get(f"{_OFFICE}date-value", "")
        day, _, time = written.partition("T")
        return SheetCell(f"{day} {time[:5]}" if time.strip("0:.") else day, day)
    if sort in ("float", "percentage", "currency") and value:
        form = {"percentage": "%", "currency": _currency(element)}.get(sort, "")
        with suppress(ValueError):
            return SheetCell(in_plain_words(number_in_words(float(value), form)))
    if sort == "boolean":
        is_true = element.get(f"{_OFFICE}boolean-value") == "true"
        return SheetCell("yes" if is_true else "no")
    if sort == "time":
        return SheetCell(_duration(element.get(f"{_OFFICE}time-value", "")) or text)
    return SheetCell(text or in_plain_words(element.get(f"{_OFFICE}string-value", "")))


def _currency(element: Element) -> str:
    code = element.get(f"{_OFFICE}currency", "")
    return f"[${code}]" if code else ""


def _duration(written: str) -> str:
    """`PT01H20M00S` (ISO 8601) as the diary has it."""
    import re
    from datetime import timedelta

    found = re.fullmatch(r"PT(\d{1,6})H(\d{1,2})M(\d{1,2})(?:[.,]\d+)?S", written)
    if found is None:
        return in_plain_words(written)
    hours, minutes, seconds = map(int, found.groups())
    return time_in_words(timedelta(hours=hours, minutes=minutes, seconds=seconds))


def _words(cell: Element, counts: Counter[str]) -> str:
    """The words of a cell, without those of comments that hang on it."""
    out: list[str] = []
    waiting: list[Element | str] = [cell]
    while waiting:
        one = waiting.pop()
        if isinstance(one, str):
            out.append(one)
            continue
        if one.tag == f"{_OFFICE}annotation":
            counts["comment"] += 1
            continue
        if one.tag in (f"{_TEXT}p", f"{_TEXT}h", f"{_TEXT}line-break", f"{_TEXT}tab", f"{_TEXT}s"):
            out.append(" ")
        out.append(one.text or "")
        for child in reversed(one):
            waiting += [child.tail or "", child]
    return "".join(out)
