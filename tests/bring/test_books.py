"""Spreadsheets of both formats go in, written by libraries that are not ours and by hand."""

from __future__ import annotations

import io
import sys
from collections.abc import Callable
from datetime import date, datetime, timedelta

import pytest
from tests.bring.books import (
    Rows,
    by_odfpy,
    by_openpyxl,
    by_xlsxwriter,
    changed,
    ods_by_hand,
    ods_row,
)
from tests.bring.conftest import Desk, body

from backbud.bring.sheet import BringError

ROWS: Rows = (
    ("Date", "Tree", "Work", "Details", "Hours"),
    (date(2021, 4, 3), "Old Nell", "repotted", "2 cm off below", 2),
    (date(2021, 6, 5), "anvil", "wired", "2 mm Al on left 1", 1.25),
    (date(2021, 6, 6), "anvil", "noted", "ünïcode 盆栽", None),
)
READ = (
    "2021-04-03\n\nheron\n  repotted    2 cm off below\n  worked      2 h\n\n"
    "2021-06-05\n\nanvil\n  wired       2 mm Al on left 1\n  worked      1.25 h\n\n"
    "2021-06-06\n\nanvil\n  noted       ünïcode 盆栽"
)


@pytest.mark.parametrize(
    ("name", "written"),
    [("list.xlsx", by_xlsxwriter), ("list.xlsx", by_openpyxl), ("list.ods", by_odfpy)],
)
def test_the_same_list_reads_the_same_from_each_writer(
    desk: Desk, name: str, written: Callable[[Rows], bytes]
) -> None:
    view = desk.written(written(ROWS), name)
    assert body(view) == READ
    assert (view.not_read, view.asks) == ((), ())
    assert desk.shown(written(ROWS), name).before == 3
    assert desk.problems() == []


def test_where_the_library_is_missing_it_is_said_how_to_get_it(
    desk: Desk, monkeypatch: pytest.MonkeyPatch
) -> None:
    data = by_openpyxl(ROWS)
    monkeypatch.setitem(sys.modules, "openpyxl", None)
    with pytest.raises(BringError, match=r"spreadsheets want openpyxl: .*\[sheets\]"):
        desk.shown(data, "list.xlsx")


def test_days_are_counted_from_both_years(desk: Desk) -> None:
    """ECMA-376 part 1, 18.17.4.1: a workbook counts its days from 1900 or from 1904."""
    assert body(desk.shown(by_xlsxwriter(ROWS, epoch_1904=True), "list.xlsx")) == READ


def test_a_day_that_is_a_bare_number_is_asked(desk: Desk) -> None:
    data = by_xlsxwriter([ROWS[0], [44289, "anvil", "watered"]])
    asked = desk.shown(data, "list.xlsx").asks[0].message
    assert asked.startswith("the sheet “Works”, row 2: “44289” is 2021-04-03 (counted from 1900)")
    assert "2021-04-03" in desk.shown(data, "list.xlsx", dates=("serial-1900",)).text


def test_formulas_merged_cells_hidden_rows_and_errors_of_a_workbook(desk: Desk) -> None:
    import xlsxwriter

    out = io.BytesIO()
    with xlsxwriter.Workbook(out) as book:
        sheet = book.add_worksheet("Works")
        day = book.add_format({"num_format": "yyyy-mm-dd"})
        for c, head in enumerate(("Date", "Tree", "Work", "Count", "Share", "Cost")):
            sheet.write(0, c, head)
        sheet.merge_range(1, 0, 3, 0, "", day)
        sheet.write_datetime(1, 0, datetime(2021, 4, 3), day)
        sheet.merge_range(1, 1, 2, 1, "anvil")
        for r, act in enumerate(("watered", "fed", "pruned"), 1):
            sheet.write(r, 2, act)
        sheet.write(3, 1, "heron")
        sheet.write_formula(1, 3, "=1+2", None, 3)
        sheet.write_formula(2, 3, "=NA()", None, "#N/A")
        sheet.write(1, 4, 0.3, book.add_format({"num_format": "0%"}))
        sheet.write(2, 5, 84, book.add_format({"num_format": "#,##0.00 [$€-407]"}))
        sheet.set_row(3, None, None, {"hidden": True})
        book.add_worksheet("Old").hide()
        old = book.get_worksheet_by_name("Old")
        assert old is not None
        old.write(0, 0, "Tree")
        old.write(1, 0, "secret")
    view = desk.shown(out.getvalue(), "list.xlsx")
    assert body(view) == (
        "2021-04-03\n\n"
        "anvil\n  watered\n  noted       Count: 3\n  noted       Share: 30 %\n"
        "  fed\n  noted       Cost: 84 EUR\n\n"
        "heron\n  pruned"
    )
    assert [(one.row, one.words, one.why) for one in view.not_read] == [
        (3, "#N/A", "an error of the spreadsheet")
    ]
    assert view.sheets[0].told == (
        "2 merged cells over several rows: its words hold for each of them",
        "2 cells with a formula: what it last came to was read",
        "1 row hidden there: read like the others",
    )
    assert (view.sheets[1].name, view.sheets[1].hidden, view.sheets[1].rows) == (
        "Old",
        True,
        "left out",
    )


