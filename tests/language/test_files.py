"""Which files of a folder are read, and in which shape their bytes may be."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

DIARY = "2027-03-06\n\nhoshi\n  watered\n  moved tunnel\n"
ACTS = ["2027-03-06 hoshi | watered", "2027-03-06 hoshi | moved tunnel"]


@pytest.mark.parametrize(
    "data",
    [
        DIARY.encode(),
        DIARY.replace("\n", "\r\n").encode(),
        DIARY.replace("\n", "\r").encode(),
        b"2027-03-06\r\n\nhoshi\r  watered\r\n  moved tunnel\n",
        b"\xef\xbb\xbf" + DIARY.encode(),
        DIARY.rstrip("\n").encode(),
        DIARY.replace("  ", "\t").encode(),
        DIARY.replace("moved ", "moved\t").encode(),
        b"\n\n \n\t\n" + DIARY.encode() + b"\n   \n\n",
        DIARY.replace("\n", "  \t\n").encode(),
        DIARY.replace("  ", "\N{NO-BREAK SPACE} ").encode(),
        (DIARY.replace("\n\n", "\n\f\n")).encode(),
    ],
    ids=[
        "LF",
        "CRLF",
        "CR",
        "mixed",
        "BOM",
        "no last newline",
        "tabs",
        "tab after the act",
        "blank lines around",
        "blanks at the ends",
        "hard spaces",
        "form feed",
    ],
)
def test_the_shape_of_a_file_does_not_matter(read, data) -> None:
    journal = read(data)
    assert journal.acts == ACTS
    assert journal.problems == []
    assert [e.line for e in journal.events] == [e.line for e in read(data).events]


def test_lines_are_counted_with_every_line_end(read) -> None:
    assert [e.line for e in read(DIARY.replace("\n", "\r\n")).events] == [4, 5]
    assert [e.line for e in read(b"\xef\xbb\xbf" + DIARY.encode()).events] == [4, 5]


def test_any_layout_of_folders_is_read_and_a_file_may_hold_both(read) -> None:
    journal = read(
        "",
        cards="",
        files={
            "a/b/c/deep.txt": "tree hoshi\n  kind maple\n" + DIARY.replace("tunnel", "shed"),
            "place.txt": "place shed\n",
            "old/more.TXT": "2026-01-01\nhoshi\n  turned\n",
        },
    )
    assert journal.acts == [
        "2026-01-01 hoshi | turned",
        "2027-03-06 hoshi | watered",
        "2027-03-06 hoshi | moved shed",
    ]


@pytest.mark.parametrize(
    "name",
    [".hidden/a.txt", "diary/.git/a.txt", "made/a.txt", "a.md", "a.txt~", ".swap.txt"],
)
def test_what_is_not_read(read, name) -> None:
    assert read(DIARY, files={name: "rubbish\n"}).problems == []


def test_only_the_output_folder_of_the_journal_itself_is_left_out(read) -> None:
    journal = read("", files={"diary/made/a.txt": DIARY})
    assert journal.acts == ACTS


def test_gitignore_is_obeyed_nested_and_negated(read) -> None:
    bad = "rubbish here\n"
    journal = read(
        DIARY,
        files={
            ".gitignore": "drafts/\n*-old.txt\n!keep-old.txt\n/root-only.txt\n# a remark\n",
            "drafts/a.txt": bad,
            "x-old.txt": bad,
            "sub/y-old.txt": bad,
            "root-only.txt": bad,
            "keep-old.txt": "2027-04-01\nhoshi\n  watered -- keep\n",
            "sub/root-only.txt": "2027-04-02\nhoshi\n  watered -- sub\n",
            "sub/.gitignore": "inner.txt\n!z-old.txt\n",
            "sub/inner.txt": bad,
            "sub/z-old.txt": "2027-04-03\nhoshi\n  watered -- z\n",
            "inner.txt": "2027-04-04\nhoshi\n  watered -- inner\n",
        },
    )
    assert journal.problems == []
    assert [e.remark for e in journal.events] == ["", "", "keep", "sub", "z", "inner"]


def test_a_broken_gitignore_line_spoils_nothing(read) -> None:
    journal = read(DIARY, files={".gitignore": b"\xff\xfe\n[\n!\n//\nno.txt\n", "no.txt": "bad\n"})
    assert journal.acts == ACTS
    assert journal.problems == []


def test_git_itself_is_never_asked(read, tmp_path: Path, monkeypatch) -> None:
    # A hook or a configured program of somebody else's repository would leave its mark.
    called = tmp_path / "called"
    program = tmp_path / "bin" / "git"
    program.parent.mkdir()
    program.write_text(f"#!/bin/sh\ntouch {called}\n")
    program.chmod(0o755)
    monkeypatch.setenv("PATH", str(program.parent), prepend=os.pathsep)
    assert read(DIARY, files={".git/config": "[core]\n\tfsmonitor = touch called\n"}).acts == ACTS
    assert not called.exists()


def test_links_are_not_followed_and_said(read, tmp_path: Path) -> None:
    outside = tmp_path.parent / f"{tmp_path.name}-outside"
    outside.mkdir()
    (outside / "secret.txt").write_text("tree intruder\n")
    (tmp_path / "link.txt").symlink_to(outside / "secret.txt")
    (tmp_path / "folder").symlink_to(outside)
    (tmp_path / "picture.jpg").symlink_to(outside / "secret.txt")
    journal = read(DIARY)
    assert journal.acts == ACTS
    assert [(p.code, p.file) for p in journal.journal.problems()] == [
        ("link", "folder"),
        ("link", "link.txt"),
    ]
    assert journal.journal.things.find("intruder") is None


def test_a_link_in_a_circle_ends(read, tmp_path: Path) -> None:
    (tmp_path / "again").symlink_to(tmp_path)
    assert read(DIARY).acts == ACTS


def test_a_file_named_as_weather_is_no_diary(read) -> None:
    station = "  yyyy  mm   tmax\n  1959   1    4.5\n1959 2 7.3\nLocation 51 N\n"
    for gap in ("  ", "\t"):
        cards = (
            f"place yard\n  weather{gap}data/station.txt\ntree hoshi\n  kind maple\nplace tunnel\n"
        )
        journal = read(DIARY, cards=cards, files={"data/station.txt": station})
        assert journal.problems == []
        assert journal.acts == ACTS


def test_a_file_is_weather_only_if_a_place_says_so(read) -> None:
    # The words stand in a remark, so the file stays a diary.
    journal = read(
        "2027-03-07\nhoshi\n  noted\n      weather  more.txt\n", files={"more.txt": DIARY}
    )
    assert journal.acts == [*ACTS, "2027-03-07 hoshi | noted weather  more.txt"]


def test_hash_is_a_remark_only_as_the_first_sign_of_a_line(read) -> None:
    journal = read(
        "# to myself\n"
        "2027-03-06\n"
        "  # indented too\n"
        "hoshi\n"
        "# between\n"
        "  repotted same pot,\n"
        "# inside an act\n"
        "      # and deeper\n"
        "      moss\n"
        "  noted  pot # 4 is the one\n"
        "  watered -- see # 4\n"
    )
    assert journal.acts == [
        "2027-03-06 hoshi | repotted same pot, moss",
        "2027-03-06 hoshi | noted pot # 4 is the one",
        "2027-03-06 hoshi | watered -- see # 4",
    ]
    assert journal.problems == []
