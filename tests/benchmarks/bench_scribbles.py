"""Pages of lines that are kept as words, against clean ones: processor time, as a ratio.

Hardly any line stands there twice. Not part of the suite:
`pytest tests/benchmarks/bench_scribbles.py -s`.
"""

from __future__ import annotations

import random
import re
import time
from datetime import date, timedelta
from functools import cache
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


# Rain may have watered it: beside that work it is asked, and no words that are kept.
BESIDE = tuple(word for word in WORDS if word != "rain")


def _kept(pick: random.Random) -> str:
    return "watered " + " ".join(pick.choices(BESIDE, k=4))


def _some_unread(pick: random.Random) -> str:
    return (_unread if pick.randrange(3) == 0 else _clean)(pick)


def _some_kept(pick: random.Random) -> str:
    return (_kept if pick.randrange(3) == 0 else _clean)(pick)


def _scribbled(pick: random.Random) -> str:
    """A line of one of the hands, with other figures."""
    return re.sub(r"\d+", lambda _: str(pick.randint(1, 40)), pick.choice(_lines()))


@cache
def _lines() -> list[str]:
    files = sorted((Path(__file__).parents[1] / "scribbles" / "hands").glob("*.tsv"))
    rows = [row for file in files for row in file.read_text(encoding="utf-8").splitlines()]
    return [row.split("\t")[2].strip() for row in rows if row and not row.startswith("#")]


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
    journal = read_journal(str(folder), date(2026, 6, 2))
    took = time.process_time() - start
    if line in (_kept, _some_kept):
        assert all(one.flaw.severity == "kept" for one in journal.flaws)
    return took


def _ratio(line: object, folder: Path) -> float:
    """How many times as long as a clean page a page of these lines takes, each at its best."""
    clean, odd = [], []
    for n in range(5):
        # In turn, so that a busy machine is busy for both.
        clean.append(_seconds(folder / f"clean{n}", _clean, n))
        odd.append(_seconds(folder / f"odd{n}", line, n))
    ratio = min(odd) / min(clean)
    each = [f"{min(those) / LINES * 1e6:.0f}" for those in (odd, clean)]
    print(f"\n{each[0]} µs a line against {each[1]}, ratio {ratio:.2f}")
    return ratio


@pytest.mark.parametrize("line", [_unread, _kept, _some_unread, _some_kept])
def test_a_page_of_kept_words_is_no_slower_than_twice(line: object, tmp_path: Path) -> None:
    assert _ratio(line, tmp_path) <= 2.0


def test_lines_of_the_hands(tmp_path: Path) -> None:
    """Their acts are read, in other words than those of the tables, and what is wrong is told with
    hints: that takes far longer. The limit only keeps it from growing."""
    assert _ratio(_scribbled, tmp_path) <= 60
