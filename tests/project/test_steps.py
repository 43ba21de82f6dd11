"""The guide's first screen shows the steps as they run."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest

from backbud.collection.replay import replay
from backbud.journal import read
from backbud.nightly import run as nightly
from backbud.pages.render import SHEETS
from backbud.plan import run

GUIDE = (Path(__file__).parents[2] / "DEVELOPERS.md").read_text("utf-8")
READING = [
    "find", "load", "settings", "part", "cards", "home", "pages", "misplaced", "amounts",
    "remember",
]  # fmt: skip
PLANNING = [
    "hang", "name", "keep", "cycle", "settle", "shelter", "give way", "spare", "weigh", "judge",
    "foresee", "rest",
]  # fmt: skip
SHOWING = [
    "index.html", "trees.html", "weather.html", "season.html", "year-back.html", "stores.html",
    "people.html", "registers.html", "visits.html", "paper/week.html",
    "find.html",
]  # fmt: skip


def in_guide(module: str) -> list[str]:
    """The steps that stand behind a module's name in the guide's list."""
    (line,) = [line for line in GUIDE.splitlines() if line.startswith(f"| `{module}` |")]
    return line.split("|")[2].strip().split(" → ")


def test_the_guide_lists_the_steps_as_they_run() -> None:
    assert [name for name, _ in read.STEPS] == in_guide("journal/read.py") == READING
    assert [name for name, _ in run.STEPS] == in_guide("plan/run.py") == PLANNING
    assert [name for name, _ in nightly.STEPS] == in_guide("nightly/run.py")
    assert [name for name, _ in SHEETS] == in_guide("pages/render.py") == SHOWING


def test_a_step_that_is_left_out_is_not_taken(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The lists are what runs: without the step that names the misplaced, they are not told."""
    text = "tree hoshi\n  kind trident maple\n2027-03-06\nhoshi\n  watered\n"
    (tmp_path / "backbud.toml").write_text("language = 1\n")
    (tmp_path / "a.txt").write_text(f"moved\n{text}")

    def codes() -> list[str]:
        journal = read.read_journal(str(tmp_path), date(2027, 6, 1))
        assert list(replay(journal).value.trees) == ["hoshi"]
        return [flaw.flaw.code for flaw in journal.flaws]

    assert codes() == ["no-date"]
    without = tuple(one for one in read.STEPS if one[0] != "misplaced")
    monkeypatch.setattr(read, "STEPS", without)
    assert codes() == []
