"""Tells of lines that stand on no page: below a card, or above every date of a file."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

from backbud.journal.headings import explained, flaw_of_heading
from backbud.journal.merge_marks import ENDS_HERE
from backbud.journal.outlined import Outlined
from backbud.journal.problems import PlacedFlaw, PlacedFlaws, placed
from backbud.journal.things import PlacedCard, Things
from backbud_grammar.parse import Details
from backbud_grammar.problems import Flaw
from backbud_grammar.syntax import Block, last_line

_BEGINS = "A page begins with its date at the left edge: 2027-03-06."


def flaws_of_misplaced(
    cards: Iterable[PlacedCard], files: Mapping[str, Outlined], things: Things, details: Details
) -> PlacedFlaws:
    """What is wrong with the lines below cards, and above every date of these files."""
    flaws: list[PlacedFlaw] = []
    for one in cards:
        below = _below(one.card.blocks, things, details, after_card=True)
        flaws += placed(one.file, one.line, (*one.card.flaws, *below))
    for file, outlined in files.items():
        is_journal = bool(outlined.pages or outlined.cards)
        for line, stray in outlined.strays:
            flaws += placed(file, line, stray.flaws)
            if is_journal:
                flaws += placed(file, line, [*_below(stray.blocks, things, details)])
            elif stray.blocks:
                flaws += placed(file, line, (_no_journal(stray.blocks),))
    return tuple(flaws)


def _below(
    blocks: tuple[Block, ...], things: Things, details: Details, *, after_card: bool = False
) -> Iterator[Flaw]:
    """Acts and subject lines that stand on no page."""
    hint = f"A card ends the page above it. {_BEGINS}" if after_card else _BEGINS
    for n, block in enumerate(blocks):
        if block.subjects == ENDS_HERE:
            return
        heading = flaw_of_heading(blocks[n:], things, details, None)
        if heading is not None:
            # It says of all below it that it has no date.
            yield heading
            return
        text = block.subjects or block.acts[0].word
        no_card = explained(Flaw("no-date", 0, 1, len(text), "", ""), block, things, details)
        if no_card.message:
            yield no_card
            continue
        at, column = (
            (block.line, 1) if block.subjects else (block.acts[0].line, block.acts[0].column)
        )
        message, lines = "no date stands above this", last_line((block,)) - at + 1
        yield Flaw("no-date", at, column, len(text), message, hint, lines=lines)


def _no_journal(blocks: tuple[Block, ...]) -> Flaw:
    """That a whole file has neither a date nor a card."""
    block = blocks[0]
    at = block.line if block.subjects else block.acts[0].line
    hint = f"{_BEGINS} If this is no part of the journal, give it another ending than .txt."
    return Flaw(
        "no-date",
        at,
        1,
        1,
        "this file has no date and no card, so nothing of it was read",
        hint,
        lines=last_line(blocks) - at + 1,
    )
