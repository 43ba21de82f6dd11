"""A page of lines that are kept as words, against a clean one: processor time, as a ratio.

Not part of the suite: `pytest tests/benchmarks/bench_scribbles.py -s`.
"""

from __future__ import annotations

import random
import time
from datetime import date, timedelta
from pathlib import Path

import pytest

from backbud.journal.read import read_journal

LINES = 3000
WORDS = ("a", "red", "green", "leaf", "rain", "wind", "old", "new", "moss", "nice", "slow", "early")


def _clean(pick: random.Random) -> str:
    return (
        f"wired {pick.randint(10, 40) / 10} mm Al on left {pick.randint(1, 9)}, "
        f"{pick.randint(10, 40) / 10} mm Al on apex"
    )


def _unread(pick: random.Random) -> str:
    return "the " + " ".join(pick.choices(WORDS, k=7))


def _kept(pick: random.Random) -> str:
    return "watered " + " ".join(pick.choices(WORDS, k=4))


def _seconds(folder: Path, line: object, seed: int) -> float:
    pick = random.Random(seed)
    folder.mkdir()
    (folder / "backbud.toml").write_text("language = 1\n")
    (folder / "cards.txt").write_text(
        "place yard\n  latitude 52 N\ntree hoshi\n  kind trident maple\n  since 2011\n"
    )
    out: list[str] = []
    for n in range(LINES):
        if n % 10 == 0:
            out.append(f"\n{date(2016, 1, 1) + timedelta(days=n // 10)}\n\nhoshi")
        out.append(f"  {line(pick)}")  # type: ignore[operator]
    (folder / "diary.txt").write_text("\n".join(out) + "\n")
    start = time.process_time()
    read_journal(str(folder), date(2026, 6, 2))
    return time.process_time() - start


@pytest.mark.parametrize(("line", "limit"), [(_unread, 2.5), (_kept, 6.0)])
def test_ratio(line: object, limit: float, tmp_path: Path) -> None:
    clean = min(_seconds(tmp_path / f"clean{n}", _clean, n) for n in range(3))
    odd = min(_seconds(tmp_path / f"odd{n}", line, n) for n in range(3))
    print(
        f"\n{odd / LINES * 1e6:.0f} µs a line against {clean / LINES * 1e6:.0f}, "
        f"ratio {odd / clean:.2f} (limit {limit})"
    )
    assert odd <= limit * clean
