"""Files that are synced at once are all synced, or it is told that one is not."""

from __future__ import annotations

import os
import threading
from pathlib import Path

import pytest

from backbud.publish import disk

FILES = [f"{n}.txt" for n in range(40)]


@pytest.fixture
def synced(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """The files that were synced so far, in this folder."""
    monkeypatch.chdir(tmp_path)
    for name in FILES:
        Path(name).write_text(name)
    found: list[str] = []

    def fsync(descriptor: int) -> None:
        found.append(os.path.basename(os.readlink(f"/proc/self/fd/{descriptor}")))

    monkeypatch.setattr(os, "fsync", fsync)
    return found


def test_each_is_synced_once(synced: list[str]) -> None:
    disk.sync_files(FILES)
    assert sorted(synced) == sorted(FILES)


def test_one_that_fails_is_told_and_the_others_are_synced(synced: list[str]) -> None:
    with pytest.raises(FileNotFoundError, match=r"no\.txt"):
        disk.sync_files([*FILES[:5], "no.txt"])
    assert sorted(synced) == FILES[:5]


def test_a_folder_that_is_gone_is_passed_over(tmp_path: Path) -> None:
    (tmp_path / "here").mkdir()
    disk.sync_folders([str(tmp_path / "here"), str(tmp_path / "gone")])


def test_where_no_thread_is_to_be_had(synced: list[str], monkeypatch: pytest.MonkeyPatch) -> None:
    def start(self: threading.Thread) -> None:
        raise RuntimeError("can't start new thread")

    monkeypatch.setattr(threading.Thread, "start", start)
    disk.sync_files(FILES)
    assert sorted(synced) == sorted(FILES)
