"""An act line, a card's line or a journal's files go in; what was read comes out as short text."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from pathlib import Path

import pytest

from backbud.journal.read import Journal, read_journal
from backbud_grammar.acts import ACTS, by_word
from backbud_grammar.kinds import KINDS
from backbud_grammar.parse import Details
from backbud_grammar.syntax import Detail

TODAY = date(2027, 6, 1)


def said(detail: Detail) -> str:
    """A detail as `name: handle measure words date on part (share)`."""
    value = (
        detail.handle,
        str(detail.measure or ""),
        detail.words,
        detail.date,
        f"on {detail.part}" if detail.part else "",
        f"({detail.share})" if detail.share else "",
    )
    return f"{detail.name}: {' '.join(filter(None, value))}".rstrip(": ")


@pytest.fixture
def details() -> Callable[[str], list[str]]:
    """`details("wired 3 mm Al on left 2")` gives `["wire: 3 mm Al on left 2"]`; no flaw may be."""
    reader = Details(by_word(ACTS))

    def read(line: str) -> list[str]:
        word, _, text = line.partition(" ")
        reading = reader.of(reader.acts[word], text)
        assert reading.flaws == ()
        return [said(detail) for detail in reading.details]

    return read


@pytest.fixture
def flaws() -> Callable[[str], list[str]]:
    """The codes of what is wrong with an act line."""
    reader = Details(by_word(ACTS))

    def read(line: str) -> list[str]:
        word, _, text = line.partition(" ")
        return [flaw.code for flaw in reader.of(reader.acts[word], text).flaws]

    return read


@pytest.fixture
def card_line() -> Callable[[str, str], str]:
    """`card_line("pot", "holes 2")` gives `"holes: 2"`, or the code of its flaw."""
    reader = Details(by_word(ACTS))

    def read(kind: str, line: str) -> str:
        reading = reader.card_line(KINDS[kind], line)
        return reading.flaw.code if reading.flaw else said(reading.details[0])

    return read


CARDS = """\
place yard
  latitude 52 N
place tunnel
  within yard
person marrow
mix maple
  akadama 2
pot tray-1
material gold
tree hoshi
  kind trident maple
  place tunnel
tree yuki
  kind trident maple
  place yard
tree kaze
  kind satsuki azalea 'Kaho'
  place yard
"""


class Read:
    """A journal as read: `acts` as `date subjects | act text -- remark`, `problems` by code."""

    def __init__(self, journal: Journal) -> None:
        self.journal = journal
        self.problems = [p.code for p in journal.problems()]
        self.events = [e for page in journal.pages for block in page.blocks for e in block.events]
        self.acts = [
            f"{e.when.text} {e.subjects} | {e.written}{f' -- {e.remark}' if e.remark else ''}"
            for e in self.events
        ]


@pytest.fixture
def read(tmp_path: Path) -> Callable[..., Read]:
    """Write files and read them: `read("2027-03-06\\n…", **{"more.txt": b"…"})`."""

    def write(
        diary: str | bytes = "",
        *,
        cards: str = CARDS,
        as_of: str = "",
        files: dict[str, str | bytes] | None = None,
    ) -> Read:
        settings = 'language = 1\ncurrency = "EUR"\n'
        for name, text in {
            "backbud.toml": settings,
            "cards.txt": cards,
            "diary.txt": diary,
            **(files or {}),
        }.items():
            path = tmp_path / name
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_bytes(text if isinstance(text, bytes) else text.encode())
        on = date.fromisoformat(as_of) if as_of else TODAY
        return Read(read_journal(str(tmp_path), on, as_of=bool(as_of)))

    return write
