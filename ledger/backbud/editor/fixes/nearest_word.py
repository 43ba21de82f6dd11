"""Writes the word that was meant, where a hint names it."""

from __future__ import annotations

import re
from collections.abc import Iterator
from difflib import SequenceMatcher

from backbud.editor.fixes.asked import Fix, ToMend, here

LIKE = 0.7
_WORD = re.compile(r"\S+")
_WRITE = re.compile(r"Write ([^.:;]+)\.$")


def nearest_word(asked: ToMend) -> Iterator[Fix]:
    """Of several words it takes the place of the one that it is most like."""
    meanings = asked.meanings
    if not meanings and asked.code == "unknown-unit":
        unit = _WRITE.match(asked.hint)
        meanings = [unit[1]] if unit is not None and " or " not in unit[1] else []
    line = asked.text.line(asked.line)
    for meant in meanings if asked.written else ():
        at, word = _meant_for(asked.written, meant)
        if asked.code == "unread-line" and _likeness(word, meant) < LIKE:
            continue  # The word that was meant is not the one that stands there.
        column = asked.column + at
        mended = f"{line[:column]}{meant}{line[column + len(word) :]}"
        edit = asked.over(column, len(word), meant)
        yield here(asked, f"Write “{meant}”", edit, sure=asked.is_sound_with(mended))


def _meant_for(written: str, meant: str) -> tuple[int, str]:
    words = [(found.start(), found[0].rstrip(",")) for found in _WORD.finditer(written)]
    return max(((0, written), *words), key=lambda one: _likeness(one[1], meant))


def _likeness(word: str, meant: str) -> float:
    return SequenceMatcher(None, word.casefold(), meant.casefold()).ratio()
