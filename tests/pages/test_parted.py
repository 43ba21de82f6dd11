"""A week on paper of very many boxes is a page of each place, and nothing stands on two of them."""

from __future__ import annotations

import re
import shutil
from datetime import date
from pathlib import Path

import pytest
from tests.project.test_example import EXAMPLE

from backbud.front import NotMade, made_of
from backbud.pages import parted

STRAY = "\ntree stray\n  kind   trident maple\n  since  2015\n"


def test_trees_that_are_away_and_trees_of_no_place_share_a_page(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Both have no place: at 100,000 acts the journal had both, and could not be made."""
    monkeypatch.setattr(parted, "MOST_BOXES", 0)
    folder = tmp_path / "example"
    shutil.copytree(EXAMPLE, folder, ignore=shutil.ignore_patterns("made*", ".backbud"))
    (folder / "cards" / "stray.txt").write_text(STRAY)
    found = made_of(folder, date(2026, 11, 29))
    assert not isinstance(found, NotMade)
    weeks = {path: data.decode() for path, data in found.files.items() if "paper/week" in path}
    boxes = {path: set(re.findall(r"trees/([a-z-]+)\.html", page)) for path, page in weeks.items()}
    assert boxes["paper/week.html"] == set()
    assert {"stray", "cinder", "bosun"} == boxes["paper/week-_.html"]
    assert {"puffin"} == boxes["paper/week-corner.html"]
