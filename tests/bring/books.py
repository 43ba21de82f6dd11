"""Spreadsheets written by others' libraries, and by hand: what goes in."""

from __future__ import annotations

import io
import zipfile
from collections.abc import Sequence
from datetime import date
from typing import Any

Rows = Sequence[Sequence[Any]]


def by_xlsxwriter(rows: Rows, name: str = "Works", epoch_1904: bool = False) -> bytes:
    """A workbook of one sheet by XlsxWriter; days are cells with a date format."""
    import xlsxwriter

    out = io.BytesIO()
    with xlsxwriter.Workbook(out, {"date_1904": epoch_1904}) as book:
        sheet = book.add_worksheet(name)
        as_date = book.add_format({"num_format": "dd/mm/yyyy"})
        for r, row in enumerate(rows):
            for c, value in enumerate(row):
                if isinstance(value, date):
                    sheet.write_datetime(r, c, value, as_date)  # type: ignore[arg-type]
                else:
                    sheet.write(r, c, value)
    return out.getvalue()


def by_openpyxl(rows: Rows, name: str = "Works") -> bytes:
    """The same by openpyxl."""
    import openpyxl

    book = openpyxl.Workbook()
    sheet = book.active
    assert sheet is not None
    sheet.title = name
    for row in rows:
        sheet.append(list(row))
    out = io.BytesIO()
    book.save(out)
    return out.getvalue()


def by_odfpy(rows: Rows, name: str = "Works") -> bytes:
    """A spreadsheet of the OpenDocument format by odfpy."""
    from odf.opendocument import OpenDocumentSpreadsheet
    from odf.table import Table, TableCell, TableRow
    from odf.text import P

    document = OpenDocumentSpreadsheet()
    table = Table(name=name)
    for row in rows:
        line = TableRow()
        for value in row:
            if isinstance(value, date):
                cell = TableCell(valuetype="date", datevalue=value.isoformat())
                cell.addElement(P(text=value.strftime("%d.%m.%y")))
            elif isinstance(value, int | float):
                cell = TableCell(valuetype="float", value=value)
                cell.addElement(P(text=str(value)))
            elif value is None:
                cell = TableCell()
            else:
                cell = TableCell(valuetype="string")
                cell.addElement(P(text=value))
            line.addElement(cell)
        table.addElement(line)
    document.spreadsheet.addElement(table)
    out = io.BytesIO()
    document.save(out)
    return out.getvalue()


_SPACES = " ".join(
    f'xmlns:{prefix}="urn:oasis:names:tc:opendocument:xmlns:{name}:1.0"'
    for prefix, name in (
        ("office", "office"),
        ("table", "table"),
        ("text", "text"),
        ("style", "style"),
    )
)


def ods_by_hand(tables: str, styles: str = "", before: str = "", **more: str) -> bytes:
    """A spreadsheet whose content is written by hand. `before`: what stands above its root."""
    content = (
        f'<?xml version="1.0" encoding="UTF-8"?>{before}<office:document-content {_SPACES} '
        'xmlns:calcext="urn:org:documentfoundation:names:experimental:calc:xmlns:calcext:1.0">'
        f"<office:automatic-styles>{styles}</office:automatic-styles>"
        f"<office:body><office:spreadsheet>{tables}</office:spreadsheet></office:body>"
        "</office:document-content>"
    )
    mimetype = "application/vnd.oasis.opendocument.spreadsheet"
    return zipped({"mimetype": mimetype, "content.xml": content, **more})


def ods_row(*cells: str) -> str:
    """A row of words."""
    told = "".join(f"<table:table-cell><text:p>{one}</text:p></table:table-cell>" for one in cells)
    return f"<table:table-row>{told}</table:table-row>"


def zipped(parts: dict[str, str | bytes], stored_first: bool = True) -> bytes:
    """An archive of parts; the first is not packed, as OpenDocument has it."""
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as archive:
        for n, (name, content) in enumerate(parts.items()):
            sort = zipfile.ZIP_STORED if stored_first and n == 0 else zipfile.ZIP_DEFLATED
            archive.writestr(name, content, sort)
    return out.getvalue()


def changed(data: bytes, part: str, old: bytes, new: bytes) -> bytes:
    """An archive with some bytes of a part replaced."""
    out = io.BytesIO()
    with zipfile.ZipFile(io.BytesIO(data)) as was, zipfile.ZipFile(out, "w") as archive:
        for info in was.infolist():
            content = was.read(info)
            if info.filename == part:
                assert old in content
                content = content.replace(old, new)
            archive.writestr(info, content)
    return out.getvalue()
