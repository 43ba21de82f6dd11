"""Reads an act that stands as it is by its pieces, each of which is judged once.

Most details of a diary were written before, only never in this order. What pieces say that are
each sound by themselves is sound together, unless they say a thing twice or contradict each other.
"""

from __future__ import annotations

from collections.abc import Callable
from itertools import chain

from backbud.journal.dated import Said
from backbud_grammar.forms import ActForm
from backbud_grammar.parse import Details

# What an act says by a text of its own, as it is written; None where anything is wrong with it.
Judge = Callable[[ActForm, str, str], Said | None]


class ByPieces:
    """`judge`: judges one piece, or a text that is not parted."""

    def __init__(self, details: Details, judge: Judge) -> None:
        self._details, self._judge = details, judge
        # By act word as it is written.
        self._pieces: dict[str, dict[str, Said | None]] = {}

    def said(self, form: ActForm, word: str, text: str) -> Said | None:
        """What an act says in which nothing is wrong and nothing is left to ask; None where that
        must be looked at whole."""
        known = self._pieces.get(word)
        if known is None:
            known = self._pieces[word] = {}
        if form.names_act or ", " not in text or '"' in text or "\t" in text or text[-1] == ",":
            if text not in known:
                known[text] = self._judge(form, word, text)
            return known[text]
        found: list[Said] = []
        for piece in text.split(", "):
            if piece in known:
                one = known[piece]
            else:
                one = known[piece] = self._judge(form, word, piece) if piece.strip() else None
            # `each` goes with the measure before it.
            if one is None or not one.details:
                return None
            found.append(one)
        details = tuple(chain.from_iterable([one.details for one in found]))
        if not self._details.agree(form, details):
            return None
        return Said(form.word, details, "", says_when=any(one.says_when for one in found))
