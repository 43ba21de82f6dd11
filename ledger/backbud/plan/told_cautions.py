"""Remembers what a plan said against works, for a command that plans nothing: it stands as long as
the line that it is about is written the same."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from datetime import date

import msgspec
from msgspec import Struct

from backbud.journal.events import Origin
from backbud.journal.problems import line_at
from backbud.publish.memory import MemoryOf

REMEMBERED = "cautions"


class Caution(Struct, frozen=True):
    """What speaks against a work on a tree, and the line that it stands on, if it does."""

    tree: str
    text: str
    origin: Origin | None


class _OnLine(Struct, frozen=True, array_like=True):
    """A caution, its line, how that was written, and the day on which it was found."""

    day: date
    tree: str
    text: str
    file: str
    line: int
    column: int
    written: str


def keep_cautions(
    memory: MemoryOf, cautions: Iterable[Caution], texts: Mapping[str, bytes], today: date
) -> None:
    """Remember the cautions of a plan that stand on a line. `texts`: the bytes of each file."""
    told = tuple(
        _OnLine(today, one.tree, one.text, at.file, at.line, at.column, line_at(at, texts))
        for one in cautions
        if (at := one.origin) is not None
    )
    data = msgspec.msgpack.encode(told)
    if data != memory.recall(REMEMBERED):
        memory.keep(REMEMBERED, data)


def recalled_cautions(
    memory: MemoryOf, texts: Mapping[str, bytes], today: date
) -> tuple[Caution, ...]:
    """What the last plan, of this day or before, said of lines that are written the same."""
    data = memory.recall(REMEMBERED)
    if data is None:
        return ()
    try:
        told = msgspec.msgpack.decode(data, type=tuple[_OnLine, ...])
    except msgspec.MsgspecError:
        return ()
    found = (
        (one, Origin(one.file, one.line, one.column))
        for one in told
        if one.file in texts and one.day <= today
    )
    return tuple(
        Caution(one.tree, one.text, at) for one, at in found if line_at(at, texts) == one.written
    )
