"""Finds, before a diary is replayed, which trees come first by a line of it, and so were not here.

To know who is here on a day one must know who comes later; these few acts are looked at first.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from datetime import date

from backbud.collection.batch import ARRIVALS, BEGINS_ANOTHER, RAISED
from backbud.collection.corrections import plain_handles
from backbud.collection.stand import DEPARTURES
from backbud.journal.dated import DatedBlock, DatedPage
from backbud.journal.events import Event
from backbud.journal.read import Journal
from backbud.journal.things import Things
from backbud_grammar.act_words import ActWord
from backbud_grammar.acts import acts_with
from backbud_grammar.handles import fold

# What may be written of a tree before there is one.
AHEAD = acts_with("ahead")
_NAMES_ANOTHER = re.compile(r"(?:^|[\s,])as\s+\S")
# The few acts that must be known before the replay begins.
COMINGS_AND_GOINGS: frozenset[ActWord] = frozenset({*ARRIVALS, *DEPARTURES})
TURNS: frozenset[ActWord] = COMINGS_AND_GOINGS | {"separated", "parted-off", "corrected"}
# By folded handle of a tree the day of its first coming or going in the diary, and whether it was
# a coming.
FirstComings = dict[str, tuple[date, bool]]
Turn = tuple[DatedBlock, Event]


def turns_of(pages: Iterable[DatedPage]) -> list[Turn]:
    """The few acts that must be known before a replay begins, in their order."""
    return [
        (block, block.event(i))
        for page in pages
        for block in page.blocks
        if not TURNS.isdisjoint(block.acts)
        for i, act in enumerate(block.acts)
        if act in TURNS
    ]


def first_comings(
    turns: Iterable[Turn], things: Things, pages: Sequence[DatedPage], first: FirstComings
) -> FirstComings:
    """The first coming or going of each tree: those found `first`, and those of the turns.

    `pages`: all there are.
    """
    first = dict(first)
    for block, event in turns:
        arrives = event.act in ARRIVALS
        if arrives or event.act in DEPARTURES:
            for handle in plain_handles(block, things):
                if handle not in first and not (
                    event.act in RAISED and _was_here_before(handle, block, event, things, pages)
                ):
                    first[handle] = (event.when.first, arrives)
        if event.act in BEGINS_ANOTHER:
            new = event.first("as")
            found = things.find(new.words) if new is not None else None
            if found is not None:
                first.setdefault(fold(found.handle), (event.when.first, True))
    return first


def _was_here_before(
    handle: str, block: DatedBlock, event: Event, things: Things, pages: Sequence[DatedPage]
) -> bool:
    """Whether the tree of which cuttings or seed were taken was here already, and so is a mother.

    What begins has no past: no card of an earlier day, and no line about it. `as` names another.
    """
    if _NAMES_ANOTHER.search(", ".join((event.text, *event.kept))):
        return True
    card = things.find(handle)
    if card is not None and card.since is not None and card.since.last < event.when.first:
        return True
    for page in pages:
        if page.when.first > event.when.first:
            return False
        for one in page.blocks:
            if one is block:
                acts: Sequence[str] = one.acts[: _place_of(event, one)]
            else:
                acts = one.acts
            if not AHEAD.issuperset(acts) and handle in plain_handles(one, things):
                return True
            if one is block:
                return False
    return False


def _place_of(event: Event, block: DatedBlock) -> int:
    return next(i for i in range(len(block.acts)) if block.event(i) is event)


def not_here_at_first(first: FirstComings, journal: Journal) -> set[str]:
    """The trees that were not here at first. On an earlier day these are also those that came after
    it: by a later line, or by what their card has been told since."""
    seen_on, things = journal.seen_on, journal.things
    if seen_on is None:
        return arrived_in(first)
    pages = (*journal.pages, *journal.later)
    came = arrived_in(first_comings(turns_of(journal.later), things, pages, first))
    for card in things.of_kind("tree"):
        handle = fold(card.handle)
        if handle not in first and card.since is not None and card.since.first > seen_on:
            came.add(handle)
    return came


def arrived_in(first: FirstComings) -> set[str]:
    """The trees whose first coming or going in the diary is a coming: not here before it."""
    return {handle for handle, (_, arrives) in first.items() if arrives}
