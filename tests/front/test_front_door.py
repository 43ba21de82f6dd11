"""A program's view of a journal: what it is given, and that nothing is written, run or believed."""

from __future__ import annotations

import os
import pickle
import re
import shutil
import subprocess
import sys
from datetime import date
from pathlib import Path
from typing import get_args

import pytest

import backbud
from backbud import front
from backbud.consent.files import read_plugins
from backbud.consent.record import record
from backbud.front import NotAJournal, NotMade, Output, State, made_of, read
from backbud.make import make
from backbud.person import CONFIG_VARIABLE
from backbud.publish.memory import MemoryOf
from backbud.session import open_session
from backbud.words import number

ROOT = Path(__file__).parents[2]
DAY = date(2026, 11, 20)
JOURNAL = """\
place yard
  latitude  52 N
tree hoshi
  kind      trident maple
  place     yard
tree yuki
  kind      satsuki azalea
  place     yard
2026-05-01
hoshi
  wired     3 mm Al on left 1
yuki
  died
2026-06-01
hoshi
  planned   repot, to 2027-03-01/2027-03-20
  frobbed   twice
"""


@pytest.fixture
def nobody(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """The folder for settings of a person who has none yet."""
    folder = tmp_path / "settings"
    monkeypatch.setenv(CONFIG_VARIABLE, str(folder))
    return folder


@pytest.fixture
def journal(tmp_path: Path, nobody: Path) -> Path:
    folder = tmp_path / "journal"
    folder.mkdir()
    (folder / "backbud.toml").write_text('language = 1\nname = "The yard"\nhome = "yard"\n')
    (folder / "journal.txt").write_text(JOURNAL)
    return folder


def everything(folder: Path) -> dict[str, tuple[int, bytes]]:
    """Each file below a folder, when it was written and its bytes; and each folder."""
    return {
        str(path): (path.stat().st_mtime_ns, path.read_bytes() if path.is_file() else b"")
        for path in [folder, *folder.rglob("*")]
    }


# ------------------------------------------------------------------ what it gives


def test_a_journal_on_a_day(journal: Path) -> None:
    found = read(journal, on=DAY)
    assert (found.folder, found.name, found.on) == (str(journal), "The yard", DAY)
    assert [(tree.handle, tree.kind, tree.here) for tree in found.trees.values()] == [
        ("hoshi", "trident maple", True),
        ("yuki", "satsuki azalea", False),
    ]
    assert [(e.day.isoformat(), e.subjects, e.written, str(e.origin)) for e in found.events][
        :3
    ] == [
        ("2026-05-01", "hoshi", "wired 3 mm Al on left 1", "journal.txt:11"),
        ("2026-05-01", "yuki", "died", "journal.txt:13"),
        ("2026-06-01", "hoshi", "planned repot, to 2027-03-01/2027-03-20", "journal.txt:16"),
    ]
    assert tuple(found.follow_ups) == get_args(State)
    planned = [one for one in found.follow_ups["coming"] if one.planned]
    assert [(one.tree, one.act, one.window.opens, one.window.closes) for one in planned] == [
        ("hoshi", "repotted", date(2027, 3, 1), date(2027, 3, 20))
    ]
    # What begins with no act is kept as words, and is no problem.
    assert found.problems == ()
    assert found.events[-1].kept == ("frobbed twice",)
    assert found.left_out == ""


def test_how_a_follow_up_stands_goes_by_the_day(journal: Path) -> None:
    def planned(on: date) -> list[State]:
        found = read(journal, on=on).follow_ups
        return [state for state, those in found.items() for one in those if one.planned]

    assert planned(date(2027, 2, 28)) == ["coming"]
    assert planned(date(2027, 3, 1)) == ["now"]
    assert planned(date(2027, 3, 20)) == ["now"]
    assert planned(date(2027, 3, 21)) == ["overdue"]


def test_a_line_dated_later_is_told_or_left_out(journal: Path) -> None:
    early = date(2026, 5, 15)
    told, left_out = read(journal, on=early), read(journal, on=early, as_of=True)
    assert [(one.code, one.line) for one in told.problems] == [("future-date", 14)]
    assert left_out.problems == ()
    assert told.trees == left_out.trees
    assert told.follow_ups == left_out.follow_ups


def test_what_was_given_can_be_sent_to_another_process(journal: Path) -> None:
    for value in (read(journal, on=DAY), made_of(journal, DAY), made_of(journal / "no", DAY)):
        assert pickle.loads(pickle.dumps(value)) == value
        with pytest.raises(AttributeError):
            value.problems = ()  # type: ignore[misc]


def test_all_is_offered_by_the_package_and_nothing_else() -> None:
    assert set(backbud.__all__) == set(front.__all__)
    assert [getattr(backbud, name) for name in backbud.__all__] == [
        getattr(front, name) for name in backbud.__all__
    ]
    with pytest.raises(AttributeError, match="no attribute 'nothing'"):
        _ = backbud.nothing


def test_to_import_the_package_loads_nothing_else() -> None:
    code = (
        "import sys; before = set(sys.modules); import backbud;"
        "print(*sorted(set(sys.modules) - before))"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout == "backbud\n"


# ------------------------------------------------------------------ what is made


def test_what_is_made_is_what_make_publishes(journal: Path) -> None:
    """The second time an entry is new; those that were published before keep their stamp."""
    for day, more in ((DAY, ""), (date(2026, 11, 21), "  planned   prune, to 2027-04-01\n")):
        with (journal / "journal.txt").open("a") as file:
            file.write(more)
        foretold = made_of(journal, day)
        done = make(str(journal), day)
        assert isinstance(foretold, Output)
        published = {
            path.relative_to(journal / "made").as_posix(): path.read_bytes()
            for path in (journal / "made").rglob("*")
            if path.is_file() and path.name != ".manifest"
        }
        assert foretold.files == published
        assert foretold.problems == done.problems
        figures = (
            f"1 tree here: {number(foretold.overdue, 'work')} overdue, {foretold.now} now, "
            f"{foretold.coming} coming."
        )
        assert done.summary.splitlines()[0] == figures
    stamps = re.findall(rb"^DTSTAMP:(\d{8})T", foretold.files["calendars/all.ics"], re.M)
    assert set(stamps) == {b"20261120", b"20261121"}
    # The plan to repot, among others, so the figures are not all naught.
    assert foretold.coming > 0


def test_a_journal_that_lost_a_file_is_not_made(journal: Path) -> None:
    make(str(journal), DAY)
    (journal / "journal.txt").write_bytes(b"")
    found = made_of(journal, DAY)
    assert isinstance(found, NotMade)
    assert (found.folder, found.sentence) == (str(journal), "Not read as a whole: journal.txt.")
    assert [(one.code, one.file) for one in found.problems][:1] == [("empty-file", "journal.txt")]


def test_no_journal_is_told_in_a_sentence(tmp_path: Path, nobody: Path) -> None:
    sentence = f"{tmp_path} holds no journal (no backbud.toml)."
    with pytest.raises(NotAJournal, match=re.escape(sentence)):
        read(tmp_path, on=DAY)
    assert made_of(str(tmp_path), DAY) == NotMade(str(tmp_path), sentence)


def test_settings_that_are_no_toml_are_a_problem(journal: Path) -> None:
    (journal / "backbud.toml").write_text("language =\n")
    assert "bad-settings" in [one.code for one in read(journal, on=DAY).problems]


def test_a_folder_that_cannot_be_listed_is_told(
    journal: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def refuse(path: object) -> object:
        raise PermissionError(13, "Permission denied", str(path))

    monkeypatch.setattr(os, "scandir", refuse)
    sentence = f"{journal}: Permission denied."
    with pytest.raises(NotAJournal, match=re.escape(sentence)):
        read(journal, on=DAY)
    assert made_of(journal, DAY) == NotMade(str(journal), sentence)


def test_a_fault_of_ours_is_told_and_the_next_is_made(
    journal: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    with monkeypatch.context() as patch:
        patch.setattr(front, "compiled", lambda session: 1 // 0)
        found = made_of(journal, DAY)
    assert isinstance(found, NotMade)
    assert found.sentence.startswith("ZeroDivisionError: ")
    assert isinstance(made_of(journal, DAY), Output)


# ------------------------------------------------------------------ nothing is written


def test_nothing_is_written_unless_asked(journal: Path, nobody: Path) -> None:
    """A town is sought, and many pages are new: what a run remembers otherwise."""
    text = JOURNAL.replace("latitude  52 N", "town      Seattle")
    days = "".join(f"2026-07-{day:02}\nhoshi\n  fed {day} g/L\n" for day in range(1, 31))
    (journal / "journal.txt").write_text(text + days)
    before = everything(journal)
    read(journal, on=DAY)
    read(journal, on=date(2026, 5, 15), as_of=True)
    assert isinstance(made_of(journal, DAY), Output)
    assert everything(journal) == before
    assert not nobody.exists()
    read(journal, on=DAY, remember=True)
    assert {path.name for path in (journal / ".backbud").iterdir()} >= {
        "syntax.msgpack",
        "kinds",
        "towns.json",
    }
    assert (nobody / "secret").stat().st_size == 32


def test_what_make_left_is_not_touched(journal: Path) -> None:
    make(str(journal), DAY)
    before = everything(journal)
    with (journal / "journal.txt").open("a") as file:
        file.write("  fed 4 g/L\n")
    before[str(journal / "journal.txt")] = everything(journal)[str(journal / "journal.txt")]
    assert isinstance(made_of(journal, date(2026, 11, 21)), Output)
    read(journal, on=date(2026, 11, 21))
    assert everything(journal) == before


# ------------------------------------------------------------------ a stranger's journal


def test_what_a_stranger_remembers_is_not_believed(
    journal: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """They say that every kind of tree in it is known; under their own secret that counts."""
    text = JOURNAL.replace("trident maple", "glass thorn")
    (journal / "journal.txt").write_text(text)
    program = open_session(str(journal), DAY, keeps=False)._program
    MemoryOf(str(journal)).keep("kinds", f"{program}\nglass thorn\nsatsuki azalea".encode())

    def codes() -> list[str]:
        return [one.code for one in read(journal, on=DAY).problems]

    assert "unknown-species" not in codes()
    monkeypatch.setenv(CONFIG_VARIABLE, str(tmp_path / "mine"))
    assert "unknown-species" in codes()


def test_code_runs_only_where_it_is_trusted(journal: Path, tmp_path: Path) -> None:
    ran = tmp_path / "ran"
    (journal / "plugins").mkdir()
    (journal / "plugins" / "own.py").write_text(f"interface = 1\nopen({str(ran)!r}, 'w').close()\n")
    made = made_of(journal, DAY)
    assert isinstance(made, Output)
    sentence = f"Left out: 1 plugin file in plugins/, which you have not trusted. Look at it: \
backbud trust {journal}"
    assert (read(journal, on=DAY).left_out, made.left_out) == (sentence, sentence)
    assert not ran.exists()
    record(str(journal), read_plugins(str(journal)).files)
    assert read(journal, on=DAY).left_out == ""
    assert ran.exists()


def test_git_is_not_run(journal: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    ran, folder = tmp_path / "ran", tmp_path / "bin"
    folder.mkdir()
    (folder / "git").write_text(f"#!/bin/sh\ntouch {ran}\n")
    (folder / "git").chmod(0o755)
    monkeypatch.setenv("PATH", str(folder), prepend=os.pathsep)
    (journal / ".git").mkdir()
    (journal / ".git" / "config").write_text(f"[core]\n  fsmonitor = touch {ran}\n")
    (journal / ".gitignore").write_text("*.bak\n")
    read(journal, on=DAY)
    made_of(journal, DAY)
    assert not ran.exists()
    subprocess.run(["git", "status"], cwd=journal, check=True)
    assert ran.exists()


# ------------------------------------------------------------------ what the README says


def readme(number: int) -> str:
    """A Python example of the README as it stands there."""
    return re.findall(r"^```python\n(.*?)^```$", (ROOT / "README.md").read_text(), re.M | re.S)[
        number
    ]


def run(code: str, folder: Path) -> list[str]:
    script = folder / "example.py"
    script.write_text(code)
    done = subprocess.run(
        [sys.executable, str(script)], cwd=folder, capture_output=True, text=True, check=False
    )
    assert done.returncode == 0, done.stderr
    return done.stdout.splitlines()


def test_the_six_lines_of_the_readme(tmp_path: Path, nobody: Path) -> None:
    code = readme(0)
    assert len([line for line in code.splitlines() if line]) == 6
    left = shutil.ignore_patterns("made", ".backbud")
    shutil.copytree(ROOT / "example_journal", tmp_path / "example_journal", ignore=left)
    before = everything(tmp_path / "example_journal")
    *works, figures = run(code, tmp_path)
    found = read(tmp_path / "example_journal", on=DAY)
    assert works == [f"{f.tree} {f.title} {f.window.closes}" for f in found.follow_ups["now"]] != []
    assert figures == f"26 trees, {len(found.events)} acts, 0 problems"
    assert everything(tmp_path / "example_journal") == before


def test_many_journals_as_the_readme_has_it(journal: Path, tmp_path: Path) -> None:
    many = tmp_path / "journals"
    shutil.copytree(journal, many / "a")
    (many / "b").mkdir()
    made = made_of(many / "a", DAY)
    assert isinstance(made, Output)
    assert run(readme(1), tmp_path) == [
        f"{len(made.files)} files",
        "journals/b holds no journal (no backbud.toml).",
    ]
