"""A journal came from somebody else, with an output, a commitment and a memory of their making."""

from __future__ import annotations

import os
import re
import shutil
from pathlib import Path

import pytest
from tests.stranger.conftest import TODAY, made, output

from backbud import cli
from backbud.person import CONFIG_VARIABLE

DAY = TODAY.isoformat()
COMMITMENT = "backbud commitment 1\ncoming 1-1\nfinal 1-2\nnew 1-0 taken\nend\n"
EVIL = b"<!doctype html><body><script>evil()</script></body>"


@pytest.fixture
def ship(journal: Path, monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> Path:
    """The journal as another person made it, with all that their backbud left in it."""
    with monkeypatch.context() as theirs:
        theirs.setenv(CONFIG_VARIABLE, str(tmp_path / "settings of a stranger"))
        made(journal)
    return journal


def told(capsys: pytest.CaptureFixture[str], *words: str) -> tuple[int, str]:
    """The exit status of a command, and what it says on the side."""
    status = cli.main(list(words))
    return status, capsys.readouterr().err


# ------------------------------------------------------------------ a commitment


@pytest.mark.parametrize("command", ["due", "check", "tree", "make", "stores"])
def test_a_linked_staging_folder_moves_nothing_of_the_keepers(
    journal: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str], command: str
) -> None:
    """`staged` is a link to the keeper's own folder, and a commitment takes from it."""
    own = tmp_path / "own"
    for name in ("1-0/letters", "1-1/photos", "1-2/money"):
        (own / name).parent.mkdir(parents=True)
        (own / name).write_text(name)
    (journal / ".backbud").mkdir()
    (journal / ".backbud/staged").symlink_to(own)
    (journal / ".backbud/commitment").write_text(COMMITMENT)
    words = [command, *(["hoshi"] if command == "tree" else []), str(journal), "--on", DAY]
    status, err = told(capsys, *words)
    assert output(tmp_path, "own") == {
        name: name.encode() for name in ("1-0/letters", "1-1/photos", "1-2/money")
    }
    assert not (journal / "made").exists() and not (journal / "made-on").exists()
    assert (journal / ".backbud/commitment").read_text() == COMMITMENT
    assert ".backbud/commitment does not bear your mark" in err
    assert "backbud make --take-over" in err
    assert status == (2 if command == "make" else 0)


@pytest.mark.parametrize("put", [os.mkfifo, os.mkdir, lambda path: os.symlink("/dev/zero", path)])
@pytest.mark.parametrize("name", ["commitment", "staged", "lock", "syntax.msgpack", "kinds"])
def test_a_pipe_a_folder_or_a_device_in_the_memory_holds_nobody_up(
    journal: Path, capsys: pytest.CaptureFixture[str], name: str, put: object
) -> None:
    (journal / ".backbud").mkdir()
    put(journal / ".backbud" / name)  # type: ignore[operator]
    before = (journal / ".backbud" / name).lstat().st_mode
    assert told(capsys, "check", str(journal))[0] == 0
    status, err = told(capsys, "make", "--on", DAY, str(journal))
    is_in_the_way = name in ("commitment", "lock") or (name == "staged" and put is not os.mkdir)
    # What is foreign can be moved aside by another command; a lock is for the keeper to move.
    stopped = 3 if name == "lock" else 2
    assert (status, "Traceback" in err) == (stopped if is_in_the_way else 0, False), err
    if is_in_the_way:
        assert (journal / ".backbud" / name).lstat().st_mode == before


