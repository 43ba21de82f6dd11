"""Neovim and Emacs, as Debian ships them, are set up by the README and edit a journal."""

from __future__ import annotations

import json
import os
import re
import shutil
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest
from tests.editor.conftest import CARDS, DIARY, TODAY, write_journal

from backbud_grammar.editors.generate import write

HERE = Path(__file__).parent
ROOT = HERE.parents[1]
BIN = Path(sys.executable).parent
WRONG = DIARY.replace("hoshi, yuki\n", "hoshi, yuko\n")


def from_readme(language: str) -> str:
    """The set-up as the README shows it, for the day of the tests."""
    text = (ROOT / "README.md").read_text("utf-8")
    found = re.search(rf"^```{language}\n(.*?)^```$", text, re.MULTILINE | re.DOTALL)
    assert found is not None
    plain = '"backbud", "editor"' if language == "lua" else '"backbud" "editor"'
    dated = {"lua": f'{plain}, "--on", "{TODAY}"', "elisp": f'{plain} "--on" "{TODAY}"'}
    assert plain in found[1]
    return found[1].replace(plain, dated[language])


@pytest.fixture
def journal(tmp_path: Path) -> Path:
    folder = tmp_path / "journal"
    folder.mkdir()
    write_journal(folder, WRONG)
    return folder


def told(command: list[str], folder: Path, tmp_path: Path) -> dict[str, Any]:
    """What the editor wrote down."""
    out = tmp_path / "told.json"
    done = subprocess.run(
        command,
        cwd=folder,
        capture_output=True,
        text=True,
        timeout=120,
        check=False,
        env={
            **os.environ,
            "PATH": f"{BIN}{os.pathsep}{os.environ['PATH']}",
            "HOME": str(tmp_path),
            "TOLD": str(out),
            "DIARY": str(folder / "diary.txt"),
            "CARDS": str(folder / "cards.txt"),
        },
    )
    assert out.exists(), f"{done.stdout}\n{done.stderr}"
    found: dict[str, Any] = json.loads(out.read_text("utf-8"))
    return found


def check_all(found: dict[str, Any], folder: Path) -> None:
    """The same is true in either editor."""
    assert "**hoshi** – trident maple" in found["hover"]
    assert "due: check wire on left 2" in found["hover"]
    assert found["mended"] == "hoshi, yuki"
    assert found["completed"] == "kōyō"
    assert found["renamed"] == "hoshi, snow"
    assert found["card"] == ["tree snow", "  formerly yuki"]
    assert found["tidied"] == "  watered     -- dry east wind"
    assert found["jumped"] == ["cards.txt", 11]
    # Nothing was saved, so nothing was written.
    assert (folder / "diary.txt").read_text() == WRONG
    assert (folder / "cards.txt").read_text() == CARDS
    assert sorted(path.name for path in folder.iterdir()) == [
        "backbud.toml", "cards.txt", "diary.txt",
    ]  # fmt: skip


@pytest.mark.skipif(shutil.which("nvim") is None, reason="neovim is not installed")
def test_neovim(journal: Path, tmp_path: Path) -> None:
    (tmp_path / "init.lua").write_text(from_readme("lua"))
    command = ["nvim", "--headless", "-n", "-i", "NONE", "-u", str(tmp_path / "init.lua"),
               "diary.txt", "-c", f"luafile {HERE / 'in_neovim.lua'}", "-c", "cquit"]  # fmt: skip
    found = told(command, journal, tmp_path)
    message, line, column, end, source = found["problem"]
    assert message.startswith("nothing is called “yuko”")
    assert (line, column, end, source) == (7, 7, 11, "backbud")
    assert found["fixes"][:2] == ["Write “yuki”", "Give it a card: tree yuko (in cards.txt)"]
    check_all(found, journal)


@pytest.mark.skipif(shutil.which("emacs") is None, reason="emacs is not installed")
def test_emacs(journal: Path, tmp_path: Path) -> None:
    write(tmp_path / "editors")
    set_up = from_readme("elisp").replace("FOLDER", str(tmp_path / "editors"))
    (tmp_path / "init.el").write_text(
        f"(setq make-backup-files nil auto-save-default nil create-lockfiles nil)\n{set_up}"
    )
    command = ["emacs", "--batch", "-l", str(tmp_path / "init.el"), "-l",
               str(HERE / "in_emacs.el")]  # fmt: skip
    found = told(command, journal, tmp_path)
    message, marked = found["problem"]
    assert "nothing is called “yuko”" in message and marked == "yuko"
    assert found["fixes"][:2] == ["Write “yuki”", "Give it a card: tree yuko (in cards.txt)"]
    check_all(found, journal)
