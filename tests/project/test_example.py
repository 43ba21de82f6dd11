"""The example journal: no problem in any line, believable, and compiled twice to the same bytes."""

from __future__ import annotations

import shutil
from datetime import date
from pathlib import Path

from backbud.make import make
from backbud.session import open_session

EXAMPLE = Path(__file__).parents[2] / "example_journal"
LAST_DAY = date(2026, 11, 25)


def copied(tmp_path: Path, name: str = "journal") -> Path:
    folder = tmp_path / name
    shutil.copytree(EXAMPLE, folder, ignore=shutil.ignore_patterns("made", ".backbud"))
    return folder


def files_of(folder: Path) -> dict[str, bytes]:
    return {str(p.relative_to(folder)): p.read_bytes() for p in folder.rglob("*") if p.is_file()}


def test_not_one_line_gives_a_problem(tmp_path: Path) -> None:
    session = open_session(str(copied(tmp_path)), LAST_DAY)
    assert session.problems() == ()


def test_it_holds_what_a_nursery_has(tmp_path: Path) -> None:
    session = open_session(str(copied(tmp_path)), LAST_DAY)
    trees = session.plan().trees
    kinds = {tree.kind for tree in trees.values()}
    assert kinds == {
        "satsuki azalea",
        "trident maple",
        "Japanese black pine",
        "Chinese juniper",
    }
    assert len(trees) >= 16
    standings = {tree.standing for tree in trees.values()}
    assert {"here", "sold", "died", "returned"} <= standings
    acts = {entry.event.act for tree in trees.values() for entry in tree.history}
    assert {"repotted", "wired", "unwired", "protected", "corrected", "planned", "vigour"} <= acts
    days = [entry.event.day for t in trees.values() for entry in t.history if entry.event.exact]
    assert (max(days) - date(2023, 11, 24)).days >= 3 * 360


def test_builds_and_rebuilds_give_the_same_bytes(tmp_path: Path) -> None:
    """Elsewhere, from memory, and with no memory of what was made."""
    one, two = copied(tmp_path, "one"), copied(tmp_path, "two")
    make(str(one), LAST_DAY)
    make(str(two), LAST_DAY)
    clean = files_of(one / "made")
    assert files_of(two / "made") == clean
    again = make(str(one), LAST_DAY)
    assert (again.written, again.removed) == (0, 0)
    assert files_of(one / "made") == clean
    shutil.rmtree(one / ".backbud")
    make(str(one), LAST_DAY)
    assert files_of(one / "made") == clean
