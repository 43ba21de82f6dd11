"""Remembers what a plan said against works, for a command that plans nothing: it stands as long as
the page that it is about is written the same, wherever that stands."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterable, Iterator, Sequence
from datetime import date

import msgspec
from msgspec import Struct

from backbud.journal.dated import DatedPage
from backbud.journal.events import Origin
from backbud.publish.memory import MemoryOf

REMEMBERED = "cautions"


class Caution(Struct, frozen=True):
    """What speaks against a work on a tree, the line that it stands on, if it does, and the last
    day on which anybody can heed it."""

    tree: str
    text: str
    origin: Origin | None
    until: date


class _OnPage(Struct, frozen=True, array_like=True):
    """A caution, the digest of its page, how many lines below its date it stands, the day on
    which it was found, and the last on which it is told."""

    day: date
    until: date
    tree: str
    text: str
    page: bytes
    below: int
    column: int


def keep_cautions(
    memory: MemoryOf, cautions: Iterable[Caution], pages: Sequence[DatedPage], today: date
) -> None:
    """Remember the cautions of a plan that stand on a page of the diary."""
    data = msgspec.msgpack.encode(tuple(_on_pages(cautions, pages, today)))
    if data != memory.recall(REMEMBERED):
        memory.keep(REMEMBERED, data)


def _on_pages(
    cautions: Iterable[Caution], pages: Sequence[DatedPage], today: date
) -> Iterator[_OnPage]:
    in_files: dict[str, list[DatedPage]] = {}
    for one in cautions:
        at = one.origin
        if at is None:
            continue
        if at.file not in in_files:
            in_file = (page for page in pages if page.file == at.file)
            in_files[at.file] = sorted(in_file, key=_line)
        before = bisect_right(in_files[at.file], at.line, key=_line)
        if before:
            page = in_files[at.file][before - 1]
            below = at.line - page.line
            yield _OnPage(today, one.until, one.tree, one.text, page.digest, below, at.column)


def _line(page: DatedPage) -> int:
    return page.line


def recalled_cautions(
    memory: MemoryOf, pages: Sequence[DatedPage], today: date
) -> tuple[Caution, ...]:
    """What the last plan, of this day or before, said of pages that are written the same."""
    data = memory.recall(REMEMBERED)
    if data is None:
        return ()
    try:
        told = msgspec.msgpack.decode(data, type=tuple[_OnPage, ...])
    except msgspec.MsgspecError:
        return ()
    wanted = {one.page for one in told}
    standing = {page.digest: page for page in pages if page.digest in wanted} if wanted else {}
    return tuple(
        Caution(one.tree, one.text, Origin(page.file, page.line + one.below, one.column), one.until)
        for one in told
        if one.day <= today <= one.until and (page := standing.get(one.page)) is not None
    )
