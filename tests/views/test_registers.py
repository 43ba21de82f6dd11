"""The registers, each row worked out by hand from the lines beside it."""

from __future__ import annotations

import csv
import io

from backbud.cli import main
from backbud.registers_report import register_lines
from backbud.views.registers.register import RegisterView, csv_of, register_of

CARDS = """\
place yard
  latitude 52 N
  name     the yard
place tunnel
  name     the tunnel
person me
  name Una Wrenfold
person tam
  name Tam Lammet
person ada
  name Ada Marrow
tree hoshi
  kind   Chinese juniper
  place  yard
  value  900 EUR
  origin an old garden
tree yuki
  kind   Chinese juniper
  place  yard
tree aki
  kind   satsuki azalea
  owner  ada
  place  yard
pot tray-7
  shape  oval
  inside 30 x 20 x 5 cm
  value  73.50 EUR
"""
SETTINGS = 'home = "yard"\nkeeper = "me"\n'


def registers(written, diary: str, on: str = "2026-11-20") -> dict[str, RegisterView]:
    session = written(CARDS + diary, on, settings=SETTINGS, any_problems=True)
    return {one.register: one for one in session.registers()}


def cells(register: RegisterView, *keys: str) -> list[tuple[str, ...]]:
    return [tuple(row[key] for key in keys) for row in register.rows]


def test_a_treatment_is_a_row_for_each_kind_of_tree_and_place(written) -> None:
    found = registers(
        written,
        "2026-03-28\nhoshi\n  staged 7\nyuki\n  moved tunnel\n"
        "2026-04-04\nhoshi, yuki, aki\n"
        "  treated with potassium soap, number 0000-00, dose 10 mL/L, against spider mite, by tam, "
        "at 7:15, re-entry 12 h\n"
        "2026-05-01\nhoshi\n  treated water jet, against aphids\n  hosed down with 8 bar\n",
    )["treatments"]
    keys = ("date", "hour", "product", "authorisation", "dose", "count", "crop", "eppo", "bbch",
            "target", "where", "operator", "re_entry", "not_written")  # fmt: skip
    soap = ("2026-04-04", "07:15", "potassium soap", "0000-00", "10 mL/L", "1")
    rest = ("spider mite", "the yard", "Tam Lammet", "12 h", "")
    # The water jet is no product. The azalea's code stands in no list that was read.
    assert cells(found, *keys) == [
        (*soap, "Chinese juniper", "IUPCH", "07", *rest),
        (*soap, "Chinese juniper", "IUPCH", "", "spider mite", "the tunnel", *rest[2:]),
        (*soap, "satsuki azalea", "", "", *rest),
    ]
    assert found.notes == (
        "No EPPO code was confirmed by a published list for: Rhododendron indicum.",
    )


def test_what_is_not_written_of_a_treatment_is_said(written) -> None:
    found = registers(written, "2026-04-04\nhoshi\n  treated with neem oil\n")["treatments"]
    assert cells(found, "not_written", "operator", "re_entry") == [
        ("authorisation no., dose", "Una Wrenfold", "")
    ]


def test_plants_come_and_go_with_their_papers(written) -> None:
    found = registers(
        written,
        "2026-02-01\naki\n  received from ada for repotting\n"
        "2026-05-02\nhoshi\n  sold to ada, 800 EUR\n"
        "2026-05-03\naki\n  returned to ada\n",
    )["plants"]
    keys = ("date", "way", "act", "tree", "who", "origin", "not_written")
    assert cells(found, *keys) == [
        ("2026-02-01", "in", "received", "aki", "Ada Marrow", "", ""),
        ("2026-05-02", "out", "sold", "hoshi", "Ada Marrow", "", "passport"),
        ("2026-05-03", "out", "returned", "aki", "Ada Marrow", "", ""),
    ]


def test_stock_on_a_day_is_the_keeper_s_own(written) -> None:
    """900 and 73.50 are 973.50; valued at 950 in May, 1023.50. The azalea is Ada's."""
    diary = "2026-05-01\nhoshi\n  valued 950 EUR\n"
    found = registers(written, diary)["stock"]
    assert cells(found, "sort", "handle", "where", "value", "currency") == [
        ("tree", "hoshi", "the yard", "950", "EUR"),
        ("tree", "yuki", "the yard", "", ""),
        ("pot", "tray-7", "empty", "73.50", "EUR"),
    ]
    assert found.notes == ("Together 1023.50 EUR.", "No value is written of 1 of 3.")


