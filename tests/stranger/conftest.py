"""A small journal, as its keeper left it and as a stranger ships it."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest

from backbud.make import Made, make

TODAY = date(2026, 11, 20)
DIARY = """\
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
  noted     two thick roots crossed
yuki
  pruned    2 cm off on apex
"""


@pytest.fixture
def journal(tmp_path: Path) -> Path:
    """A journal in which nothing was made yet."""
    folder = tmp_path / "journal"
    folder.mkdir()
    (folder / "backbud.toml").write_text('language = 1\nhome = "yard"\n')
    (folder / "journal.txt").write_text(DIARY)
    return folder


def made(folder: Path) -> Made:
    """One run of make, as of the day."""
    return make(str(folder), TODAY)


def output(folder: Path, name: str = "made") -> dict[str, bytes]:
    """All files of a folder of output."""
    root = folder / name
    return {
        path.relative_to(root).as_posix(): path.read_bytes()
        for path in sorted(root.rglob("*"))
        if path.is_file()
    }