def test_numbers_that_are_stored_as_text_are_read_as_they_stand(desk: Desk) -> None:
    data = by_xlsxwriter([ROWS[0], ["2021-04-03", "anvil", "wired", "2 mm Al on left 1", "'2"]])
    assert "noted       Hours: '2" in body(desk.shown(data, "list.xlsx"))
    data = by_openpyxl([ROWS[0], ["2021-04-03", "anvil", "wired", "2 mm Al on left 1", "2"]])
    assert "worked      2 h" in body(desk.shown(data, "list.xlsx"))


def test_a_formula_that_came_to_nothing_is_told_with_its_text(desk: Desk) -> None:
    data = by_openpyxl([ROWS[0], [date(2021, 4, 3), "anvil", '=HYPERLINK("x")']])
    view = desk.shown(data, "list.xlsx")
    assert [(one.words, one.why) for one in view.not_read] == [
        ('=HYPERLINK("x")', "a formula of which nothing is kept that it came to")
    ]


def test_rows_that_the_file_does_not_count_are_read(desk: Desk) -> None:
    """A workbook may claim to be smaller than it is, and may have its rows in any order."""
    data = by_xlsxwriter(ROWS)
    part = "xl/worksheets/sheet1.xml"
    smaller = changed(data, part, b'<dimension ref="A1:E4"/>', b'<dimension ref="A1:B2"/>')
    assert body(desk.shown(smaller, "list.xlsx")) == READ
    assert body(desk.shown(changed(data, part, b'r="4"', b'r="9"'), "list.xlsx")) == READ


def test_several_sheets_are_read_each_by_its_own_headings(desk: Desk) -> None:
    import openpyxl

    book = openpyxl.load_workbook(io.BytesIO(by_openpyxl(ROWS)))
    trees = book.create_sheet("Trees")
    trees.append(["Name", "Species"])
    trees.append(["Little elm", "Chinese elm"])
    pots = book.create_sheet("Pots")
    pots.append(["No.", "Dimensions (cm)", "Glaze"])
    pots.append(["K-7", "38 x 27 x 7", "brown"])
    out = io.BytesIO()
    book.save(out)
    view = desk.shown(out.getvalue(), "list.xlsx")
    assert body(view) == (
        "pot k-7\n  name       K-7\n  outside    38 x 27 x 7 cm\n  colour     brown\n\n"
        f"tree little-elm\n  name       Little elm\n  kind       Chinese elm\n\n{READ}"
    )


