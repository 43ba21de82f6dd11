"""Finds which pages of which files are of years long past, and what stands in the way of moving."""

from __future__ import annotations

from collections.abc import Collection, Iterator
from itertools import takewhile
from typing import NamedTuple

from msgspec import Struct

from backbud.journal.line_order import RESTING, rests
from backbud.journal.read import Journal
from backbud.journal.same_words import words_in
from backbud_grammar.outline import Known, read_section, sections
from backbud_grammar.syntax import Card, Page

# With one of these it is not known which of two writings counts, or what stands there.
_UNTIDY = (
    *("repeated-file", "repeated-page", "repeated-lines", "edited-copy", "two-versions"),
    "merge-marks",
)
_NO_TEXT = ("not-utf-8", "no-text", "binary-file", "large-file", "unreadable", "link")


class RestingPage(NamedTuple):
    """A page that goes: its first line (0 first), the line behind its last; and whether it stands
    in the other file already, as a run that was stopped left it."""

    begin: int
    end: int
    is_there: bool


class RestingFile(Struct, frozen=True):
    """What of a file is to rest, and in which file. `stay`: how many pages stay. `is_whole`: the
    file moves as it is."""

    file: str
    target: str
    pages: tuple[RestingPage, ...]
    stay: int
    is_whole: bool


class InTheWay(Struct, frozen=True):
    """Why nothing is moved: a line (1 first) that must be seen to, and what is wrong with it."""

    file: str
    line: int
    why: str

    def __str__(self) -> str:
        return f"{self.file}:{self.line}: {self.why}"


class WhatRests(Struct, frozen=True):
    """What is to rest, or what is in the way of that."""

    files: tuple[RestingFile, ...]
    in_the_way: tuple[InTheWay, ...]


def what_rests(journal: Journal, year: int) -> WhatRests:
    """The pages until the end of a year that do not rest yet, file by file, and what is in the way
    of moving them."""
    moving: dict[str, set[int]] = {}
    read: dict[str, set[int]] = {}
    for page in journal.pages:
        read.setdefault(page.file, set()).add(page.line - 1)
        if page.when.last.year <= year and not rests(page.file):
            moving.setdefault(page.file, set()).add(page.line - 1)
    found: list[RestingFile] = []
    wrong = list(_untidy(journal, moving.keys()))
    known = Known.of(journal.acts)
    for file in sorted(moving):
        one = _Sections(journal, file, known)
        wrong += one.in_the_way(read[file], moving[file])
        found.append(one.resting(moving[file]))
    return WhatRests(tuple(found), tuple(wrong))


def _untidy(journal: Journal, files: Collection[str]) -> Iterator[InTheWay]:
    for flaw in journal.flaws:
        code = flaw.flaw.code
        if code in _UNTIDY or (code in _NO_TEXT and flaw.file in files):
            yield InTheWay(flaw.file, flaw.line + flaw.flaw.line + 1, flaw.flaw.message)


class _Sections:
    """The sections of a file: each with its first line (0 first), its bytes and what it is."""

    def __init__(self, journal: Journal, file: str, known: Known) -> None:
        self.file, self.target = file, f"{RESTING}/{file}"
        self.data = journal.texts[file]
        self.parts = [(at, text, read_section(text, known)) for at, text in sections(self.data)]
        resting = sections(journal.texts.get(self.target, b""))
        self.rest_there = {without_tail(text) for _, text in resting}
        self.remarks_there = {line for _, text in resting for line in remarks_at_end(text)}
        self.said_there = {words_in(text).digest for _, text in resting}

    def in_the_way(self, read: set[int], moving: set[int]) -> Iterator[InTheWay]:
        """What is not tidy: lines above every date, dates that nobody can read, cards between."""
        after_page = False
        for at, text, section in self.parts:
            if isinstance(section, Page):
                after_page = True
                if at not in read:
                    yield InTheWay(self.file, at + 1, f"“{section.date}” is no day that counts")
                elif at in moving and self._differs(text):
                    why = f"this page stands in {self.target} too, with other remarks"
                    yield InTheWay(self.file, at + 1, why)
            elif isinstance(section, Card):
                if after_page:
                    why = f"the card “{section.kind} {section.handle}” stands between the pages"
                    yield InTheWay(self.file, at + 1, why)
            elif section.blocks or section.flaws:
                yield InTheWay(self.file, at + 1, "lines stand above every date")

    def _differs(self, text: bytes) -> bool:
        return without_tail(text) not in self.rest_there and (
            words_in(text).digest in self.said_there
        )

    def resting(self, moving: set[int]) -> RestingFile:
        """What of it is to rest."""
        sorts = [type(section) for _, _, section in self.parts]
        stay = sorts.count(Page) - len(moving)
        is_whole = not (stay or Card in sorts or self.rest_there - {b""})
        pages = tuple(self._pages(moving))
        return RestingFile(self.file, self.target, pages, stay, is_whole)

    def _pages(self, moving: set[int]) -> Iterator[RestingPage]:
        for n, (at, text, _) in enumerate(self.parts):
            if at not in moving:
                continue
            end = at + text.count(b"\n")
            if n + 1 < len(self.parts) and self.parts[n + 1][0] not in moving:
                # Remarks at the left edge above what stays belong to that.
                behind = text.split(b"\n")[without_tail(text).count(b"\n") + 1 :]
                blank = len(list(takewhile(lambda line: not line.strip(), behind)))
                end = min(end, at + text.count(b"\n") + 1 - len(behind) + blank)
            body = without_tail(text)
            is_there = body in self.rest_there
            if is_there and not self.remarks_there.issuperset(remarks_at_end(text)):
                # The page stands there already, but not the remarks that came behind it since.
                end = at + body.count(b"\n") + 1
            yield RestingPage(at, end, is_there)


def without_tail(section: bytes) -> bytes:
    """A section without the remarks at the left edge, and the blank lines, at its end."""
    lines = section.rstrip().split(b"\n")
    while len(lines) > 1 and (not lines[-1].strip() or lines[-1].startswith(b"#")):
        lines.pop()
    return b"\n".join(lines).rstrip()


def remarks_at_end(section: bytes) -> tuple[bytes, ...]:
    """The remarks at the left edge at the end of a section."""
    behind = section[len(without_tail(section)) :].split(b"\n")
    return tuple(line.rstrip() for line in behind if line.startswith(b"#"))
