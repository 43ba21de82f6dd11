"""A file of the journal as it was outlined: its sections, and which of them are what."""

from __future__ import annotations

from typing import Any, NamedTuple

from backbud.journal.page_text import PageText
from backbud.journal.remember import Kept
from backbud.journal.things import PlacedCard
from backbud_grammar.syntax import Stray


class Outlined(NamedTuple):
    """A file's bytes, their digest, its sections as remembered, and which of them are what.

    `pages`, `strays`: by their first line (0 first). `said`: the digests of what its pages and
    cards say (`WordsDigest`).
    """

    data: bytes
    digest: bytes
    row: list[Kept[Any]]
    pages: list[tuple[int, Kept[PageText]]]
    cards: list[PlacedCard]
    card_digests: list[bytes]
    strays: list[tuple[int, Stray]]
    said: frozenset[bytes]