def test_an_open_document_with_all_that_a_cell_may_be(desk: Desk) -> None:
    """By OpenDocument 1.3 part 3, 19: value types, repeated and spanned cells."""
    head = ods_row("Date", "Tree", "Work", "Share", "Cost", "Wet", "Time", "Odd")
    cells = (
        '<table:table-cell office:value-type="date" office:date-value="2021-04-03T00:00:00" '
        'table:number-rows-spanned="2"><text:p>3.4.</text:p></table:table-cell>'
        '<table:table-cell table:number-columns-spanned="1"><text:p>an<text:span>vil</text:span>'
        "</text:p><office:annotation><text:p>hidden</text:p></office:annotation></table:table-cell>"
        "<table:table-cell><text:p>watered</text:p></table:table-cell>"
        '<table:table-cell office:value-type="percentage" office:value="0.3"/>'
        '<table:table-cell office:value-type="currency" office:currency="GBP" office:value="84"/>'
        '<table:table-cell office:value-type="boolean" office:boolean-value="true"/>'
        '<table:table-cell office:value-type="time" office:time-value="PT01H20M00S"/>'
        '<table:table-cell calcext:value-type="error" table:formula="of:=1/0">'
        "<text:p>#DIV/0!</text:p></table:table-cell>"
        '<table:table-cell table:number-columns-repeated="16376"/>'
    )
    second = (
        "<table:covered-table-cell/><table:table-cell><text:p>heron</text:p></table:table-cell>"
        "<table:table-cell><text:p>pru<text:s text:c='999999999'/>ned</text:p></table:table-cell>"
    )
    empty = (
        '<table:table-row table:number-rows-repeated="1048573">'
        '<table:table-cell table:number-columns-repeated="16384"/></table:table-row>'
    )
    hidden = (
        '<style:style style:name="ta2"><style:table-properties table:display="false"/>'
        "</style:style>"
    )
    data = ods_by_hand(
        f'<table:table table:name="Works">{head}<table:table-row>{cells}</table:table-row>'
        f"<table:table-row>{second}</table:table-row>{empty}</table:table>"
        f'<table:table table:name="Old" table:style-name="ta2">{ods_row("Tree")}</table:table>',
        hidden,
    )
    view = desk.shown(data, "list.ods")
    assert body(view) == (
        "2021-04-03\n\nanvil\n  watered\n  noted       Share: 30 %\n  noted       Cost: 84 GBP\n"
        "  noted       Wet: yes\n  worked      1 h 20\n\nheron\n  noted       pru ned"
    )
    assert [(one.row, one.words) for one in view.not_read] == [(2, "#DIV/0!")]
    assert view.sheets[0].told == (
        "1 merged cell over several rows: its words hold for each of them",
        "1 comment hung on cells: not read",
    )
    assert view.sheets[1].hidden


def test_a_calendar_of_past_work(desk: Desk) -> None:
    """Written by `icalendar`; what was cancelled or is not done was not done."""
    from icalendar import Calendar, Event, Todo

    calendar = Calendar()
    for day, title, more in (
        (date(2021, 3, 14), "Old Nell: repotted same pot, 2 cm off below", {}),
        (date(2021, 3, 15), "anvil watered", {"status": "CANCELLED"}),
        (datetime(2022, 3, 14, 19, 30), "Club evening", {"description": "pines\nand pots"}),
        (date(2027, 3, 15), "anvil repotted", {}),
    ):
        event = Event()
        event.add("uid", title)
        event.add("dtstamp", datetime(2022, 1, 1))
        event.add("summary", title)
        event.add("dtstart", day)
        event.add("dtend", day + timedelta(days=1))
        for name, value in more.items():
            event.add(name, value)
        calendar.add_component(event)
    for done in (datetime(2021, 5, 1, 12), None):
        todo = Todo()
        todo.add("uid", str(done))
        todo.add("dtstamp", datetime(2022, 1, 1))
        todo.add("summary", "anvil pruned")
        if done:
            todo.add("completed", done)
        calendar.add_component(todo)
    data = calendar.to_ical()
    view = desk.written(data, "past.ics")
    assert body(view) == (
        "2021-03-14\n\nheron\n  repotted    same pot, 2 cm off below\n\n"
        "2021-05-01\n\nanvil\n  pruned\n\n"
        "2022-03-14\n\nyard\n  noted       Club evening. pines and pots"
    )
    assert [one.why for one in view.not_read] == [
        "it says CANCELLED, so it was not done",
        "2027-03-15 has not come yet; what is still to come is planned by you",
        "nothing says when it was done",
    ]
    assert desk.shown(data, "past.ics").before == 3
