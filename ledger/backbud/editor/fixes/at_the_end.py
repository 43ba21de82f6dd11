"""Puts a new card at the end of a file, with a blank line before it."""

from __future__ import annotations

from collections import Counter

from lsprotocol import types as lsp

from backbud.editor.desk import Desk
from backbud.editor.text import OpenText


def file_of_cards(desk: Desk, kind: str, otherwise: str) -> str:
    """The file that holds most cards of a kind, else most cards."""
    if desk.snapshot is None:
        return otherwise
    things = desk.snapshot.journal.things
    for those in (things.of_kind(kind), things.by_handle.values()):
        files = Counter(thing.origin.file for thing in those)
        if files:
            return min(files, key=lambda name: (-files[name], name))
    return otherwise


def card_at_end(text: OpenText, lines: tuple[str, ...]) -> lsp.TextEdit:
    """A card of these lines behind all that a file holds."""
    last = len(text.lines) - 1
    while last > 0 and not text.line(last).strip():
        last -= 1
    end = text.end
    card = end.join(lines)
    if not text.line(last).strip():
        return lsp.TextEdit(lsp.Range(text.position(0, 0), text.position(0, 0)), f"{card}{end}")
    behind = text.position(last, len(text.line(last)))
    tail = end if last == len(text.lines) - 1 else ""
    return lsp.TextEdit(lsp.Range(behind, behind), f"{end}{end}{card}{tail}")
