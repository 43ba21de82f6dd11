"""Goes on in a replay by what a line says as by an earlier line that said the same.

Where no history is kept, all that counts of most lines that move a tree, or change what is on it by
parts, is what they say: so one event stands for all that say the same, and few are made.
"""

from __future__ import annotations

from collections.abc import Sequence

from backbud.collection.here import TreesHere
from backbud.collection.on_tree import OFF_PARTS, Change, put_on_by
from backbud.collection.stand import stands_after
from backbud.collection.subjects import Whereabouts
from backbud.collection.taken_down import PARTS
from backbud.journal.dated import DatedBlock
from backbud.journal.events import Event
from backbud.journal.things import Things
from backbud_grammar.act_words import ActWord

_MOVE: ActWord = "moved"
# Of these nothing but what they say is asked, where all trees that are meant are here.
SAID_ALONE: frozenset[ActWord] = PARTS | {_MOVE}


class SaidBefore:
    """`things`: what handles mean. `here`: the trees that are here, which is kept."""

    def __init__(self, things: Things, here: TreesHere) -> None:
        self._things, self._here = things, here
        # By act, details and reader: the first line that said so, and what it changes on a tree.
        self._first: dict[tuple[str, str, int], tuple[Event, Change | None]] = {}

    def goes_on(self, block: DatedBlock, i: int, trees: Sequence[Whereabouts]) -> bool:
        """Go on by one of the acts of a block, one of `SAID_ALONE`, whose trees are all here;
        whether that could be done: else it must be looked at by itself."""
        said = block.said_plainly(i)
        if said is None:
            return False
        key = (*said, id(block.head.reader))
        known = self._first.get(key)
        if known is None:
            known = self._first[key] = _looked_at(block.event(i))
        event, change = known
        if change is not None:
            if event.act in OFF_PARTS and event.parts:
                for tree in trees:
                    if tree.lines.on_tree.without(change):
                        return False
            for tree in trees:
                tree.lines.change(change)
            return True
        stands = stands_after(event.row)
        if stands is None or event.has("from"):
            return False
        for tree in trees:
            stands(tree, event, self._things)
            self._here.put(tree)
        return True


def _looked_at(event: Event) -> tuple[Event, Change | None]:
    effect = put_on_by(event.row) if event.act in PARTS else None
    return event, None if effect is None else effect(event)
