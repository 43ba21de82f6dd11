"""Finds the lines of a text that may mention a handle, by their letters alone."""

from __future__ import annotations

import re
from bisect import bisect_right
from itertools import accumulate

from backbud.editor.text import OpenText
from backbud_grammar.handles import fold

_MARKED = re.compile(r"[\w-]*[^\x00-\x7f][\w-]*")


class Letters:
    """A text in small letters, and its words that may be folded to others."""

    def __init__(self, text: OpenText) -> None:
        self.text = text
        self._small = [line.lower() for line in text.lines]
        self._joined = "\n".join(self._small)
        self._starts = [0, *accumulate(len(line) + 1 for line in self._small)]
        self._marked = (
            []
            if self._joined.isascii()
            else [
                (number, fold(word))
                for number, line in enumerate(text.lines)
                if not line.isascii()
                for word in _MARKED.findall(line)
            ]
        )

    def lines_with(self, spelled: set[str]) -> list[int]:
        """The lines that hold one of these handles, in any case, with or without marks."""
        found = {number for number, word in self._marked if word in spelled}
        for one in spelled:
            at = self._joined.find(one)
            while at >= 0:
                number = bisect_right(self._starts, at) - 1
                found.add(number)
                at = self._joined.find(one, self._starts[number + 1])
        return sorted(found)
