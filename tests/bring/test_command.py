"""`backbud bring` is typed; it shows, keeps the mapping or writes, and its JSON is as published."""

from __future__ import annotations

import csv
import io
import json
import subprocess
import sys
from pathlib import Path

import pytest
from tests.bring.conftest import Desk
from tests.views.test_schema import validator

from backbud.cli import main

LIST = "Date,Work,Tree,Weather\n2021-04-03,watered,anvil,sun\n"
EVIL = ("=cmd|' /C calc'!A0", "+44 0", "@x", "-1+2", "\t=1", "\r=1")


@pytest.fixture
def at_desk(desk: Desk, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Desk:
    (tmp_path / "list.csv").write_text(LIST)
    monkeypatch.chdir(tmp_path)
    return desk


def said(desk: Desk, *words: str) -> int:
    return main(["bring", *words, "--journal", str(desk.folder)])


def tree(folder: Path) -> dict[str, bytes]:
    """Every file of the journal but what it remembers."""
    return {
        path.relative_to(folder).as_posix(): path.read_bytes()
        for path in sorted(folder.rglob("*"))
        if path.is_file() and ".backbud" not in path.parts
    }


def test_it_shows_and_writes_nothing(at_desk: Desk, capsys: pytest.CaptureFixture[str]) -> None:
    before = tree(at_desk.folder)
    assert said(at_desk, "list.csv") == 0
    out = capsys.readouterr().out
    assert "  Weather  noted\n" in out and "    watered\n" in out
    assert "1 act and 1 note would go to brought/list.txt; --write writes them." in out
    assert tree(at_desk.folder) == before


def test_the_mapping_is_kept_edited_and_gone_by(
    at_desk: Desk, capsys: pytest.CaptureFixture[str]
) -> None:
    before = tree(at_desk.folder)
    assert said(at_desk, "list.csv", "--map") == 0
    mapping = at_desk.folder / "brought/list.csv.toml"
    assert set(tree(at_desk.folder)) - set(before) == {"brought/list.csv.toml"}
    text = mapping.read_text()
    assert '"Weather" = "noted"' in text
    edited = text.replace('"Weather" = "noted"', '"Weather" = "left out"')
    mapping.write_text(edited)
    assert said(at_desk, "list.csv", "--write") == 0
    assert "Written to brought/list.txt: 0 new cards, 1 act and 0 notes." in capsys.readouterr().out
    after = tree(at_desk.folder)
    assert {name: after[name] for name in before} == before
    assert set(after) - set(before) == {"brought/list.csv.toml", "brought/list.txt"}
    assert mapping.read_text() == edited
    assert said(at_desk, "list.csv", "--write") == 0
    assert "There is nothing new in it. 1 row had been brought before." in capsys.readouterr().out
    assert tree(at_desk.folder) == after


def test_json_is_as_published(at_desk: Desk, capsys: pytest.CaptureFixture[str]) -> None:
    assert said(at_desk, "list.csv", "--json") == 0
    shown = json.loads(capsys.readouterr().out)
    validator("bring").validate(shown)
    assert (shown["acts"], shown["is_written"], shown["before"]) == (1, False, 0)
    Path("other.csv").write_text("Date,Work,Tree\n01/02/2021,watered,Little pine\n")
    assert said(at_desk, "other.csv", "--json") == 1
    shown = json.loads(capsys.readouterr().out)
    validator("bring").validate(shown)
    assert [one["hint"] for one in shown["asks"]] == ["--dates day-first"]
    assert said(at_desk, "other.csv", "--json", "--dates", "day-first", "--write") == 0
    shown = json.loads(capsys.readouterr().out)
    validator("bring").validate(shown)
    assert [one["handle"] for one in shown["cards"]] == ["little-pine"]


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (("none.csv",), "none.csv: it cannot be read: No such file or directory"),
        (("list.csv", "--dates", "dmy"), "--dates: no “dmy”. It is one of day-first, month-first"),
        (("list.csv", "--rows", "tree"), "--rows: no “tree”. It is one of works, trees"),
        (("list.csv", "--write", "--map"), "say one of --write and --map"),
        (("list.csv", "--sheet", "X", "--rows", "works"), "no sheet is called “X”"),
    ],
)
def test_what_cannot_be_done_is_misuse(
    at_desk: Desk, words: tuple[str, ...], told: str, capsys: pytest.CaptureFixture[str]
) -> None:
    assert said(at_desk, *words) == 2
    assert told in capsys.readouterr().err


def test_a_run_that_is_stopped_leaves_all_or_nothing(
    at_desk: Desk, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The disk refuses as the file is given its name."""
    import os

    before = tree(at_desk.folder)

    def refused(*paths: object) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "link", refused)
    monkeypatch.setattr(os, "replace", refused)
    assert said(at_desk, "list.csv", "--write") == 3
    assert tree(at_desk.folder) == before
    monkeypatch.undo()
    assert said(at_desk, str(at_desk.folder.parent / "list.csv"), "--write") == 0
    assert "brought/list.txt" in tree(at_desk.folder)


def test_a_plain_list_loads_no_library_of_spreadsheets_or_calendars(at_desk: Desk) -> None:
    code = (
        "import sys; from backbud.cli import main; main(sys.argv[1:]); "
        "print({'openpyxl', 'defusedxml', 'icalendar', 'backbud.plan.run'} & {*sys.modules}, "
        "file=sys.stderr)"
    )
    words = ["bring", "list.csv", "--journal", str(at_desk.folder)]
    done = subprocess.run(
        [sys.executable, "-c", code, *words], capture_output=True, text=True, check=True
    )
    assert done.stderr.strip() == "set()"


def test_what_goes_out_again_is_no_formula(
    at_desk: Desk, capsys: pytest.CaptureFixture[str]
) -> None:
    """Whatever was brought in: a cell of CSV begins with nothing that a spreadsheet would reckon
    with (OWASP, CSV Injection)."""
    out = io.StringIO()
    rows = [(f"{one} {n}", one, one, one, "zzz") for n, one in enumerate(EVIL)]
    csv.writer(out).writerows([("Tree", "Origin", "Style", "Passport", "Species"), *rows])
    Path("evil.csv").write_text(out.getvalue(), newline="")
    assert said(at_desk, "evil.csv", "--write") == 0
    capsys.readouterr()
    assert main(["data", str(at_desk.folder)]) in (0, 1)
    capsys.readouterr()
    texts = [path.read_text() for path in (at_desk.folder / "made/data/csv").glob("*.csv")]
    for register in ("plants", "stock", "treatments", "unpaid"):
        main(["registers", str(at_desk.folder), "--only", register, "--csv"])
        texts.append(capsys.readouterr().out)
    cells = [cell for text in texts for row in csv.reader(io.StringIO(text)) for cell in row]
    assert sum(1 for cell in cells if "cmd|" in cell) > 2
    wrong = [cell for cell in cells if cell[:1] in ("=", "+", "-", "@", "\t", "\r")]
    assert [cell for cell in wrong if not cell[1:].replace(".", "").isdigit()] == []
