"""Hostile files go in; none fills a memory, leaves its cell or its folder, or is believed."""

from __future__ import annotations

import io
import resource
import zipfile
from pathlib import Path

import pytest
from tests.bring.books import by_xlsxwriter, changed, ods_by_hand, ods_row, zipped
from tests.bring.conftest import Desk, body

from backbud.bring.opened import open_list, read_list
from backbud.bring.sheet import BringError
from backbud.bring.where import free_text_name, mapping_name

SHEET = "xl/worksheets/sheet1.xml"
BOOK = by_xlsxwriter([("Date", "Work", "Tree"), ("2021-04-03", "watered", "anvil")])
LAUGHS = (
    '<!DOCTYPE x [<!ENTITY a "ha"><!ENTITY b "&a;&a;&a;&a;&a;&a;&a;&a;&a;&a;">'
    '<!ENTITY c "&b;&b;&b;&b;&b;&b;&b;&b;&b;&b;">]>'
)
OUTSIDE = '<!DOCTYPE x [<!ENTITY a SYSTEM "file:///etc/passwd">]>'


def refused(data: bytes, name: str = "list.xlsx") -> str:
    """Why a file is not read, and that it took little memory to say so."""
    with pytest.raises(BringError) as error:
        open_list(data, "", "")
    return str(error.value)


@pytest.mark.parametrize("declared", [LAUGHS, OUTSIDE])
def test_entities_are_not_read(declared: str) -> None:
    """Known as a billion laughs, and as external entities (CWE-776, CWE-611)."""
    ods = ods_by_hand(
        f'<table:table table:name="A">{ods_row("&a;")}</table:table>', before=declared
    )
    assert "declares entities" in refused(ods, "list.ods")
    head = b'<?xml version="1.0" encoding="UTF-8" standalone="yes"?>'
    for part in (SHEET, "xl/sharedStrings.xml", "xl/workbook.xml", "xl/_rels/workbook.xml.rels"):
        book = changed(BOOK, part, head, head + declared.encode())
        assert "declares entities" in refused(book), part


def test_entities_in_other_letters_are_not_read() -> None:
    """UTF-16 hides the declaration from whoever looks for its bytes."""
    text = f'<?xml version="1.0" encoding="UTF-16"?>{LAUGHS}<x>&c;</x>'
    parts = {"mimetype": "application/vnd.oasis.opendocument.spreadsheet", "content.xml": b""}
    data = zipped({**parts, "content.xml": text.encode("utf-16")})
    assert "is no UTF-8" in refused(data, "list.ods")


@pytest.mark.slow
def test_a_file_that_unpacks_to_a_gigabyte_is_refused_at_once() -> None:
    out = io.BytesIO()
    with (
        zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as archive,
        archive.open(SHEET, "w", force_zip64=True) as part,
    ):
        for _ in range(1024):
            part.write(b" " * (1 << 20))
    data = out.getvalue()
    assert len(data) < 2 << 20
    before = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
    assert "unpacked it is larger than 128 MB" in refused(data)
    assert resource.getrusage(resource.RUSAGE_SELF).ru_maxrss - before < 100 * 1024


def test_a_size_that_is_a_lie_unpacks_to_no_more_than_it_says(tmp_path: Path) -> None:
    """The declared size in both headers says 10 bytes, and there are a million."""
    data = bytearray(zipped({SHEET: b"<x>" + b" " * 1_000_000 + b"</x>"}, stored_first=False))
    size = (1_000_007).to_bytes(4, "little")
    assert data.count(size) == 2
    lying = bytes(data.replace(size, (10).to_bytes(4, "little")))
    assert "no sound spreadsheet" in refused(lying)


def test_what_is_named_like_a_spreadsheet_and_is_none_is_told() -> None:
    for text in (b"<html><table>", b'\xef\xbb\xbf<?xml version="1.0"?>', b"\n<!DOCTYPE html>"):
        assert "this is markup" in refused(text)
    assert "cannot be read" in refused(zipped({"word/document.xml": "<x/>"}))
    # One that does not begin with what it is, as some write it.
    ods = zipped({"content.xml": "<x/>", "mimetype": "x"})
    assert open_list(ods, "", "").sheets == ()