def test_a_commitment_of_the_keeper_s_own_does_not_take_what_was_put_in_its_place(
    journal: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """A commitment speaks of bytes, and not only of names."""
    from tests.publish.test_commit import NEW, kill_at

    made(journal)
    before = output(journal)
    with_new = {name: content for name, content in {**before, **NEW}.items() if name[0] != "."}
    kill_at(journal, with_new, "the commitment is made")
    for staged in (journal / ".backbud/staged").glob("*-0"):
        staged.write_bytes(EVIL)
    _, err = told(capsys, "due", str(journal), "--on", DAY)
    assert re.search(r"\.backbud/staged/\d+-0 does not bear your mark", err)
    assert output(journal) == before


# ------------------------------------------------------------------ an output


def test_a_shipped_output_is_left_alone_until_it_is_moved_aside(
    ship: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (ship / "made/index.html").write_bytes(EVIL)
    theirs = output(ship)
    status, err = told(capsys, "make", str(ship))
    assert status == 2
    assert err == (
        "backbud: made/ does not bear your mark: it came with the journal, or an older backbud"
        " made it. It is left alone. To move it to made-aside and make all anew: backbud make"
        " --take-over\n"
    )
    assert output(ship) == theirs
    status, err = told(capsys, "make", "--take-over", str(ship))
    assert (status, err) == (
        0,
        "made did not bear your mark. It is in made-aside/1 now, as it was.\n",
    )
    assert output(ship, "made-aside/1") == theirs
    assert EVIL not in output(ship).values()
    # Once it is one's own, there is nothing more to move.
    assert told(capsys, "make", "--take-over", str(ship)) == (0, "")
    assert os.listdir(ship / "made-aside") == ["1"]


def test_nothing_that_was_moved_aside_before_is_overwritten(
    ship: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (ship / "made-aside").mkdir()
    (ship / "made-aside/1").write_text("mine")
    assert told(capsys, "make", "--take-over", str(ship))[0] == 0
    assert (ship / "made-aside/1").read_text() == "mine"
    assert "index.html" in output(ship, "made-aside/2")


def test_what_was_moved_aside_is_no_part_of_the_journal(
    ship: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (ship / "made/more.txt").write_text("tree planted\n  kind  box\n")
    told(capsys, "make", "--take-over", str(ship))
    assert (ship / "made-aside/1/more.txt").exists()
    assert "trees/planted.html" not in output(ship)


def test_the_output_of_an_older_backbud_is_moved_aside_as_easily(
    journal: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (journal / "made").mkdir()
    (journal / "made/index.html").write_text("old")
    (journal / "made/.manifest").write_text("backbud manifest 1\nindex.html\n")
    assert "an older backbud made it" in told(capsys, "make", str(journal))[1]
    assert told(capsys, "make", "--take-over", str(journal))[0] == 0
    assert (journal / "made-aside/1/index.html").read_text() == "old"


def test_a_shipped_commitment_and_linked_stage_are_moved_aside_as_they_are(
    journal: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (tmp_path / "own").mkdir()
    (journal / ".backbud").mkdir()
    (journal / ".backbud/staged").symlink_to(tmp_path / "own")
    (journal / ".backbud/commitment").write_text(COMMITMENT)
    assert told(capsys, "make", "--take-over", str(journal))[0] == 0
    assert (journal / "made-aside/1").read_text() == COMMITMENT
    assert (journal / "made-aside/2").readlink() == tmp_path / "own"
    assert (journal / "made/index.html").exists()


# ------------------------------------------------------------------ one's own, elsewhere


def test_a_journal_that_was_moved_keeps_its_output_and_its_memory(journal: Path) -> None:
    from backbud.publish.memory import recall_bytes

    made(journal)
    moved = journal.rename(journal.with_name("moved"))
    assert recall_bytes(str(moved), "syntax.msgpack") is not None
    assert made(moved).written == 0


def test_a_copy_keeps_its_output_and_begins_a_memory_of_its_own(journal: Path) -> None:
    from backbud.publish.memory import recall_bytes

    made(journal)
    copy = Path(shutil.copytree(journal, journal.with_name("copy")))
    assert recall_bytes(str(copy), "syntax.msgpack") is None
    assert made(copy).written == 0
    assert recall_bytes(str(copy), "syntax.msgpack") is not None


def test_without_a_place_for_the_secret_nothing_is_made_and_all_else_works(
    journal: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setenv(CONFIG_VARIABLE, str(journal / "settings"))
    assert told(capsys, "check", str(journal)) == (0, "")
    assert told(capsys, "due", str(journal), "--on", DAY) == (0, "")
    status, err = told(capsys, "make", str(journal))
    assert status == 3
    assert "your own folder for settings is not known, or lies in this journal" in err
    assert "BACKBUD_CONFIG" in err


# ------------------------------------------------------------------ a look back


def test_a_look_back_leaves_today_as_it_is(
    journal: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    cli.main(["make", str(journal)])
    today = output(journal)
    capsys.readouterr()
    assert cli.main(["make", "--on", "2026-04-01", str(journal)]) == 0
    assert f"{journal}/made-on/2026-04-01/index.html" in capsys.readouterr().out
    assert output(journal) == today
    then = output(journal, "made-on/2026-04-01")
    assert b"1 April 2026" in then["index.html"]
    assert b"two thick roots" not in then["trees/hoshi.html"]
    # It is no part of the journal, and today is remembered still.
    (journal / "made-on/2026-04-01/more.txt").write_text("tree planted\n  kind  box\n")
    assert cli.main(["make", str(journal)]) == 0
    assert output(journal) == today


def test_git_is_told_of_all_that_is_no_part_of_a_new_journal(tmp_path: Path) -> None:
    assert cli.main(["begin", str(tmp_path / "new")]) == 0
    told = (tmp_path / "new/.gitignore").read_text().splitlines()
    assert told[1:] == [
        *("made/", "made-on/", "made-aside/", ".backbud/"),
        "# What editors leave behind.",
        *("*~", ".*.sw?", r"\#*#", ".DS_Store"),
    ]
