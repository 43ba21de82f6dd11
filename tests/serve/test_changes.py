"""What counts as a change, when it is told, and that none is missed."""

from __future__ import annotations

import os
import shutil
import threading
import time
import warnings
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

from backbud.consent.files import read_plugins
from backbud.consent.record import record
from backbud.person import CONFIG_VARIABLE
from backbud.serve import changes
from backbud.serve.changes import Changes, Waiting, look, matters, with_change

PATIENCE_S = 10.0


@pytest.mark.parametrize(
    "path",
    [
        "diary/2026.txt",
        "cards",
        "backbud.toml",
        ".gitignore",
        "diary/.gitignore",
        "weather/seattle.csv",
        "photos/hoshi.jpg",
        "plugins/elm.py",
        "diary/made/2026.txt",  # only the output folder itself is ours
        "diary\\2026.txt",
    ],
)
def test_what_matters(path: str) -> None:
    assert matters(path)


@pytest.mark.parametrize(
    "path",
    [
        "made",
        "made/index.html",
        "made/trees/hoshi.html",
        ".backbud/syntax.msgpack",
        ".git/HEAD",
        "diary/.git/index",
        "diary/.2026.txt.swp",
        "diary/2026.txt~",
        "diary/4913",
        "diary/#2026.txt#",
        "diary/.#2026.txt",
        "diary/2026.txt.tmp",
        "diary/2026.txt.crswap",
        ".DS_Store",
    ],
)
def test_what_does_not(path: str) -> None:
    assert not matters(path)


def test_changes_wait_for_quiet() -> None:
    waiting = with_change(None, 100.0)
    assert waiting == Waiting(100.0, 100.0)
    assert waiting.due == pytest.approx(100.03)
    assert with_change(waiting, 100.02).due == pytest.approx(100.05)


def test_nobody_waits_for_quiet_for_ever() -> None:
    waiting: Waiting | None = None
    for step in range(100):
        waiting = with_change(waiting, 100.0 + step / 100)
    assert waiting is not None
    assert waiting.due == pytest.approx(100.5)


def test_a_look_knows_every_file_that_matters(journal: Path) -> None:
    (journal / "made").mkdir()
    (journal / "made" / "index.html").write_text("x")
    (journal / "diary" / "2026.txt~").write_text("x")
    assert sorted(look(str(journal))) == ["backbud.toml", "cards/trees.txt", "diary/2026.txt"]
    assert look(str(journal / "nowhere")) == {}


class Told:
    """Counts how often a change was told."""

    def __init__(self, folder: Path) -> None:
        self.day = 1
        self._turned = threading.Condition()
        self._count = 0
        self.changes = Changes(str(folder), self._tell, lambda: self.day)
        self.changes.start()
        self.wait()

    def _tell(self) -> None:
        with self._turned:
            self._count += 1
            self._turned.notify_all()

    def wait(self) -> None:
        """Wait for the next that is told; what followed at once is the same change."""
        with self._turned:
            assert self._turned.wait_for(lambda: self._count > 0, PATIENCE_S), "nothing was told"
        time.sleep(0.2)
        with self._turned:
            self._count = 0

    def nothing(self, seconds: float) -> None:
        with self._turned:
            assert not self._turned.wait_for(lambda: self._count > 0, seconds), "told of nothing"


@pytest.fixture
def told(journal: Path) -> Iterator[Told]:
    one = Told(journal)
    yield one
    one.changes.stop()


def save(folder: Path) -> None:
    with (folder / "diary" / "2026.txt").open("a") as file:
        file.write("\n")


def save_by_rename(folder: Path) -> None:
    new = folder / "diary" / ".2026.txt.new"
    new.write_text("2026-03-07\n")
    os.replace(new, folder / "diary" / "2026.txt")


def save_with_backup(folder: Path) -> None:
    """As some editors do: the old file is renamed, a new one is written."""
    path = folder / "diary" / "2026.txt"
    os.rename(path, f"{path}~")
    path.write_text("2026-03-07\n")


def new_folder(folder: Path) -> None:
    (folder / "diary" / "2027").mkdir()
    (folder / "diary" / "2027" / "01.txt").write_text("2027-01-01\n")


def folder_gone(folder: Path) -> None:
    shutil.rmtree(folder / "diary")


def folder_moved_away(folder: Path) -> None:
    os.rename(folder / "diary", folder.parent / "diary")


@pytest.mark.parametrize(
    "change",
    [save, save_by_rename, save_with_backup, new_folder, folder_gone, folder_moved_away],
)
def test_a_change_is_told(journal: Path, told: Told, change: Callable[[Path], None]) -> None:
    change(journal)
    told.wait()


def test_a_file_in_a_folder_that_came_later_is_heard_too(journal: Path, told: Told) -> None:
    new_folder(journal)
    told.wait()
    (journal / "diary" / "2027" / "01.txt").write_text("2027-01-02\n")
    told.wait()


def test_a_folder_that_was_moved_away_and_came_back_is_watched_again(
    journal: Path, told: Told
) -> None:
    folder_moved_away(journal)
    told.wait()
    os.rename(journal.parent / "diary", journal / "diary")
    told.wait()
    save(journal)
    told.wait()


def test_the_whole_journal_may_be_moved_away_and_come_back(journal: Path, told: Told) -> None:
    away = journal.parent / "away"
    os.rename(journal, away)
    told.wait()
    shutil.copytree(away, journal)
    told.wait()
    save(journal)
    told.wait()


def test_reading_and_what_is_written_into_the_output_is_no_change(
    journal: Path, told: Told
) -> None:
    (journal / "made").mkdir()
    (journal / "made" / "index.html").write_text("x")
    (journal / ".backbud").mkdir()
    (journal / ".backbud" / "lock").write_text("1")
    (journal / "diary" / "2026.txt").read_text()
    (journal / "diary" / ".2026.txt.swp").write_text("x")
    told.nothing(changes.LOOK_SECONDS + 0.5)


def test_what_the_system_does_not_tell_is_found(
    journal: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(Changes, "_heard", lambda self, event: None)
    told = Told(journal)
    try:
        save(journal)
        told.wait()
    finally:
        told.changes.stop()


def test_a_new_day_is_a_change(told: Told) -> None:
    told.day = 2
    told.wait()


def test_that_the_journals_code_is_trusted_is_a_change(
    journal: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """It is recorded where no message of the system comes from."""
    monkeypatch.setenv(CONFIG_VARIABLE, str(journal.parent / "config"))
    (journal / "plugins").mkdir()
    (journal / "plugins" / "elm.py").write_text("")
    told = Told(journal)
    try:
        told.nothing(changes.LOOK_SECONDS + 0.5)
        record(str(journal), read_plugins(str(journal)).files)
        told.wait()
    finally:
        told.changes.stop()


def test_what_the_watcher_warns_of_is_not_told_to_the_keeper(journal: Path) -> None:
    """It warned of folders that appeared while it listed them, over three thousand letters long."""
    with warnings.catch_warnings(record=True) as heard:
        warnings.simplefilter("always")
        told = Told(journal)
        warnings.warn_explicit(
            "already exists", RuntimeWarning, "inotify.py", 1, "watchdog.observers.inotify"
        )
        warnings.warn_explicit("of another", RuntimeWarning, "other.py", 1, "other")
        told.changes.stop()
    assert [str(one.message) for one in heard] == ["of another"]
