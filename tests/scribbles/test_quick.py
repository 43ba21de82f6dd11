"""A page of lines that are kept as words costs hardly more than a clean one: work is counted.

Seconds are measured in tests/benchmarks/bench_scribbles.py.
"""

from __future__ import annotations

import random
from datetime import date
from pathlib import Path
from tempfile import TemporaryDirectory

import pytest

import backbud_grammar.details as details
import backbud_grammar.problems as problems
import backbud_grammar.scribbles.line_reader as line_reader
from backbud.journal.read import read_journal
from backbud.session import open_session

WORDS = ("a", "red", "green", "leaf", "rain", "wind", "old", "new", "moss", "nice", "slow", "early")
LINES = 200


def _read(lines: list[str]) -> int:
    """Read a journal of such lines; how many of them have a problem."""
    with TemporaryDirectory() as folder:
        Path(folder, "backbud.toml").write_text("language = 1\n")
        Path(folder, "cards.txt").write_text(
            "place yard\n  latitude 52 N\ntree hoshi\n  kind trident maple\n  since 2011\n"
        )
        Path(folder, "diary.txt").write_text(
            "2026-01-05\n\nhoshi\n" + "".join(f"  {one}\n" for one in lines)
        )
        journal = read_journal(folder, date(2026, 6, 2))
        return sum(one.flaw.severity != "kept" for one in journal.flaws)


class _Counted:
    """Counts the calls of a function, and calls it."""

    def __init__(self, monkeypatch: pytest.MonkeyPatch, module: object, name: str) -> None:
        self.times, of = 0, getattr(module, name)

        def counted(*args: object, **named: object) -> object:
            self.times += 1
            return of(*args, **named)

        monkeypatch.setattr(module, name, counted)


@pytest.mark.parametrize("begin", ["the ", "watered "])
def test_no_hint_is_sought_for_words_that_are_kept(
    begin: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    pick = random.Random(4)
    lines = [begin + " ".join(pick.choices(WORDS, k=6)) for _ in range(LINES)]
    tried = _Counted(monkeypatch, details, "_read_one")
    hints = _Counted(monkeypatch, problems.Misread, "hint")
    found = _read(lines)
    assert found == 0
    # Once for each way in which a detail of so few words may be cut would be two thousand.
    assert tried.times < LINES
    assert hints.times == 0


def test_each_line_is_parted_once(monkeypatch: pytest.MonkeyPatch) -> None:
    parted = _Counted(monkeypatch, line_reader, "sentences")
    _read(["wire off left 1, with a red moss cat"] * 50)
    assert parted.times == 1


def test_a_flood_above_changes_no_line() -> None:
    """However much is kept or wrong above it, a line is read the same."""
    with TemporaryDirectory() as folder:
        Path(folder, "backbud.toml").write_text("language = 1\n")
        Path(folder, "cards.txt").write_text(
            "place yard\n  latitude 52 N\ntree hoshi\n  kind trident maple\n  since 2011\n"
        )
        flood = "".join(f"  watered zyxxy {n}\n" for n in range(500))
        Path(folder, "diary.txt").write_text(
            f"2026-01-05\n\nhoshi\n{flood}  rptd, 1/3 off btm\n", encoding="utf-8"
        )
        entries = open_session(folder, date(2026, 6, 2)).histories.trees["hoshi"].entries
        last = max((one.event for one in entries), key=lambda event: event.line)
        assert (last.act, last.text) == ("repotted", "1/3 off below")