def test_bills_are_open_by_age_and_the_oldest_is_paid_first(written) -> None:
    """100 of 5 January and 60 of 1 October are billed, 30 is paid of whatever, 20 of the second:
    70 and 40 are open, 319 and 50 days old on 20 November."""
    found = registers(
        written,
        "2026-01-05\naki\n  billed 100 EUR, number 2026-01\n"
        "2026-10-01\naki\n  billed 60 EUR, number 2026-02\n"
        "2026-10-05\nada\n  paid 30 EUR\n  paid 20 EUR, number 2026-02\n",
    )["unpaid"]
    assert cells(found, "number", "amount", "paid", "open", "days", "age") == [
        ("2026-01", "100.00", "30.00", "70.00", "319", "over 90"),
        ("2026-02", "60.00", "20.00", "40.00", "50", "31 to 60"),
    ]
    assert found.notes == ("Open in EUR: 31 to 60 40.00, over 90 70.00.",)


def test_a_credit_covers_what_it_names_and_who_paid_ahead_is_said(written) -> None:
    """100 less a credit of 100 leaves nothing of the first; of the second, 60, nothing is paid."""
    found = registers(
        written,
        "2026-01-05\naki\n  billed 100 EUR, number 2026-01\n"
        "2026-01-07\naki\n  credited 100 EUR, number 2026-02, for bill 2026-01\n"
        "  billed 60 EUR, number 2026-03\n",
    )["unpaid"]
    assert cells(found, "number", "open") == [("2026-03", "60.00")]
    ahead = registers(written, "2026-01-05\nada\n  paid 80 EUR, in advance\n")["unpaid"]
    assert (ahead.rows, ahead.notes) == ((), ("Ada Marrow has paid 80.00 EUR ahead.",))


def test_the_terminal_prints_one_register_as_csv(written, tmp_path, capsys) -> None:
    written(CARDS + "2026-05-03\naki\n  returned to ada\n", settings=SETTINGS, any_problems=True)
    where = (str(tmp_path), "--on", "2026-11-20")
    assert main(["registers", *where, "--only", "plants", "--csv"]) in (0, 1)
    head, row = capsys.readouterr().out.splitlines()
    assert head.startswith("date,way,act,tree,kind,botanical,quantity,who")
    assert row.startswith("2026-05-03,out,returned,aki,satsuki azalea,Rhododendron indicum,1,Ada")
    assert main(["registers", *where, "--csv"]) == 2
    assert "--only" in capsys.readouterr().err


def test_a_cell_that_a_spreadsheet_would_reckon_with_stays_text() -> None:
    cells_ = ("=1+1", "+SUM(A1)", "-2 cm", "@x", "-40.00", 'a, "b"\nc')
    view = register_of("x", "X", "", {"a": "A"}, [{"a": cell} for cell in cells_])
    read = list(csv.reader(io.StringIO(csv_of(view).decode())))
    assert read == [
        ["a"], ["'=1+1"], ["'+SUM(A1)"], ["'-2 cm"], ["'@x"], ["-40.00"], ["a, \"b\"\nc"],
    ]  # fmt: skip


def test_a_rough_day_is_in_words_in_the_terminal_and_as_written_in_csv(written) -> None:
    found = registers(
        written,
        "2009-21\nhoshi\n  bought from ada\n2011~\nyuki\n  bought from ada\n"
        "2026-05-03\naki\n  received from ada\n",
    )["plants"]
    assert [
        line for line in register_lines(found) if line.startswith("  ") and " in  " in line
    ] == [
        "  spring 2009  in  bought  hoshi  Chinese juniper",
        "  about 2011  in  bought  yuki  Chinese juniper",
        "  2026-05-03  in  received  aki  satsuki azalea",
    ]
    dates = [line.split(",")[0] for line in csv_of(found).decode().splitlines()]
    assert dates == ["date", "2009-21", "2011~", "2026-05-03"]
