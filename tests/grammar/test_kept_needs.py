"""What patterns need is the same whether it was kept or is worked out."""

from __future__ import annotations

from pathlib import Path

import pytest

import backbud_grammar.scribbles.needed as needed
from backbud_grammar.scribbles.details_said import ways_said
from backbud_grammar.scribbles.kept_needs import KeptNeeds, recalled_needs
from backbud_grammar.scribbles.openings import OPENINGS

PATTERNS = (*(row.pattern for row in OPENINGS), *ways_said("repotted", 1))


@pytest.fixture(autouse=True)
def cache(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path))
    return tmp_path / "backbud" / "needed-words"


def _worked_out() -> list[object]:
    return [needed._needs(one) for one in PATTERNS]


def _none(pattern: str) -> object:
    raise AssertionError(f"{pattern} was worked out again")


def test_a_later_run_works_nothing_out(cache: Path) -> None:
    assert KeptNeeds(needed._needs).of(PATTERNS, ()) == _worked_out()
    assert cache.is_file()
    assert KeptNeeds(_none).of(PATTERNS, ()) == _worked_out()


def test_what_is_of_one_journal_is_not_kept(cache: Path) -> None:
    KeptNeeds(needed._needs).of(("into the yard", *PATTERNS), {"into the yard"})
    assert set(recalled_needs()) == set(PATTERNS)
    assert b"yard" not in cache.read_bytes()


@pytest.mark.parametrize("torn", ["", "half", "of another version"])
def test_what_cannot_be_trusted_is_worked_out_again(cache: Path, torn: str) -> None:
    KeptNeeds(needed._needs).of(PATTERNS, ())
    data = cache.read_bytes()
    if torn == "of another version":
        at = data.index(b"mark") + len(b"mark") + 6
        data = data[:at] + bytes([data[at] ^ 1]) + data[at + 1 :]
    else:
        data = data[: len(data) // 2] if torn else b""
    cache.write_bytes(data)
    assert recalled_needs() == {}
    assert KeptNeeds(needed._needs).of(PATTERNS, ()) == _worked_out()
    assert set(recalled_needs()) == set(PATTERNS)


def test_a_file_that_others_may_write_is_not_read(cache: Path) -> None:
    KeptNeeds(needed._needs).of(PATTERNS, ())
    cache.chmod(0o666)
    assert recalled_needs() == {}
