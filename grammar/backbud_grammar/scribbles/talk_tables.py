"""What every line of a journal is read by, and a piece of one as it is read."""

from __future__ import annotations

from typing import NamedTuple

from backbud_grammar.parse import Details
from backbud_grammar.scribbles.draft import Draft
from backbud_grammar.scribbles.named import Handles
from backbud_grammar.scribbles.opened_pieces import PieceOpener
from backbud_grammar.scribbles.reads import PieceReader


class Spelled(NamedTuple):
    """A piece of a line, with what is short spelled out, as it was written, and where; `first`:
    whether it begins a sentence."""

    text: str
    raw: str
    at: int
    first: bool


class TalkTables(NamedTuple):
    """What every line of a journal is read by."""

    details: Details
    handles: Handles
    gallon: str
    pieces: PieceReader
    opener: PieceOpener

    def reads(self, draft: Draft, piece: str) -> bool:
        """Whether a piece is a detail of an act."""
        if draft.form.names_act:
            # When it is to be done is read behind the work.
            text = ", ".join(said for said, _ in draft.pieces)
            return not self.details.of(draft.form, text, hints=False).flaws
        return self.pieces.reads(draft.form, piece)
