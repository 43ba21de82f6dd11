"""What a journal gained since a revision of its repository, and how its plan changed for it."""

from __future__ import annotations

import json
import os
import subprocess
from pathlib import Path

import pytest
from tests.views.test_schema import validator

from backbud.cli import main

CARDS = """\
place yard
  latitude  52.9 N
  low  1 1 2 4 7 10 12 12 10 7 4 2 C
  high 7 7 10 13 16 19 21 21 18 14 10 7 C
  rain 60 45 45 45 50 60 55 60 60 70 65 60 mm

tree hoshi
  kind  trident maple
  since 2015
  place yard
"""
WIRED = "2026-03-01\n\nhoshi\n  wired  3 mm Al on left 2\n  planned  repot, to 2027-03\n"
OFF = """
2026-04-20

hoshi
  unwired  on left 2 -- it had begun to mark
  put-off  repot, to 2028-03
"""


def git(folder: Path, *words: str, day: str = "2026-03-02") -> None:
    env = {**os.environ, "GIT_COMMITTER_DATE": f"{day}T12:00:00Z", "GIT_CONFIG_GLOBAL": os.devnull}
    named = ("-c", "user.name=x", "-c", "user.email=x@example.org")
    subprocess.run(["git", *named, *words], cwd=folder, env=env, check=True, capture_output=True)


@pytest.fixture(scope="module")
def journal(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A journal in a folder of a repository; its last lines are in no revision yet."""
    top = tmp_path_factory.mktemp("repository")
    folder = top / "trees"
    folder.mkdir()
    (folder / "backbud.toml").write_text('language = 1\nhome = "yard"\n')
    (folder / "cards.txt").write_text(CARDS)
    git(top, "init", "-q")
    git(top, "add", ".")
    git(top, "commit", "-q", "-m", "The cards")
    (folder / "diary.txt").write_text(WIRED)
    git(top, "add", ".")
    git(top, "commit", "-q", "-m", "Wired", day="2026-03-09")
    git(top, "tag", "wired")
    (folder / "diary.txt").write_text(WIRED + OFF)
    return folder


def since(capsys: pytest.CaptureFixture[str], *words: str) -> dict:
    assert main(["since", *words, "--on", "2026-05-01", "--json"]) == 0
    return json.loads(capsys.readouterr().out)


def test_what_was_written_since(journal: Path, capsys) -> None:
    found = since(capsys, "wired", str(journal))
    validator("since").validate(found)
    assert [one["line"] for one in found["gained"]] == [
        "unwired on left 2 -- it had begun to mark",
        "put-off repot, to 2028-03",
    ]
    assert found["lost"] == []
    assert (found["written"], found["said"]) == ("2026-03-09", "Wired")
    went = {one["work"]["id"]: (one["why"], one["by"]) for one in found["went"]}
    assert went["hoshi/wire-check/wired-2026-03-01/left-2"] == (
        "settled",
        "2026-04-20: unwired on left 2",
    )
    moved = {one["work"]["id"]: one for one in found["moved"]}
    plan = moved["hoshi/planned/repotted-2026-03-01"]
    assert plan["was"]["from"] == "2027-03-01"
    assert plan["work"]["from"] == "2028-03-01"


@pytest.mark.parametrize("written", ["HEAD~1", "HEAD^", "2026-03-05"])
def test_a_revision_is_found_as_it_is_written(journal: Path, capsys, written: str) -> None:
    assert since(capsys, written, str(journal))["said"] == "The cards"


def test_the_terminal_says_it_in_words(journal: Path, capsys) -> None:
    assert main(["since", "wired", str(journal), "--on", "2026-05-01"]) == 0
    out = capsys.readouterr().out
    assert "  + 2026-04-20  hoshi  unwired on left 2 -- it had begun to mark  (diary.txt:10)" in out
    assert "hoshi  repot: 1 to 31 March 2028, was 1 to 31 March 2027" in out


@pytest.mark.parametrize(
    ("written", "said"),
    [
        ("nothing", "there is no revision “nothing” in the repository."),
        ("HEAD~9", "there is no revision “HEAD~9” in the repository."),
        ("2025-01-01", "the repository has no revision until 2025-01-01."),
        ("2026-13-40", "“2026-13-40” is no day."),
    ],
)
def test_what_there_is_not_is_said(journal: Path, capsys, written: str, said: str) -> None:
    assert main(["since", written, str(journal)]) == 2
    assert capsys.readouterr().err.strip() == f"backbud: {said}"


def test_where_there_is_no_repository(tmp_path: Path, capsys) -> None:
    (tmp_path / "backbud.toml").write_text("language = 1\n")
    assert main(["since", "HEAD", str(tmp_path)]) == 2
    assert "is in no git repository." in capsys.readouterr().err


def test_nothing_that_a_stranger_s_repository_names_is_run(journal: Path, capsys) -> None:
    """Settings by which git would start a program: none is started, since git is not."""
    ran = journal.parent / "ran"
    program = journal.parent / "program.sh"
    program.write_text(f"#!/bin/sh\ntouch {ran}\n")
    program.chmod(0o755)
    settings = journal.parent / ".git" / "config"
    kept = settings.read_text()
    settings.write_text(f"{kept}[core]\n\tfsmonitor = {program}\n\tpager = {program}\n"
                        f"\tsshCommand = {program}\n[diff]\n\texternal = {program}\n")  # fmt: skip
    try:
        assert since(capsys, "wired", str(journal))["said"] == "Wired"
    finally:
        settings.write_text(kept)
    assert not ran.exists()
    assert not (journal / ".backbud" / "syntax.msgpack").is_symlink()


def test_a_work_that_a_new_line_displaced_says_which(tmp_path: Path, capsys) -> None:
    """A second repotting begins another cycle; a line that was taken out asks for nothing."""
    folder = tmp_path / "trees"
    folder.mkdir()
    (folder / "backbud.toml").write_text('language = 1\nhome = "yard"\n')
    (folder / "cards.txt").write_text(CARDS)
    first = "2024-03-01\n\nhoshi\n  repotted  same pot, 1/3 off\n"
    wired = "\n2026-03-01\n\nhoshi\n  wired  2 mm Al on apex\n"
    (folder / "diary.txt").write_text(first + wired)
    git(tmp_path, "init", "-q", "trees")
    git(folder, "add", ".")
    git(folder, "commit", "-q", "-m", "First")
    (folder / "diary.txt").write_text(
        first + "\n2026-03-20\n\nhoshi\n  repotted  same pot, 1/3 off\n"
    )
    found = since(capsys, "HEAD", str(folder))
    validator("since").validate(found)
    went = {one["work"]["id"]: (one["why"], one["by"]) for one in found["went"]}
    repotted = "2026-03-20: repotted same pot, 1/3 off"
    assert went["hoshi/trident-repot/2027"] == ("displaced", repotted)
    # Which line it was is not known of every work: then what is new of the tree is told.
    assert went["hoshi/trident-defoliate/2026"] == ("no cause", repotted)
    assert went["hoshi/wire-check/wired-2026-03-01/apex"] == (
        "unasked",
        "2026-03-01: wired 2 mm Al on apex",
    )
    assert main(["since", "HEAD", str(folder), "--on", "2026-05-01"]) == 0
    told = capsys.readouterr().out
    assert "in its place: 2026-03-20: repotted same pot, 1/3 off" in told
    assert f"nothing asks for it any more; new since then: {repotted}" in told
    assert "what asked for it stands there no more: 2026-03-01: wired 2 mm Al on apex" in told
