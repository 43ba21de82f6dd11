"""Finds the openings that a piece of a line begins with, of all that the tables have."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

from msgspec import Struct

from backbud_grammar.scribbles.named import Handles
from backbud_grammar.scribbles.openings import OPENINGS
from backbud_grammar.scribbles.openings.row import ActOpening, compiled

# So many are held against a piece at once; one by one only where one of them fits.
TOGETHER = 40
_NAMED = re.compile(r"\(\?P<\w+>")


class _Batch(Struct, frozen=True):
    """Openings, and the pattern that fits where any of theirs does."""

    rows: tuple[tuple[ActOpening, str], ...]
    any_of: re.Pattern[str]


class Opener:
    """All openings, with the places and people of a journal."""

    def __init__(self, handles: Handles) -> None:
        places = handles.places.pattern
        people = handles.people.pattern
        rows = [
            (row, row.pattern.replace("@PLACE@", places).replace("@PERSON@", people))
            for row in OPENINGS
        ]
        self._batches = [
            _batch(rows[start : start + TOGETHER]) for start in range(0, len(rows), TOGETHER)
        ]

    def find(self, text: str) -> Iterator[tuple[ActOpening, re.Match[str]]]:
        """The openings that fit, as the tables have them in order."""
        for batch in self._batches:
            if batch.any_of.match(text) is None:
                continue
            for row, pattern in batch.rows:
                found = compiled(pattern).match(text)
                if found is not None:
                    yield row, found


def _batch(rows: Sequence[tuple[ActOpening, str]]) -> _Batch:
    either = "|".join(f"(?:{_NAMED.sub('(?:', pattern)})" for _, pattern in rows)
    return _Batch(tuple(rows), compiled(either))
