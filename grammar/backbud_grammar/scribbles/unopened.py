"""Tells of a line, by its words alone, that it can open no act: then nothing of it need be tried.

What it says is the same as what reading the line says, and many times quicker: each word is looked
at once. It says nothing of most lines that hold a figure, a handle, a short word or an act's.
"""

from __future__ import annotations

import re
from collections.abc import Mapping

from backbud_grammar.forms import ActForm
from backbud_grammar.scribbles.named import Handles
from backbud_grammar.scribbles.needed import NeededWords
from backbud_grammar.scribbles.spelled import is_spelled_out

# Letters of ASCII, with signs that part no word, and such as may stand behind one.
_BEHIND = ",.;:!"
_PLAIN = re.compile(rf"[a-z]+(?:['-][a-z]+)*[{_BEHIND}]*", re.IGNORECASE)
_RUN = re.compile(r"[a-z]+")


class Unopened:
    """Looks at lines by the openings that there are, the table of acts and the handles."""

    def __init__(self, needed: NeededWords, acts: Mapping[str, ActForm], handles: Handles) -> None:
        self._needed = needed
        self._telling = {name.lower() for name in (*acts, *handles.written) if " " not in name}
        # What openings a word may be of; None where it may be of an act in another way.
        self._words: dict[str, tuple[int, int, int] | None] = {}

    def opens_nothing(self, line: str) -> bool:
        """Whether no act can be opened in a line; False where that is not sure."""
        first, second, third = self._needed.whatever
        words = self._words
        for word in line.split():
            known = words.get(word, _NEW)
            if known is _NEW:
                known = words[word] = self._of(word)
            if known is _CLEAR:
                continue
            if known is None:
                return False
            first |= known[0]
            second |= known[1]
            third |= known[2]
        return not first & second & third

    def _of(self, word: str) -> tuple[int, int, int] | None:
        if _PLAIN.fullmatch(word) is None:
            return None
        folded = word.lower().rstrip(_BEHIND)
        if folded in self._telling or is_spelled_out(folded):
            return None
        first = second = third = 0
        for run in _RUN.findall(folded):
            of_run = self._needed.of_word(run)
            first |= of_run[0]
            second |= of_run[1]
            third |= of_run[2]
        return (first, second, third) if first or second or third else _CLEAR


# Says of a word that it was never looked at; None says that it is no plain word.
_NEW = -1, -1, -1
# Says that no opening has a use for it.
_CLEAR = 0, 0, 0
