"""Reads the later pages of a large new diary in a second process, while this one reads the others.

The second process is a copy of this one. It sends back what an earlier run would have remembered of
these pages, so that this one finds them read; whatever it did not send is read here.
"""

from __future__ import annotations

import os
import sys
from collections.abc import Callable, Mapping, Sequence
from itertools import islice
from typing import TypeVar

import msgspec
from msgspec import Raw, Struct

from backbud.journal.dated import Said, SoundActs
from backbud.journal.outlined import Outlined
from backbud.journal.page_text import PageText
from backbud.journal.remember import Kept, Memory, Sound
from backbud_grammar.details import Reading
from backbud_grammar.parse import Details
from backbud_grammar.shape import SHAPES, Part
from backbud_grammar.syntax import Subjects

# To read fewer lines takes no longer than to begin a process and to take over what it found.
MANY_LINES = 20_000
# Of the lines so many are read by the second process: what it found is to be taken over here.
SHARE = 0.57
_LENGTH_BYTES = 8

# Looks whether nothing is wrong in a page, and keeps that with it: by file, line and page.
LookAt = Callable[[str, int, Kept[PageText]], object]
_NewPages = Sequence[tuple[str, int, Kept[PageText]]]
_Value = TypeVar("_Value")


class _Found(Struct, frozen=True, array_like=True, gc=False):
    """What the second process found. `sounds`: of each page that was new, in order. The others:
    as they are remembered."""

    sounds: list[Sound | None]
    readings: dict[str, dict[str, Reading]]
    subjects: dict[str, Subjects]
    said: dict[str, dict[str, Said]]
    shapes: dict[str, tuple[Part, ...] | None]


class _FoundRaw(Struct, frozen=True, array_like=True, gc=False):
    """The same as it is taken over: most of it is only remembered, and never asked for."""

    sounds: list[Sound | None]
    readings: dict[str, dict[str, Raw]]
    subjects: dict[str, Subjects]
    said: dict[str, dict[str, Raw]]
    shapes: dict[str, tuple[Part, ...] | None]


class SecondHand:
    """A process that reads the new pages of some files. `files`: the names of these."""

    def __init__(self, files: Sequence[str], pages: _NewPages, process: int, pipe: int) -> None:
        self.files = files
        self._pages, self._process, self._pipe = pages, process, pipe

    def take_over(self, known: Memory, details: Details) -> None:
        """Wait for what it found, and remember that as if an earlier run had; where it failed,
        nothing."""
        try:
            with os.fdopen(self._pipe, "rb") as pipe:
                data = pipe.read()
        finally:
            os.waitpid(self._process, 0)
        begin = _LENGTH_BYTES
        if len(data) < begin or int.from_bytes(data[:begin], "big") != len(data) - begin:
            return
        found = _FOUND.decode(memoryview(data)[begin:])
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


_FOUND = msgspec.msgpack.Decoder(_FoundRaw)


def second_hand(
    files: Mapping[str, Outlined], details: Details, said: SoundActs, look_at: LookAt
) -> SecondHand | None:
    """A second process that reads the last of these files; None where it would gain nothing, or
    cannot be had.

    `said`: the acts that are known to be sound, to which `look_at` adds.
    """
    new = {name: _new(name, file) for name, file in files.items()}
    if sum(page.lines for of in new.values() for _, _, page in of) < MANY_LINES:
        return None
    if not _can_be_had():
        return None
    later = _later(new)
    pages = [page for name in later for page in new[name]]
    reading, writing = os.pipe()
    try:
        process = os.fork()
    except OSError:
        os.close(reading)
        os.close(writing)
        return None
    if process:
        os.close(writing)
        return SecondHand(later, pages, process, reading)
    try:
        os.close(reading)
        data = msgspec.msgpack.encode(_found(pages, details, said, look_at))
        with os.fdopen(writing, "wb") as pipe:
            pipe.write(len(data).to_bytes(_LENGTH_BYTES, "big"))
            pipe.write(data)
    finally:
        # Whatever went wrong is done, and told, by the first process.
        os._exit(0)


def _can_be_had() -> bool:
    """Whether there is a second processor, and this process may be copied: a thread would be lost,
    and with it the locks that it holds."""
    threading = sys.modules.get("threading")
    if not hasattr(os, "fork") or (threading is not None and threading.active_count() > 1):
        return False
    if hasattr(os, "sched_getaffinity"):
        return len(os.sched_getaffinity(0)) > 1
    return (os.cpu_count() or 1) > 1


def _new(name: str, file: Outlined) -> _NewPages:
    """The pages of a file of which nobody found so far that nothing is wrong in them."""
    return [(name, line, page) for line, page in file.pages if page.sound is None]


def _later(new: Mapping[str, _NewPages]) -> list[str]:
    """The last files, with about their share of the new lines."""
    lines = {name: sum(page.lines for _, _, page in pages) for name, pages in new.items()}
    left = sum(lines.values()) * (1 - SHARE)
    later: list[str] = []
    for name, so_many in lines.items():
        if left <= 0:
            later.append(name)
        left -= so_many
    return later


def _found(pages: _NewPages, details: Details, said: SoundActs, look_at: LookAt) -> _Found:
    """What is found in these pages, as far as nothing is wrong in them."""
    readings = {key: len(of) for key, of in details.readings.items()}
    subjects, shapes = len(details.known_subjects), len(SHAPES.parsed)
    before = {word: len(of) for word, of in said.items()}
    for name, line, page in pages:
        try:
            look_at(name, line, page)
        except Exception:
            page.sound = None
    return _Found(
        [page.sound for _, _, page in pages],
        {key: _since(of, readings.get(key, 0)) for key, of in details.readings.items()},
        _since(details.known_subjects, subjects),
        {word: _since(of, before.get(word, 0)) for word, of in said.items()},
        _since(SHAPES.parsed, shapes),
    )


def _since(of: Mapping[str, _Value], so_many: int) -> dict[str, _Value]:
    """What was added to a mapping that had so many."""
    return dict(islice(of.items(), so_many, None))
