"""Writes the word that was meant, where a hint names it."""

from __future__ import annotations

import re
from collections.abc import Iterator
from difflib import SequenceMatcher

from backbud.editor.fixes.asked import Fix, ToMend, here
from backbud_grammar.problems import meant_in

_WORD = re.compile(r"\S+")
_WRITE = re.compile(r"Write ([^.:;]+)\.$")


def nearest_word(asked: ToMend) -> Iterator[Fix]:
    """Of several words it takes the place of the one that it is most like."""
    meant = meant_in(asked.hint)
    if not meant and asked.code == "unknown-unit":
        unit = _WRITE.match(asked.hint)
        meant = unit[1] if unit is not None and " or " not in unit[1] else ""
    if not meant or not asked.written:
        return
    whole = (0, asked.written)
    words = [(found.start(), found[0].rstrip(",")) for found in _WORD.finditer(asked.written)]
    at, word = max((whole, *words), key=lambda one: _likeness(one[1], meant))
    column = asked.column + at
    line = asked.text.line(asked.line)
    mended = f"{line[:column]}{meant}{line[column + len(word) :]}"
    edit = asked.over(column, len(word), meant)
    yield here(asked, f"Write “{meant}”", edit, sure=asked.is_sound_with(mended))


def _likeness(word: str, meant: str) -> float:
    return SequenceMatcher(None, word.casefold(), meant.casefold()).ratio()
