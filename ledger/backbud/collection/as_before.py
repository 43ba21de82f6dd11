"""Goes on in a replay by what a line says as by an earlier line that said the same.

Where no history is kept, all that counts of most lines that move a tree, put it into a pot, or
change what is on it by parts, is what they say: so one event stands for all that say the same. And
where each piece of a line stood in an earlier one, only never in this order, none is made at all.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import NamedTuple

from backbud.collection.here import TreesHere
from backbud.collection.on_tree import OFF_PARTS, ON_PARTS, Change, put_on_by
from backbud.collection.stand import STANDS, Stand, canonical, stands_after
from backbud.collection.state import OnTree
from backbud.collection.subjects import Whereabouts
from backbud.collection.taken_down import PARTS
from backbud.journal.dated import DatedBlock
from backbud.journal.events import Event
from backbud.journal.own_words import OwnWords
from backbud.journal.things import Things
from backbud_grammar.act_words import ActWord, as_act
from backbud_grammar.acts import ACTS, ROWS

_MOVE: ActWord = "moved"
# Of these nothing counts but a pot that they name.
FILL_POTS: frozenset[ActWord] = frozenset(
    as_act(row.word) for row in ACTS if "fills_pot" in row.traits and row.word not in STANDS
)
# Of these nothing but what they say is asked, where all trees that are meant are here.
SAID_ALONE: frozenset[ActWord] = PARTS | FILL_POTS | {_MOVE}
# What stands before a pot that one of these names.
_BEFORE_POT = frozenset(
    label
    for act in FILL_POTS
    for form in ROWS[act].forms
    if form.name == "into"
    for label in form.labels
)


class _Done(NamedTuple):
    """What a line does to a tree. `change`: of what is on it; `takes_off`: from parts that it
    names. `stands`, `event`: what changes how it stands, and by which line; `place`: where it must
    stand before that, "" where nobody says."""

    change: Change | None = None
    takes_off: bool = False
    stands: Callable[[Stand, Event, Things], None] | None = None
    event: Event | None = None
    place: str = ""


# Of a line that must be looked at by itself, and of one that does nothing that counts.
_BY_ITSELF = _Done(takes_off=True)
_NOTHING = _Done()
_Things = tuple[OnTree, ...]
# The act word as written, who reads it, and where own words stand, the day.
_By = tuple[object, ...]


class SaidBefore:
    """`things`: what handles mean. `here`: the trees that are here, which is kept. `own`: words
    that may mean one thing on one day, and another on the next."""

    def __init__(self, things: Things, here: TreesHere, own: OwnWords) -> None:
        self._things, self._here, self._own = things, here, bool(own.words)
        # With none of these, folded, a line names no pot.
        self._before_pot = _BEFORE_POT | {
            word.run[0]
            for word in own.words
            if any(label in word.meaning.casefold() for label in _BEFORE_POT)
        }
        # By the details, what the first line did that said so.
        self._lines: dict[_By, dict[str, _Done]] = {}
        # By one of them, what it puts on.
        self._pieces: dict[_By, dict[str, _Things]] = {}

    def goes_on(self, block: DatedBlock, i: int, trees: Sequence[Whereabouts]) -> bool:
        """Go on by one of the acts of a block, one of `SAID_ALONE`, whose trees are all here;
        whether that could be done: else it must be looked at by itself."""
        said = block.said_plainly(i)
        if said is None:
            return False
        word, text = said
        head = block.head
        by = (word, id(head.reader), head.when.first) if self._own else (word, id(head.reader))
        lines = self._lines.get(by)
        if lines is None:
            lines, self._pieces[by] = self._lines.setdefault(by, {}), {}
        done = lines.get(text)
        if done is None:
            done = lines[text] = self._looked_at(block, i, text, self._pieces[by])
        return done is not _BY_ITSELF and self._goes_on_by(done, trees)

    def _goes_on_by(self, done: _Done, trees: Sequence[Whereabouts]) -> bool:
        change, takes_off, stands, event, begin = done
        if change is not None:
            if takes_off:
                for tree in trees:
                    if tree.lines.on_tree.without(change):
                        return False
            for tree in trees:
                tree.lines.change(change)
        elif stands is not None and event is not None:
            if begin and any(tree.place != begin for tree in trees):
                return False
            for tree in trees:
                place = tree.place
                stands(tree, event, self._things)
                if tree.place != place:
                    self._here.put(tree)
        return True

    def _looked_at(self, block: DatedBlock, i: int, text: str, known: dict[str, _Things]) -> _Done:
        """What a line does that says what none did before it; its pieces are added to the `known`
        ones."""
        act = block.acts[i]
        if act in FILL_POTS:
            folded = text.casefold()
            named = any(word in folded for word in self._before_pot)
            return _BY_ITSELF if named else _NOTHING
        pieces = text.split(", ") if act in ON_PARTS else []
        if pieces and all(piece in known for piece in pieces):
            put = tuple([thing for piece in pieces for thing in known[piece]])
            # What is said twice of one part is no list of things.
            if len({thing.part for thing in put}) == len(put):
                return _Done(Change(put))
        event = block.event(i)
        done = _done(event, self._things)
        if len(pieces) == len(event.details) and not event.kept and '"' not in text:
            known.update(zip(pieces, _of_each(event, done), strict=False))
        return done


def says_no_pot(tree: Whereabouts, *lines: Event) -> bool:
    """Whether of a potting and what corrects it nothing counts, since none of them names a pot."""
    potting = lines[0].act in FILL_POTS and tree.batch is None
    return potting and not any(line.has("into") for line in lines)


def _done(event: Event, things: Things) -> _Done:
    effect = put_on_by(event.row) if event.act in PARTS else None
    if effect is not None:
        takes_off = event.act in OFF_PARTS and bool(event.parts)
        return _Done(effect(event), takes_off)
    stands, start = stands_after(event.row), event.first("from")
    place = canonical(things, start.handle) if start is not None else ""
    if stands is None or (start is not None and not place):
        return _BY_ITSELF
    return _Done(stands=stands, event=event, place=place)


def _of_each(event: Event, done: _Done) -> list[_Things]:
    """What each detail puts on; none where that cannot be told apart."""
    change = done.change
    if change is None or change.off or change.older:
        return []
    put = change.put
    if len(put) != len(event.details):
        return []
    each = zip(event.details, put, strict=True)
    if len({detail.name for detail in event.details}) > 1 or not all(
        detail.measure and detail.part and detail.part == thing.part for detail, thing in each
    ):
        return []
    return [(thing,) for thing in put]
