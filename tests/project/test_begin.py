"""`backbud begin` with a repository: what git itself makes of it."""

from __future__ import annotations

import importlib.util
import os
import shutil
import subprocess
from pathlib import Path
from typing import Any

import pytest

import backbud.commands.repository as repository
from backbud.cli import main


def git(folder: Path, *words: str) -> subprocess.CompletedProcess[str]:
    env = {**os.environ, "GIT_CONFIG_GLOBAL": os.devnull}
    named = ("-c", "user.name=x", "-c", "user.email=x@example.org")
    return subprocess.run(
        ["git", *named, *words], cwd=folder, env=env, capture_output=True, text=True
    )


@pytest.fixture(params=["dulwich", "git"])
def by(request: Any, monkeypatch: pytest.MonkeyPatch) -> str:
    if request.param == "git":
        monkeypatch.setattr(repository, "find_spec", lambda name: None)
    else:
        monkeypatch.setattr(shutil, "which", lambda name: None)
    return request.param


def test_a_repository_that_takes_the_journal_and_nothing_that_is_made(
    tmp_path: Path, by: str, capsys: Any
) -> None:
    folder = tmp_path / "trees"
    assert main(["begin", str(folder), "--git", "--hook"]) == 0
    assert "It is a git repository; nothing is committed yet." in capsys.readouterr().out
    assert main(["make", str(folder)]) == 0
    for name in ("diary/2026.txt~", "diary/.2026.txt.swp", "diary/#2026.txt#", ".DS_Store"):
        (folder / name).write_text("x")
    assert git(folder, "add", ".").returncode == 0
    listed = git(folder, "ls-files").stdout.split()
    diary = next(folder.glob("diary/*.txt")).name
    assert listed == [".gitignore", "backbud.toml", "cards/all.txt", f"diary/{diary}"]
    assert git(folder, "commit", "-q", "-m", "Begun").returncode == 0
    assert main(["since", "HEAD", str(folder)]) == 0


def test_the_hook_tells_and_stops_nothing(tmp_path: Path) -> None:
    folder = tmp_path / "trees"
    assert main(["begin", str(folder), "--git", "--hook"]) == 0
    (folder / "diary/more.txt").write_text("2026-03-01\n\nnobody\n  watered\n")
    git(folder, "add", ".")
    done = git(folder, "commit", "-q", "-m", "Begun")
    assert done.returncode == 0
    assert "diary/more.txt:3:1" in done.stdout + done.stderr
    assert "more.txt" in git(folder, "ls-files").stdout


def test_without_the_hook_none_is_there(tmp_path: Path) -> None:
    assert main(["begin", str(tmp_path / "trees"), "--git"]) == 0
    assert not (tmp_path / "trees/.git/hooks/pre-commit").exists()
    assert main(["begin", str(tmp_path / "plain")]) == 0
    assert not (tmp_path / "plain/.git").exists()


def test_where_neither_is_installed_it_is_said_and_nothing_is_written(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: Any
) -> None:
    assert importlib.util.find_spec("dulwich") is not None
    monkeypatch.setattr(repository, "find_spec", lambda name: None)
    monkeypatch.setattr(shutil, "which", lambda name: None)
    assert main(["begin", str(tmp_path / "trees"), "--git"]) == 2
    assert "neither dulwich nor git is installed" in capsys.readouterr().err
    assert not (tmp_path / "trees").exists()
    assert main(["begin", str(tmp_path / "trees"), "--hook"]) == 2
