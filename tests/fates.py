"""A journal as read goes in; what became of each line comes out: used, kept, remark or problem.

"kept" is a line of which words were kept and not used. "lost" is a line that nothing used and
nobody told of: there must be none.
"""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from pathlib import Path
from typing import Literal, NamedTuple

from backbud.collection.replay import replay
from backbud.journal.hashed_dates import without_hashed_dates
from backbud.journal.merge_marks import without_conflicts
from backbud.journal.read import Journal, read_journal
from backbud_grammar.outline import Known, read_section, sections
from backbud_grammar.syntax import Act, Card, CardLine, Page

Fate = Literal["blank", "remark", "used", "kept", "problem", "lost"]
TODAY = date(2027, 6, 1)


def fate_of_lines(text: str | bytes, folder: Path, cards: str = "") -> list[Fate]:
    """What becomes of each line of a diary; it is written into the folder, with its cards."""
    (folder / "backbud.toml").write_text('language = 1\ncurrency = "EUR"\n')
    (folder / "cards.txt").write_text(cards)
    (folder / "diary.txt").write_bytes(text if isinstance(text, bytes) else text.encode())
    return fates_of(read_journal(str(folder), TODAY))["diary.txt"]


def fates_of(journal: Journal) -> dict[str, list[Fate]]:
    """By file, what becomes of each of its lines. The journal is replayed to its end."""
    used = _Used(journal)
    kept = {(flaw.file, flaw.number) for flaw in used.flaws if flaw.is_kept}
    told: set[tuple[str, int]] = {
        (flaw.file, line)
        for flaw in used.flaws
        if not flaw.is_kept
        for line in range(flaw.number, flaw.number + flaw.flaw.lines)
    }
    out: dict[str, list[Fate]] = {}
    for file, data in journal.texts.items():
        if not file.lower().endswith(".txt") or file in journal.weather_files:
            continue
        lines = data.decode().split("\n")
        fates: list[Fate] = [
            "problem" if (file, n + 1) in told else "lost" for n in range(len(lines))
        ]
        for n, line in enumerate(lines):
            if not line.strip():
                fates[n] = "blank"
            elif line.lstrip().startswith("#"):
                fates[n] = "remark"
        seen: set[int] = set()
        for unit in _units(file, data, journal):
            assert not seen.intersection(unit.lines), f"{file}: read twice: {unit}"
            seen.update(unit.lines)
            is_told = any((file, n + 1) in told for n in (*unit.lines, unit.under))
            for n in unit.lines:
                if fates[n] not in ("blank", "remark"):
                    read: Fate = "kept" if (file, unit.lines[0] + 1) in kept else "used"
                    fates[n] = read if used.has(file, unit) else "problem" if is_told else "lost"
        out[file] = fates
    return out


class _Unit(NamedTuple):
    """Lines that are read as one (0 first). `under`: the subject line of an act."""

    sort: Literal["page", "block", "act", "card", "label"]
    lines: tuple[int, ...]
    under: int


def _units(file: str, data: bytes, journal: Journal) -> Iterator[_Unit]:
    known = Known.of(journal.acts)
    text, _ = without_hashed_dates(without_conflicts(data)[0])
    for start, piece in sections(text):
        section = read_section(piece, known)
        if isinstance(section, Page):
            yield _Unit("page", (start,), start)
        elif isinstance(section, Card):
            yield _Unit("card", (start,), start)
            for label in section.lines:
                yield _Unit("label", _lines(label, start), start)
        for block in section.blocks:
            if block.subjects:
                yield _Unit("block", (start + block.line,), start + block.line)
            for act in block.acts:
                yield _Unit("act", _lines(act, start), start + block.line)


def _lines(item: Act | CardLine, start: int) -> tuple[int, ...]:
    return (start + item.line, *(start + seam.line for seam in item.seams))


class _Used:
    """Which lines of a journal (1 first) became pages, subject lines, events, things."""

    def __init__(self, journal: Journal) -> None:
        histories, impossible = replay(journal)
        self.flaws = (*journal.flaws, *impossible)
        events = {
            (event.file, event.line)
            for tree in histories.trees.values()
            for event in (entry.as_written or entry.event for entry in tree.entries)
        } | {(event.file, event.line) for of in histories.others.values() for event in of}
        blocks = [block for page in journal.pages for block in page.blocks]
        told = {(flaw.file, flaw.number) for flaw in self.flaws if not flaw.is_kept}
        # A subject line may rightly mean nobody: all in a place where nothing stands.
        events |= {
            (event.file, event.line)
            for block in blocks
            if (block.head.file, block.line) not in told
            for event in block.events
        }
        things = journal.things.by_handle.values()
        self.of = {
            "page": {(page.file, page.line) for page in journal.pages},
            "block": {(block.head.file, block.line) for block in blocks},
            "act": events,
            "card": {(thing.origin.file, thing.origin.line) for thing in things}
            | journal.own_words.lines,
            "label": {
                (line.origin.file, line.origin.line) for thing in things for line in thing.lines
            }
            | journal.own_words.lines,
        }

    def has(self, file: str, unit: _Unit) -> bool:
        at = (file, unit.lines[0] + 1)
        # An act or a label may stand at the left edge, and is told there.
        return at in self.of[unit.sort] or (
            unit.sort in ("block", "act") and (at in self.of["act"] or at in self.of["label"])
        )
