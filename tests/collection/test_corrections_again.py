"""A replay that goes on in one process finds the corrections that a replay of its own would."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest

from backbud.collection import corrections
from backbud.memo import Memo
from backbud.session import Session, open_session

TODAY = date(2026, 11, 20)
CARDS = "tree hoshi\n  kind  trident maple\ntree yuki\n  kind  trident maple\n"
BEFORE = "".join(f"2025-{1 + n // 28:02}-{1 + n % 28:02}\n\nyuki\n  watered\n\n" for n in range(80))
DIARY = f"""\
{BEFORE}2026-03-01

hoshi
  repotted  2 cm off below
  pruned    left 1

2026-03-05

hoshi
  corrected repotted 2026-03-01, 3 cm off below

2026-06-01

yuki
  pruned    left 2
"""
LATER = "\n2026-06-02\n\nyuki\n  watered\n"
EDITS = {
    "a page later than all": lambda text: text + LATER,
    "a line on the day that was corrected": lambda text: (
        text + "\n2026-03-01\n\nhoshi\n  repotted  1 cm off below\n"
    ),
    "another line on the page": lambda text: text.replace("pruned    left 1", "pruned    left 3"),
    "the line itself": lambda text: text.replace("  2 cm off", "  4 cm off"),
    "other words of the correction": lambda text: text.replace("3 cm off", "5 cm off"),
    "no correction": lambda text: text.replace("corrected repotted 2026-03-01, ", "noted "),
    "another correction": lambda text: (
        text + "\n2026-06-03\n\nyuki\n  corrected pruned 2026-06-01, left 4\n"
    ),
    "a correction of the same day": lambda text: (
        text + "\n2026-06-03\n\nyuki\n  pruned left 7\n  corrected pruned 2026-06-03, left 4\n"
    ),
    "another tree": lambda text: text.replace("2026-03-01\n\nhoshi", "2026-03-01\n\nyuki"),
}


def told(session: Session) -> object:
    trees = {handle: tree.entries for handle, tree in session.histories.trees.items()}
    return trees, [(one.file, one.line, one.message) for one in session.problems()]


@pytest.mark.parametrize("edit", EDITS)
def test_it_is_as_if_read_anew(tmp_path: Path, edit: str) -> None:
    """There and back, and once with a page more before it, from which a moment is kept."""
    (tmp_path / "backbud.toml").write_text("language = 1\n")
    (tmp_path / "cards.txt").write_text(CARDS)
    diary, kept = tmp_path / "diary.txt", Memo()
    edited = EDITS[edit]
    for text in (DIARY, DIARY + LATER, edited(DIARY), DIARY, edited(DIARY + LATER), DIARY):
        diary.write_text(text)
        again = told(open_session(str(tmp_path), TODAY, kept=kept))
        kept.end()
        assert again == told(open_session(str(tmp_path), TODAY, keeps=False))


def test_they_are_sought_once(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """With a page more at the end only the later pages are gone through."""
    (tmp_path / "backbud.toml").write_text("language = 1\n")
    (tmp_path / "cards.txt").write_text(CARDS)
    sought: list[int] = []
    seek = corrections.Corrections.seek
    monkeypatch.setattr(
        corrections.Corrections, "seek", lambda self, pages: sought.append(1) or seek(self, pages)
    )
    kept = Memo()
    for n in range(3):
        (tmp_path / "diary.txt").write_text(DIARY + LATER * n)
        assert open_session(str(tmp_path), TODAY, kept=kept).histories
        kept.end()
    assert len(sought) == 1
