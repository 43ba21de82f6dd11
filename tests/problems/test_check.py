"""`backbud check`: what it prints, what it returns, and what a program reads."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from backbud.cli import main

SETTINGS = 'language = 1\nhome = "yard"\n'
CARDS = "place yard\n  latitude 52 N\ntree hoshi\n  kind  trident maple\n"


@pytest.fixture
def journal(tmp_path: Path) -> Path:
    (tmp_path / "backbud.toml").write_text(SETTINGS)
    (tmp_path / "cards.txt").write_text(CARDS)
    (tmp_path / "diary.txt").write_text("2026-03-06\nhoshi\n  watered\n")
    return tmp_path


def test_nothing_wrong_is_status_0(journal: Path, capsys) -> None:
    assert main(["check", str(journal)]) == 0
    assert capsys.readouterr().out.startswith("No problems.")


def test_problems_are_status_1_and_shown_with_a_mark(journal: Path, capsys) -> None:
    (journal / "diary.txt").write_text("2026-03-06\nhoshi\n  watered\n  moved  yrd\n  turnd\n")
    assert main(["check", str(journal)]) == 1
    assert capsys.readouterr().out.splitlines()[:8] == [
        "diary.txt:4:10: no place is called “yrd”, so this line is held back and changes nothing "
        "[unknown-handle]",
        "      moved  yrd",
        "             ^^^",
        "    Did you mean “yard”?",
        "diary.txt:5:3: “turnd” is no act known here [unknown-act]",
        "      turnd",
        "      ^^^^^",
        "    Did you mean “turned”?",
    ]


def test_json_has_exactly_seven_fields(journal: Path, capsys) -> None:
    (journal / "diary.txt").write_text("2026-03-06\nhoshi\n\twatered\n  moved  yrd\n")
    assert main(["check", str(journal), "--json"]) == 1
    assert json.loads(capsys.readouterr().out) == [
        {
            "code": "mixed-indent",
            "severity": "warning",
            "file": "diary.txt",
            "line": 4,
            "column": 1,
            "message": "tabs and spaces are mixed in front of this line",
            "hint": "It was read as a line of its own. Use one of the two in a block.",
        },
        {
            "code": "unknown-handle",
            "severity": "error",
            "file": "diary.txt",
            "line": 4,
            "column": 10,
            "message": "no place is called “yrd”, so this line is held back and changes nothing",
            "hint": "Did you mean “yard”?",
        },
    ]
    (journal / "diary.txt").write_text("")
    assert main(["check", str(journal), "--json"]) == 0
    assert json.loads(capsys.readouterr().out) == []


@pytest.mark.parametrize("day", ["2026-02-30", "2026-03", "soon", "2026-03-06/2026-03-07", ""])
def test_a_day_that_is_none_is_status_2(journal: Path, capsys, day) -> None:
    status = main(["check", str(journal), "--on", day])
    assert status == (2 if day else 0)
    assert ("--on" in capsys.readouterr().err) is bool(day)


def test_no_journal_is_status_2(tmp_path: Path, capsys, monkeypatch) -> None:
    assert main(["check", str(tmp_path)]) == 2
    assert "holds no journal (no backbud.toml)" in capsys.readouterr().err
    monkeypatch.chdir(tmp_path)
    assert main(["check"]) == 2
    assert "there is no journal here" in capsys.readouterr().err


def test_an_unknown_option_is_status_2(journal: Path) -> None:
    with pytest.raises(SystemExit) as left:
        main(["check", str(journal), "--loud"])
    assert left.value.code == 2


def test_with_on_later_lines_are_not_there_yet(journal: Path, capsys) -> None:
    (journal / "diary.txt").write_text(
        "2026-03-06\nhoshi\n  watered\n2026-04-01\nhoshi\n  waterd\n"
    )
    assert main(["check", str(journal), "--on", "2026-03-31"]) == 0
    assert main(["check", str(journal), "--on", "2026-04-01"]) == 1
    capsys.readouterr()
