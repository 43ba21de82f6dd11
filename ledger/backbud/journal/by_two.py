"""Reads the later pages of a large new diary in a second process, while this one reads the others.

The second one sends back what an earlier run would have remembered of these pages, so that this one
finds them read; whatever it did not send is read here.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from functools import partial
from itertools import islice
from typing import TypeVar

import msgspec
from msgspec import Raw, Struct

from backbud.journal.dated import Said, SoundActs
from backbud.journal.outlined import Outlined
from backbud.journal.page_text import PageText
from backbud.journal.remember import Kept, Memory, Sound
from backbud.journal.second_process import MANY_LINES, SecondProcess, begun_beside, later_of
from backbud_grammar.details import Reading
from backbud_grammar.parse import Details
from backbud_grammar.shape import SHAPES, Part
from backbud_grammar.syntax import Subjects

# Of the lines so many are read by the second process: what it found is to be sent, too.
_SHARE = 0.48

# Looks whether nothing is wrong in a page, and keeps that with it: by file, line and page.
LookAt = Callable[[str, int, Kept[PageText]], object]
_NewPages = Sequence[tuple[str, int, Kept[PageText]]]
_Value = TypeVar("_Value")


class _Sent(Struct, frozen=True, array_like=True, gc=False):
    """What the second process found. `sounds`: of each page that was new, in order. The others:
    as they are remembered."""

    sounds: list[Sound | None]
    readings: dict[str, dict[str, Reading]]
    subjects: dict[str, Subjects]
    said: dict[str, dict[str, Said]]
    shapes: dict[str, tuple[Part, ...] | None]


class _SentRaw(Struct, frozen=True, array_like=True, gc=False):
    """The same as it is taken over: most of it is only remembered, and never asked for."""

    sounds: list[Sound | None]
    readings: dict[str, dict[str, Raw]]
    subjects: dict[str, Subjects]
    said: dict[str, dict[str, Raw]]
    shapes: dict[str, tuple[Part, ...] | None]


class PagesOfSecond:
    """Pages that a second process reads. `files`: the names of the files that they stand in."""

    def __init__(self, files: Sequence[str], pages: _NewPages, second: SecondProcess) -> None:
        self.files = files
        self._pages, self._second = pages, second

    def take_over(self, known: Memory, details: Details) -> None:
        """Wait for what was found, and remember that as if an earlier run had; where that failed,
        nothing."""
        data = self._second.answer()
        if data is None:
            return
        found = _SENT.decode(data)
        for (_, _, page), sound in zip(self._pages, found.sounds, strict=True):
            page.sound = page.sound or sound
        for word, texts in found.said.items():
            known.said.setdefault(word, {}).update(texts)
        for key in found.readings:
            # Before any of them is kept, what was remembered of them must be here.
            details.readings_of(key)
        known.readings_beside.update(found.readings)
        details.known_subjects.update(found.subjects)
        SHAPES.parsed.update(found.shapes)
        SHAPES.has_new = SHAPES.has_new or bool(found.shapes)


_SENT = msgspec.msgpack.Decoder(_SentRaw)


def pages_of_second(
    files: Mapping[str, Outlined], details: Details, said: SoundActs, look_at: LookAt
) -> PagesOfSecond | None:
    """The new pages of the last of these files, read by a second process; None where that would
    gain nothing, or cannot be had.

    `said`: the acts that are known to be sound, to which `look_at` adds.
    """
    new = {name: _new(name, file) for name, file in files.items()}
    lines = {name: sum(page.lines for _, _, page in pages) for name, pages in new.items()}
    if sum(lines.values()) < MANY_LINES:
        return None
    later = later_of(lines, _SHARE)
    pages = [page for name in later for page in new[name]]
    second = begun_beside(partial(_found, pages, details, said, look_at))
    return None if second is None else PagesOfSecond(later, pages, second)


def _new(name: str, file: Outlined) -> _NewPages:
    """The pages of a file of which nobody found so far that nothing is wrong in them."""
    return [(name, line, page) for line, page in file.pages if page.sound is None]


def _found(pages: _NewPages, details: Details, said: SoundActs, look_at: LookAt) -> bytes:
    """What is found in these pages, as far as nothing is wrong in them."""
    readings = {key: len(of) for key, of in details.readings.items()}
    subjects, shapes = len(details.known_subjects), len(SHAPES.parsed)
    before = {word: len(of) for word, of in said.items()}
    for name, line, page in pages:
        try:
            look_at(name, line, page)
        except Exception:
            page.sound = None
    found = _Sent(
        [page.sound for _, _, page in pages],
        {key: _since(of, readings.get(key, 0)) for key, of in details.readings.items()},
        _since(details.known_subjects, subjects),
        {word: _since(of, before.get(word, 0)) for word, of in said.items()},
        _since(SHAPES.parsed, shapes),
    )
    return msgspec.msgpack.encode(found)


def _since(of: Mapping[str, _Value], so_many: int) -> dict[str, _Value]:
    """What was added to a mapping that had so many."""
    return dict(islice(of.items(), so_many, None))
