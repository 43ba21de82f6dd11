"""Tells which of the acts of a line a piece behind them is said of."""

from __future__ import annotations

from collections.abc import Sequence

from backbud_grammar.scribbles.draft import Draft
from backbud_grammar.scribbles.fits_beside import fits_beside
from backbud_grammar.scribbles.named import Handles
from backbud_grammar.scribbles.reads import PieceReader

# What is told of the work before it.
_OF_WORK = ("worked", "sealed")
_MONEY = ("paid", "billed", "quoted")


def said_of(
    drafts: Sequence[Draft], piece: str, line: str, pieces: PieceReader, *, first: bool
) -> Draft:
    """The act that a piece is said of: what stands behind hours, or a sealed wound, may be of the
    work before them: `candles cut, 2 h. strong ones in 10 days`, `pinched, 1 h, low ones left
    alone`. `first`: whether it begins a sentence.
    """
    # What stands behind a plan of more is of the work: `pinched, again in 7 d, not the apex`.
    drafts = [one for one in drafts if not one.follows] or drafts
    last = drafts[-1]
    if len(drafts) == 1:
        return last
    if last.form.word in _MONEY:
        return _that_it_fits(drafts, piece, line, pieces)
    if last.form.word not in _OF_WORK:
        return last
    work = drafts[-2]
    if work.form.prose or work.form.names_act or pieces.said(last.form, piece) is not None:
        return last
    is_of_work = (
        first or pieces.said(work.form, piece) is not None or fits_beside(work, piece, line)
    )
    return work if is_of_work else last


def is_where_it_stands(draft: Draft, piece: str, handles: Handles) -> bool:
    """Whether a place alone, behind what came or was potted, is where it went."""
    traits = draft.form.traits
    # Where seed was sown the mother tree does not stand.
    is_new = ("arrival" in traits and "raised" not in traits) or "potting" in traits
    return is_new and handles.places.fullmatch(piece) is not None


def _that_it_fits(drafts: Sequence[Draft], piece: str, line: str, pieces: PieceReader) -> Draft:
    """What stands behind a price may fit what went home before it: `home with Ty, paid 310, told
    him twice`."""
    last = drafts[-1]
    if pieces.said(last.form, piece) is not None or fits_beside(last, piece, line):
        return last
    return next((one for one in drafts[-2::-1] if fits_beside(one, piece, line)), last)
