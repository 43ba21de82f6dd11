"""`backbud jot` writes whole files, in their own style, also where several run at once."""

from __future__ import annotations

import json
import os
import stat
import subprocess
import sys
from datetime import date, timedelta
from io import StringIO
from pathlib import Path
from typing import Any

import pytest
from tests.views.test_schema import validator

import backbud.jot.in_place as in_place
from backbud.cli import main
from backbud_grammar.tidy import tidy_text

TODAY = date.today()
CARDS = "tree hoshi\n  kind   trident maple\n\ntree yuki\n  kind   trident maple\n"


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    (tmp_path / "backbud.toml").write_text('language = 1\nname = "A test"\n')
    (tmp_path / "cards.txt").write_text(CARDS)
    return tmp_path


def diary(folder: Path, text: str, name: str = "diary.txt") -> Path:
    path = folder / name
    path.write_bytes(text.encode())
    return path


def jot(folder: Path, *words: str) -> int:
    return main(["jot", "--journal", str(folder), *words])


def test_on_the_page_of_today_below_what_stands_there(folder: Path, capsys: Any) -> None:
    path = diary(folder, f"{TODAY}\n\nhoshi\n  watered\n")
    assert jot(folder, "hoshi fed", "yuki watered -- dry wind") == 0
    assert path.read_text() == (
        f"{TODAY}\n\nhoshi\n  watered\n  fed\n\nyuki\n  watered     -- dry wind\n"
    )
    assert tidy_text(path.read_text()) == path.read_text()
    assert capsys.readouterr().out == (
        f"diary.txt, {TODAY}:\n    fed\n  yuki\n    watered     -- dry wind\n"
        "\nhoshi: fed\n\nyuki: watered\n  remark  dry wind\n"
    )


def test_a_new_page_and_a_new_file(folder: Path, capsys: Any) -> None:
    assert jot(folder, "hoshi watered", "--on", "2025-03-06") == 0
    assert (folder / "diary" / "2025.txt").read_text() == "2025-03-06\n\nhoshi\n  watered\n"
    assert "diary/2025.txt, a new file, 2025-03-06:" in capsys.readouterr().out
    assert jot(folder, "hoshi watered", "--on", "2025-03-01") == 0
    assert (folder / "diary" / "2025.txt").read_text() == (
        "2025-03-01\n\nhoshi\n  watered\n\n2025-03-06\n\nhoshi\n  watered\n"
    )


@pytest.mark.parametrize(
    ("before", "after"),
    [
        # Deeper, another column; one blank; tabs.
        ("hoshi\n    fed     2 g/L\n", "\nyuki\n    pruned  2 cm off\n"),
        ("hoshi\n  fed 2 g/L\n", "\nyuki\n  pruned 2 cm off\n"),
        ("hoshi\n\tfed\t2 g/L\n", "\nyuki\n\tpruned\t2 cm off\n"),
    ],
)
def test_in_the_style_of_the_file(folder: Path, before: str, after: str) -> None:
    path = diary(folder, f"{TODAY}\n\n{before}")
    jot(folder, "yuki pruned 2 cm off")
    assert path.read_text() == f"{TODAY}\n\n{before}{after}"


def test_an_act_never_goes_on_with_the_one_above_it(folder: Path) -> None:
    """Most stand deeper than the last, so below it they would be a part of it."""
    page = "2027-03-0{}\n\nhoshi\n      fed\n\n"
    before = "".join(page.format(n) for n in range(1, 5)) + "2027-03-05\n\nhoshi\n  watered\n"
    path = diary(folder, before.replace("2027", "2025"))
    assert jot(folder, "hoshi fed", "--on", "2025-03-05") == 0
    assert path.read_text().endswith("\n\nhoshi\n  watered\n\nhoshi\n      fed\n")


def test_line_ends_mode_and_a_byte_order_mark_are_kept(folder: Path) -> None:
    path = diary(folder, f"\ufeff{TODAY}\r\n\r\nhoshi\r\n  watered")
    path.chmod(0o640)
    assert jot(folder, "hoshi fed") == 0
    assert path.read_bytes() == f"\ufeff{TODAY}\r\n\r\nhoshi\r\n  watered\r\n  fed\r\n".encode()
    assert stat.S_IMODE(path.stat().st_mode) == 0o640
    assert sorted(one.name for one in folder.iterdir() if one.is_file()) == [
        "backbud.toml",
        "cards.txt",
        "diary.txt",
    ]


