"""Half a journal is not published: what was made last stays until it is mended."""

from __future__ import annotations

import os
from collections.abc import Callable
from pathlib import Path
from textwrap import dedent

import pytest

from backbud.cli import main

CARDS = """\
    place yard
      latitude  52.1

    tree hoshi
      kind   trident maple
      place  yard
    """
DIARY = """\
    2026-03-06

    hoshi
      repotted  same pot, 2 cm off below
    """


@pytest.fixture
def journal(tmp_path: Path) -> Path:
    folder = tmp_path / "journal"
    (folder / "cards").mkdir(parents=True)
    (folder / "backbud.toml").write_text('language = 1\nname = "A yard"\n')
    (folder / "cards" / "trees.txt").write_text(dedent(CARDS))
    (folder / "diary.txt").write_text(dedent(DIARY))
    assert main(["make", str(folder)]) == 0
    return folder


def made(journal: Path) -> dict[str, tuple[int, bytes]]:
    """What was made: each file, when it was written and what it says."""
    return {
        str(path.relative_to(journal)): (path.stat().st_mtime_ns, path.read_bytes())
        for path in (journal / "made").rglob("*")
        if path.is_file()
    }


def in_utf_16(path: Path) -> None:
    path.write_text(path.read_text(), encoding="utf-16")


def in_utf_32(path: Path) -> None:
    path.write_text(path.read_text(), encoding="utf-32")


def as_a_folder(path: Path) -> None:
    """As one splits a file that has grown long: nothing in it is read as the file was."""
    path.unlink()
    path.mkdir()


def a_file_for_its_folder(path: Path) -> None:
    path.unlink()
    path.parent.rmdir()
    path.parent.write_text("gone")


def empty(path: Path) -> None:
    path.write_bytes(b"")


def blank(path: Path) -> None:
    path.write_bytes(b"\n \r\n")


def of_noughts(path: Path) -> None:
    """As a power cut leaves a file."""
    path.write_bytes(b"\0" * path.stat().st_size)


def as_a_link(path: Path) -> None:
    os.rename(path, path.parent.parent / "elsewhere")
    path.symlink_to(path.parent.parent / "elsewhere")


def folder_as_a_link(path: Path) -> None:
    os.rename(path.parent, path.parent.parent / ".away")
    path.parent.symlink_to(path.parent.parent / ".away")


def as_a_pipe(path: Path) -> None:
    path.unlink()
    os.mkfifo(path)


@pytest.mark.skipif(os.name == "nt", reason="links and pipes of another sort")
@pytest.mark.parametrize(
    ("damage", "said"),
    [
        (in_utf_16, "cards/trees.txt:1:1: this file is UTF-16"),
        (in_utf_32, "cards/trees.txt:1:1: this file is UTF-32"),
        (as_a_folder, "cards/trees.txt:1:1: this is no file, and was one"),
        (a_file_for_its_folder, "cards:1:1: this is no folder, and cards/trees.txt was in it"),
        (empty, "cards/trees.txt:1:1: this file is empty, and was not"),
        (blank, "cards/trees.txt:1:1: this file is empty, and was not"),
        (of_noughts, "cards/trees.txt:1:1: this file holds nothing but nought bytes"),
        (as_a_link, "cards/trees.txt:1:1: this is a link and was not followed"),
        (folder_as_a_link, "cards:1:1: this is a link and was not followed"),
        (as_a_pipe, "cards/trees.txt:1:1: this is no file, and was one"),
    ],
)
def test_a_file_that_gives_nothing_now_leaves_what_was_made(
    journal: Path,
    capsys: pytest.CaptureFixture[str],
    damage: Callable[[Path], None],
    said: str,
) -> None:
    before = made(journal)
    capsys.readouterr()
    damage(journal / "cards" / "trees.txt")
    for _ in range(2):
        assert main(["make", str(journal)]) == 1
        told = capsys.readouterr()
        problem, _, last = told.err.splitlines()
        assert problem.startswith(said)
        name = said.partition(":")[0]
        assert last == (
            f"Not read as a whole: {name}. It was read before, so all stays as it was made last."
        )
        assert told.out == ""
    assert made(journal) == before


def test_settings_that_are_no_settings_leave_what_was_made(
    journal: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    before = made(journal)
    (journal / "backbud.toml").write_text('language = 1\nname = "A ya')
    assert main(["make", str(journal)]) == 1
    assert "backbud.toml is not TOML" in capsys.readouterr().err
    assert made(journal) == before


def test_a_weather_file_too(journal: Path, capsys: pytest.CaptureFixture[str]) -> None:
    cards = journal / "cards" / "trees.txt"
    cards.write_text(cards.read_text().replace("52.1\n", "52.1\n  weather   days.csv\n", 1))
    weather = journal / "days.csv"
    weather.write_text("date,low_c,high_c\n2026-03-01,2,9\n2026-03-02,2,11\n")
    assert main(["make", str(journal)]) == 0
    before = made(journal)
    in_utf_16(weather)
    assert main(["make", str(journal)]) == 1
    assert "Not read as a whole: days.csv." in capsys.readouterr().err
    assert made(journal) == before


def test_what_is_deleted_or_renamed_or_remarked_is_meant(journal: Path) -> None:
    os.rename(journal / "cards" / "trees.txt", journal / "cards" / "all.txt")
    assert main(["make", str(journal)]) == 0
    assert (journal / "made" / "trees" / "hoshi.html").is_file()
    cards = journal / "cards" / "all.txt"
    cards.write_text("".join(f"# {line}\n" for line in cards.read_text().splitlines()))
    assert main(["make", str(journal)]) == 1  # the diary names a tree that has no card
    assert not (journal / "made" / "trees" / "hoshi.html").exists()
    cards.unlink()
    assert main(["make", str(journal)]) == 1
    (journal / "diary.txt").unlink()
    assert main(["make", str(journal)]) == 0


def test_a_file_that_never_gave_anything_is_a_problem_and_all_else_is_made(
    journal: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Nor does a memory that is lost refuse anything."""
    (journal / "notes.txt").write_bytes("a letter".encode("utf-16"))
    (journal / "diary.txt").write_text(dedent(DIARY) + "  noted     two buds open\n")
    assert main(["make", str(journal)]) == 1
    assert "1 problem in the journal" in capsys.readouterr().out
    assert "two buds open" in (journal / "made" / "trees" / "hoshi.html").read_text()
    empty(journal / "diary.txt")
    assert main(["make", str(journal)]) == 1
    assert "two buds open" in (journal / "made" / "trees" / "hoshi.html").read_text()
    (journal / ".backbud" / "read").unlink()
    assert main(["make", str(journal)]) == 1
    assert "two buds open" not in (journal / "made" / "trees" / "hoshi.html").read_text()


def test_it_is_made_again_once_it_is_mended(journal: Path) -> None:
    cards = journal / "cards" / "trees.txt"
    whole = cards.read_text()
    in_utf_16(cards)
    assert main(["make", str(journal)]) == 1
    cards.write_text(whole + "\ntree yuki\n  kind   satsuki azalea\n  place  yard\n")
    assert main(["make", str(journal)]) == 0
    assert (journal / "made" / "trees" / "yuki.html").is_file()
