"""A line in other words reads the same on every run, however it was remembered."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest

from backbud.collection.fold import tree_on
from backbud.session import open_session

DIARY = """
place yard
  latitude  52
tree hoshi
  kind      trident maple

2026-03-06
hoshi
  {}
"""


@pytest.mark.parametrize(
    ("line", "act"), [("rptd same pot", "repotted"), ("repotted same pot", "repotted")]
)
def test_a_line_reads_the_same_a_second_time(tmp_path: Path, line: str, act: str) -> None:
    (tmp_path / "backbud.toml").write_text("language = 1\n")
    (tmp_path / "diary.txt").write_text(DIARY.format(line))
    for _ in range(3):
        session = open_session(str(tmp_path), date(2026, 4, 1))
        assert [one.code for one in session.problems()] == []
        hoshi = tree_on(session.histories, session.journal.things, "hoshi", session.today)
        assert [entry.event.written for entry in hoshi.history] == [f"{act} same pot"]


def test_words_that_become_the_keepers_own_are_read_anew(tmp_path: Path) -> None:
    (tmp_path / "backbud.toml").write_text("language = 1\n")
    (tmp_path / "diary.txt").write_text(DIARY.format("rptd same pot"))
    open_session(str(tmp_path), date(2026, 4, 1)).problems()
    (tmp_path / "words.txt").write_text("words mine\n  since  2026-01-01\n  zzap  fed\n")
    session = open_session(str(tmp_path), date(2026, 4, 1))
    assert session.problems() == ()
    assert "hoshi" in session.histories.trees