def test_more_parts_twice_the_same_part_and_locked_parts_are_refused() -> None:
    assert "5001 parts" in refused(zipped({f"{n}.xml": "" for n in range(5001)}))
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w") as archive, pytest.warns(UserWarning):
        archive.writestr(SHEET, "<a/>")
        archive.writestr(SHEET, "<b/>")
    assert "the same name" in refused(out.getvalue())
    locked = bytearray(zipped({SHEET: "<a/>"}))
    at = locked.index(b"PK\x01\x02")
    locked[at + 8] |= 1
    assert "locked with a password" in refused(bytes(locked))
    assert "old workbook" in refused(b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1" + b"\0" * 100)
    assert "larger than any spreadsheet's" in refused(zipped({"xl/styles.xml": b" " * (17 << 20)}))


@pytest.mark.parametrize("cut", [10, 100, 1000, -30])
def test_a_file_that_is_cut_off_is_told(cut: int) -> None:
    assert "no sound spreadsheet" in refused(BOOK[:cut])


def test_a_sheet_of_more_rows_and_cells_than_a_hand_wrote_is_refused() -> None:
    head = ods_row("Date", "Work", "Tree")
    row = ods_row("2021-04-03", "watered", "anvil").replace(
        "<table:table-row>", '<table:table-row table:number-rows-repeated="1000000">'
    )
    ods = ods_by_hand(f'<table:table table:name="A">{head}{row}</table:table>')
    assert "more than 100000 rows" in refused(ods, "list.ods")
    wide = '<table:table-row><table:table-cell table:number-columns-repeated="1000000000"><text:p>x'
    wide += "</text:p></table:table-cell></table:table-row>"
    ods = ods_by_hand(f'<table:table table:name="A">{wide}</table:table>')
    assert "1000th column" in refused(ods, "list.ods")
    text = "Date,Work,Tree\n" + "2021-04-03,watered,anvil\n" * 100_001
    assert "more than 100000 rows" in refused(text.encode())
    far = changed(BOOK, SHEET, b'r="C2"', b'r="ZZZ2"')
    assert "1000th column" in refused(far)
    # A row of the number 2 ** 60 is the second row all the same, with nothing before it.
    assert (
        len(
            open_list(changed(BOOK, SHEET, b'row r="2"', b'row r="%d"' % (1 << 60)), "", "")
            .sheets[0]
            .rows
        )
        == 2
    )
    many = changed(BOOK, SHEET, b"</sheetData>", b"<row/>" * 6_100_000 + b"</sheetData>")
    assert "too many cells" in refused(many)
    assert "more than 32767" in refused(("Tree\n" + "x" * 40_000).encode())
    assert "is a quotation mark missing?" in refused(b'Date,Work\n"2021,x\n')


LINES = (
    "one\n2020-01-01\nheron\n  died",
    "one\r\ntree other\r\n  kind x",
    "\n\n# remark",
    "a\u2028heron\u2029  died",
    "a\x0bheron\x0c  died\x85x",
    "\u202ereversed\u2066 \u200b\ufeff",
    "a\x1b[31mb\x00c\x07",
    "x -- y\n-- for owner: z",
    "for owner: read me",
)


@pytest.mark.parametrize("words", LINES)
@pytest.mark.parametrize("column", range(6))
def test_no_cell_leaves_its_line(desk: Desk, words: str, column: int) -> None:
    """Whatever stands in a cell, the file has the lines it would have with plain words there, and
    nothing in it died, turns the direction of writing or begins a page of its own."""
    import csv

    row = ["2021-04-03", "anvil", "watered", "same pot", "a note", "sun"]
    row[column] = words
    out = io.StringIO()
    csv.writer(out).writerows([("Date", "Tree", "Work", "Details", "Notes", "Weather"), row])
    name = "list.csv"
    mapping = ""
    text = out.getvalue()
    if column == 1:
        plain = desk.shown(text).asks
        mapping = f'file = "{name}"\n[names]\n' + "".join(
            f'{one.hint.partition(": ")[2].partition(" = ")[0]} = "anvil"\n' for one in plain
        )
    view = desk.shown(text, name, mapping=mapping)
    assert not view.asks
    lines = view.text.splitlines()
    heads = [line for line in lines if line and line[0] not in " #"]
    assert len(heads) <= 4
    assert all(line.isprintable() for line in lines)
    assert not any(line.startswith("  died") or line == "heron" for line in lines)
    from unicodedata import category

    assert not any(category(sign) in ("Cf", "Cc", "Zl", "Zp") for sign in view.text if sign != "\n")
    if view.text:
        desk.written(text, name) if not mapping else None
        assert not [one for one in desk.problems() if "unknown-species" not in one]


def test_a_note_is_marked_for_others_by_nobody_but_the_keeper(desk: Desk) -> None:
    view = desk.shown("Date,Tree,Work\n2021-04-03,anvil,for owner: read me\n")
    assert body(view) == "2021-04-03\n\nanvil\n  noted       Work: for owner: read me"
    view = desk.shown("Date,Tree,Work,Notes\n2021-04-03,anvil,watered,for owner: read me\n")
    assert body(view) == "2021-04-03\n\nanvil\n  watered     -- Notes: for owner: read me"


@pytest.mark.parametrize(
    ("file", "mapping", "text"),
    [
        ("../../etc/x.csv", "brought/x.csv.toml", "brought/x.txt"),
        ("/tmp/...csv", "brought/csv.toml", "brought/csv.txt"),
        ("a\n b‮.xlsx", "brought/a-b.xlsx.toml", "brought/a-b.txt"),
        ("CON.CSV", "brought/con.csv.toml", "brought/con.txt"),
        ("..\\..\\x.ods", "brought/x.ods.toml", "brought/x.txt"),
        ("盆栽.csv", "brought/盆栽.csv.toml", "brought/盆栽.txt"),
        ("a" * 300 + ".csv", f"brought/{'a' * 60}.csv.toml", f"brought/{'a' * 60}.txt"),
    ],
)
def test_a_name_leads_nowhere_else(tmp_path: Path, file: str, mapping: str, text: str) -> None:
    assert (mapping_name(file), free_text_name(str(tmp_path), file)) == (mapping, text)


def test_no_link_is_written_through_and_no_file_written_over(desk: Desk, tmp_path: Path) -> None:
    elsewhere = tmp_path / "elsewhere"
    elsewhere.mkdir()
    (desk.folder / "brought").symlink_to(elsewhere)
    with pytest.raises(BringError, match="link"):
        desk.written("Date,Work,Tree\n2021-04-03,watered,anvil\n")
    assert list(elsewhere.iterdir()) == []
    (desk.folder / "brought").unlink()
    (desk.folder / "brought").mkdir()
    (desk.folder / "brought/list.txt").write_text("# mine\n")
    view = desk.written("Date,Work,Tree\n2021-04-03,watered,anvil\n")
    assert view.file == "brought/list-2.txt"
    assert (desk.folder / "brought/list.txt").read_text() == "# mine\n"


def test_what_is_no_file_is_not_waited_for(tmp_path: Path) -> None:
    import os

    os.mkfifo(tmp_path / "pipe")
    for name, told in (("", "this is no file"), ("none", "No such file"), ("pipe", "no file")):
        with pytest.raises(BringError, match=told):
            read_list(str(tmp_path / name))
