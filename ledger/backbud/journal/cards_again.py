"""Finds files that have the cards of several things in common: those of one of them are left out.

One handle that two cards have is a slip, told at its card (`cards.py`). Where two files share
several, the one repeats the other, and that is one problem.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from itertools import accumulate
from typing import NamedTuple

from backbud.journal.line_order import likelier_first
from backbud.journal.outlined import Outlined
from backbud.journal.things import PlacedCard
from backbud_grammar.handles import fold

# Two things are hardly given the handles of two others by chance.
MANY_CARDS = 2


class CardsAgain(NamedTuple):
    """Of a file the first lines (0 first) of the cards that stand in the other too; of these those
    that say something else there."""

    lines: Sequence[int]
    differ: Sequence[int]


def cards_again(files: Mapping[str, Outlined]) -> dict[tuple[str, str], CardsAgain]:
    """By pairs of files, the likelier copy first, the cards of things that have one in both."""
    handles = [fold(placed.card.handle) for file in files.values() for placed in file.cards]
    if len(set(handles)) == len(handles):
        return {}
    first: dict[str, tuple[str, PlacedCard, bytes]] = {}
    found: dict[tuple[str, str], list[tuple[int, bool]]] = {}
    for name in sorted(files, key=likelier_first):
        said = _said(files[name])
        for placed in files[name].cards:
            if not placed.card.handle:
                # Own words are of no thing.
                continue
            card = (name, placed, said[placed.line])
            other, before, says = first.setdefault(fold(placed.card.handle), card)
            if before is not placed:
                found.setdefault((name, other), []).append((placed.line, says != card[2]))
    return {
        pair: CardsAgain([line for line, _ in of], [line for line, differs in of if differs])
        for pair, of in found.items()
        # In one file two slips may lie beside each other, what was pasted says the same.
        if len(of) - (pair[0] == pair[1]) * sum(differs for _, differs in of) >= MANY_CARDS
    }


def _said(file: Outlined) -> dict[int, bytes]:
    """By their first lines what the sections of a file say."""
    starts = accumulate([kept.lines for kept in file.row], initial=0)
    return {line: kept.said.digest for line, kept in zip(starts, file.row, strict=False)}


def without_cards(file: Outlined, lines: Sequence[int]) -> Outlined:
    """The file without the cards that begin on these lines."""
    stays = [placed.line not in lines for placed in file.cards]
    cards = [one for one, stay in zip(file.cards, stays, strict=True) if stay]
    digests = [one for one, stay in zip(file.card_digests, stays, strict=True) if stay]
    return file._replace(cards=cards, card_digests=digests)
