"""Where a line of a day goes in the diary, and that all else stays as it was."""

from __future__ import annotations

from datetime import date
from pathlib import Path
from typing import Any

import pytest

from backbud.jot.placing import DiaryLine, place_of, with_lines

CARDS = "tree hoshi\n  kind   trident maple\n\ntree yuki\n  kind   trident maple\n"


@pytest.fixture
def put(written: Any) -> Any:
    """Put lines of days into a journal of these files; the files that changed come out."""

    def put(files: dict[str, str], *lines: tuple[str, str, str]) -> dict[str, str]:
        session = written(CARDS, "2027-12-31", files=files)
        journal = session.journal
        placed = []
        for day, tree, act in lines:
            place = place_of(date.fromisoformat(day), journal.pages, journal.texts)
            assert place is not None
            placed.append((place, DiaryLine(tree, date.fromisoformat(day), f"  {act}")))
        names = {place.file for place, _ in placed}
        folder = Path(journal.folder)
        return {
            name: with_lines(
                (folder / name).read_bytes(), [one for one in placed if one[0].file == name]
            ).decode()
            for name in names
        }

    return put


def test_on_the_page_of_that_day(put: Any) -> None:
    files = {"d.txt": "2027-03-06\n\nhoshi\n  fed\n\n# for spring\n2027-03-20\n\nyuki\n  fed\n"}
    assert put(files, ("2027-03-06", "yuki", "watered")) == {
        "d.txt": "2027-03-06\n\nhoshi\n  fed\n\nyuki\n  watered\n\n# for spring\n2027-03-20\n\n"
        "yuki\n  fed\n"
    }


def test_on_a_new_page_in_order(put: Any) -> None:
    files = {"d.txt": "2027-03-06\n\nhoshi\n  fed\n\n# for spring\n2027-03-20\n\nyuki\n  fed\n"}
    after = put(
        files,
        ("2027-03-10", "yuki", "watered"),
        ("2027-03-08", "hoshi", "watered"),
        ("2027-03-08", "hoshi", "weeded"),
    )
    assert after == {
        "d.txt": "2027-03-06\n\nhoshi\n  fed\n\n2027-03-08\n\nhoshi\n  watered\n  weeded\n"
        "\n2027-03-10\n\nyuki\n  watered\n\n# for spring\n2027-03-20\n\nyuki\n  fed\n"
    }


def test_at_the_end_and_the_beginning(put: Any) -> None:
    files = {"d.txt": "2027-03-06\nhoshi\n  fed"}
    assert put(files, ("2027-04-01", "yuki", "fed")) == {
        "d.txt": "2027-03-06\nhoshi\n  fed\n\n2027-04-01\n\nyuki\n  fed\n"
    }
    assert put(files, ("2027-01-01", "yuki", "fed")) == {
        "d.txt": "2027-01-01\n\nyuki\n  fed\n\n2027-03-06\nhoshi\n  fed"
    }


def test_on_a_page_that_has_only_its_weather(put: Any) -> None:
    files = {"d.txt": "2027-03-06   low 1 C\n2027-03-07\n\nhoshi\n  fed\n"}
    assert put(files, ("2027-03-06", "yuki", "fed")) == {
        "d.txt": "2027-03-06   low 1 C\n\nyuki\n  fed\n2027-03-07\n\nhoshi\n  fed\n"
    }


def test_in_front_of_a_card_and_of_a_page_that_touches(put: Any) -> None:
    files = {"d.txt": "2027-03-06\n\nhoshi\n  fed\nplace yard\n  cover  open\n"}
    assert put(files, ("2027-03-08", "yuki", "fed")) == {
        "d.txt": "2027-03-06\n\nhoshi\n  fed\n\n2027-03-08\n\nyuki\n  fed\n\nplace yard\n"
        "  cover  open\n"
    }


def test_in_the_file_of_the_last_page_before_it(put: Any) -> None:
    files = {
        "2026.txt": "2026-12-20\n\nhoshi\n  watered\n",
        "2027.txt": "2027-01-10\n\nhoshi\n  watered\n",
    }
    assert list(put(files, ("2026-12-30", "yuki", "fed"))) == ["2026.txt"]
    assert list(put(files, ("2027-01-10", "yuki", "fed"))) == ["2027.txt"]
    assert list(put(files, ("2027-02-01", "yuki", "fed"))) == ["2027.txt"]


def test_a_rough_date_is_no_page_to_write_on(put: Any) -> None:
    files = {
        "earlier.txt": "2027-02\n\nhoshi\n  watered\n",
        "2027.txt": "2027-01-10\n\nhoshi\n  watered\n",
    }
    assert list(put(files, ("2027-02-01", "yuki", "fed"))) == ["2027.txt"]


def test_no_page_at_all(written: Any) -> None:
    journal = written(CARDS).journal
    assert place_of(date(2027, 1, 1), journal.pages, journal.texts) is None


@pytest.mark.parametrize("end", ["\n", "\r\n"])
def test_line_ends(put: Any, end: str) -> None:
    files = {"d.txt": "2027-03-06\n\nhoshi\n  fed\n\n2027-03-20\n\nyuki\n  fed\n"}
    data = files["d.txt"].replace("\n", end).encode()
    place = place_of_file(files["d.txt"], date(2027, 3, 8))
    after = with_lines(data, [(place, DiaryLine("yuki", date(2027, 3, 8), "  fed"))])
    assert after.replace(end.encode(), b"") == data.replace(end.encode(), b"").replace(
        b"2027-03-20", b"2027-03-08yuki  fed2027-03-20"
    )
    assert after.count(b"\n") == after.count(end.encode()) == 14


def place_of_file(text: str, day: date) -> Any:
    from backbud.journal.dated import DatedPage
    from backbud_grammar.dates import read_date

    lines = text.split("\n")
    pages = [
        DatedPage(read_date(line), "d.txt", number, 0, ())
        for number, line in enumerate(lines, 1)
        if line[:1].isdigit()
    ]
    return place_of(day, pages, {"d.txt": text.encode()})
