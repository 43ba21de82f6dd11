"""The mark of the language changes with every file of it, those in folders too."""

from __future__ import annotations

from pathlib import Path

from backbud_grammar.version import sources_mark


def mark_of(folder: Path) -> str:
    sources_mark.cache_clear()
    return sources_mark(str(folder))


def test_a_file_in_a_folder_below_counts(tmp_path: Path) -> None:
    (tmp_path / "acts").mkdir()
    (tmp_path / "acts" / "roots.py").write_text("MINUTES = 60\n")
    before = mark_of(tmp_path)
    assert mark_of(tmp_path) == before
    (tmp_path / "acts" / "roots.py").write_text("MINUTES = 61\n")
    changed = mark_of(tmp_path)
    (tmp_path / "acts" / "roots.py").rename(tmp_path / "roots.py")
    assert len({before, changed, mark_of(tmp_path)}) == 3


def test_other_files_do_not_count(tmp_path: Path) -> None:
    (tmp_path / "journal.lark").write_text("start: act\n")
    before = mark_of(tmp_path)
    (tmp_path / "notes.txt").write_text("nothing")
    assert mark_of(tmp_path) == before