def test_what_is_not_understood_is_kept_and_asked_back(folder: Path, capsys: Any) -> None:
    path = diary(folder, f"{TODAY}\n\nhoshi\n  watered\n")
    assert jot(folder, "hoshy watered", "all the rest wants a drink", "hoshi wired zyxxy") == 1
    assert path.read_text() == (
        f"{TODAY}\n\nhoshi\n  watered\n\nhoshy\n  watered\n"
        "\nwhose\n  noted       all the rest wants a drink\n"
        "\nhoshi\n  wired       zyxxy\n"
    )
    out = capsys.readouterr().out
    assert "? nothing is called “hoshy”. Did you mean “hoshi”?" in out
    assert "? nobody can tell whose this is" in out
    assert "hoshi: nothing is done by this line; its words are kept" in out
    assert main(["check", str(folder)]) == 1
    assert capsys.readouterr().out.count("nothing is called") == 2


def test_each_line_of_standard_input_is_one_act(folder: Path, monkeypatch: Any) -> None:
    path = diary(folder, f"{TODAY}\n\nhoshi\n  watered\n")
    monkeypatch.setattr(sys, "stdin", StringIO("hoshi fed\r\n\nyuki watered\n"))
    assert jot(folder) == 0
    assert path.read_text().endswith("\n  watered\n  fed\n\nyuki\n  watered\n")


@pytest.mark.parametrize(
    "words",
    [
        ("hoshi fed\n2020-01-01",),
        ("hoshi fed", "yuki \x1b]0;x"),
        ("hoshi fed", ""),
        # The shell parted one line into its words.
        ("hoshi", "fed"),
        ("hoshi", "watered, bone dry"),
        ("hoshi fed", "--on", str(TODAY + timedelta(2))),
        ("hoshi fed", "--on", "2025-03"),
    ],
)
def test_where_one_line_is_refused_none_is_written(
    folder: Path, words: tuple[str, ...], capsys: Any
) -> None:
    path = diary(folder, f"{TODAY}\n\nhoshi\n  watered\n")
    before = path.read_bytes()
    assert jot(folder, *words) == 2
    assert path.read_bytes() == before


def test_json(folder: Path, capsys: Any) -> None:
    diary(folder, f"{TODAY}\n\nhoshi\n  watered\n")
    assert jot(folder, "yuki pruned 2 cm off", "--json") == 0
    read = json.loads(capsys.readouterr().out)
    validator("jot").validate(read)
    assert read == {
        "file": "diary.txt",
        "day": str(TODAY),
        "new_page": False,
        "new_file": False,
        "written": ["yuki", "  pruned      2 cm off"],
        "lines": [
            {
                "subjects": "yuki",
                "line": "pruned 2 cm off",
                "trees": ["yuki"],
                "act": "pruned",
                "details": ["2 cm off"],
                "kept": [],
                "remark": "",
                "asks": [],
            }
        ],
    }


def test_many_at_once_lose_no_line(folder: Path) -> None:
    """Real processes; the first finds no file for today."""
    runs = [
        subprocess.Popen(
            [sys.executable, "-m", "backbud", "jot", "--journal", str(folder), f"hoshi noted {n}"],
            env={**os.environ, "PYTHONSAFEPATH": "1"},
            stdout=subprocess.PIPE,
            stderr=subprocess.PIPE,
        )
        for n in range(8)
    ]
    for run in runs:
        _, errors = run.communicate(timeout=120)
        assert run.returncode == 0, errors
    lines = (folder / "diary" / f"{TODAY.year}.txt").read_text().splitlines()
    assert lines[:3] == [str(TODAY), "", "hoshi"]
    assert sorted(lines[3:]) == [f"  noted       {n}" for n in range(8)]


def test_an_editor_that_saves_just_before_is_not_overwritten(
    folder: Path, monkeypatch: Any
) -> None:
    path = diary(folder, f"{TODAY}\n\nhoshi\n  watered\n")
    first = in_place._real_folders
    saves: list[int] = []

    def save_meanwhile(*where: str) -> None:
        first(*where)
        if not saves:
            saves.append(1)
            path.write_text(f"{TODAY}\n\nyuki\n  fed\n")

    monkeypatch.setattr(in_place, "_real_folders", save_meanwhile)
    assert jot(folder, "hoshi fed") == 0
    assert path.read_text() == f"{TODAY}\n\nyuki\n  fed\n\nhoshi\n  fed\n"


@pytest.mark.skipif(sys.platform == "win32", reason="links ask for a right there")
def test_no_link_is_followed(folder: Path, tmp_path_factory: Any, capsys: Any) -> None:
    away = tmp_path_factory.mktemp("away")
    (folder / "diary").symlink_to(away)
    assert jot(folder, "hoshi watered") == 3
    assert list(away.iterdir()) == []
    assert "link" in capsys.readouterr().err
