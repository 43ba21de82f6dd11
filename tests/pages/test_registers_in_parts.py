"""Registers that are too long for one page."""

from __future__ import annotations

from backbud.pages.isolated import isolated
from backbud.pages.registers import part_sheets, sheet
from backbud.views.registers.parts import register_parts
from backbud.views.registers.register import RegisterView, register_of


def plants(*years: tuple[int, int]) -> RegisterView:
    """A register of plants in and out: so many entries of each year, oldest first."""
    rows = [
        {"date": f"{year}-03-{n % 28 + 1:02}", "act": "bought", "tree": f"tree-{year}-{n}"}
        for year, count in years
        for n in range(count)
    ]
    headings = {"date": "date", "act": "act", "tree": "tree"}
    return register_of("plants", "Plants in and out", "", headings, rows)


def test_a_short_register_stands_on_the_page_of_all() -> None:
    short = plants((2026, 20))
    assert register_parts(short) == ()
    assert (sheet(short).count, len(sheet(short).rows), sheet(short).parts) == (20, 20, ())


def test_a_long_one_is_parted_by_year_and_then_by_number_the_latest_first() -> None:
    long = plants((2024, 3), (2025, 250), (2026, 100))
    assert [(one.page, one.title, one.entries) for one in sheet(long).parts] == [
        ("registers/plants-2026.html", "2026", 100),
        ("registers/plants-2025.html", "2025, part 1", 100),
        ("registers/plants-2025-2.html", "2025, part 2", 100),
        ("registers/plants-2025-3.html", "2025, part 3", 50),
        ("registers/plants-2024.html", "2024", 3),
    ]
    assert [row.title for row in sheet(long).rows][:2] == [
        "Bought, tree-2026-99",
        "Bought, tree-2026-98",
    ]
    assert len(sheet(long).rows) == 20


def test_every_entry_stands_on_one_part() -> None:
    long = plants((2024, 3), (2025, 250), (2026, 100))
    titles = [row.title for part in part_sheets(long) for row in part.rows]
    assert sorted(titles) == sorted(f"Bought, {row['tree']}" for row in long.rows)


def test_years_that_come_again_have_pages_of_their_own() -> None:
    mixed = plants((2025, 15), (2026, 15), (2025, 5))
    assert [(part.name, part.title, len(part.rows)) for part in register_parts(mixed)] == [
        ("2025", "2025", 5),
        ("2026", "2026", 15),
        ("2025-2", "2025, part 2", 15),
    ]


def test_what_has_no_days_is_parted_by_number() -> None:
    rows = [{"sort": "tree", "name": f"tree-{n}", "value": "", "currency": ""} for n in range(150)]
    headings = {"sort": "sort", "name": "name", "value": "value", "currency": "currency"}
    stock = register_of("stock", "Stock", "", headings, rows)
    assert [(part.name, part.title, len(part.rows)) for part in register_parts(stock)] == [
        ("1", "part 1", 100),
        ("2", "part 2", 50),
    ]


def test_only_what_may_run_from_right_to_left_is_isolated() -> None:
    assert isolated("2 mm × 3, “light” & loose") == "2 mm × 3, “light” &amp; loose"
    assert isolated("شجرة & 2") == "<bdi>شجرة &amp; 2</bdi>"
