"""Keeps what was made of each tree alone while its plan was at hand, for what is made of all trees.

It lies in a file, by the slot that it is asked for by; that of the first trees is held. What was
not made ahead is made when it is asked for.
"""

from __future__ import annotations

from collections.abc import Callable, Hashable, Iterable, Mapping
from typing import Any

import msgspec
from msgspec.structs import replace

from backbud.calendar.feeds import EntriesOfTree
from backbud.journal.laid_down import LaidDown, Place
from backbud.memo import Memo, T
from backbud.pages.render import TreeRows
from backbud.pages.tree_lists import Listed
from backbud.plan.followups import State
from backbud.plan.season import Best
from backbud.plan.stores.spent import Noted
from backbud.plan.stores.values import Spent
from backbud.plan.told_cautions import Caution
from backbud.views.finding import Findable
from backbud.views.place import StandsThere
from backbud.views.week_entries import WeekWork
from backbud.views.year_back import BackOfTree

# What is made ahead of each tree, by the first word of its slot.
SORTS: Mapping[str, Any] = {
    "rows": TreeRows,
    "stands there": StandsThere,
    "listed tree": Listed,
    "works": list[Best],
    "back": BackOfTree,
    "states": dict[State, int],
    "cautions": tuple[Caution, ...],
    "of no kind": bool,
    "entries": EntriesOfTree,
    "taken": tuple[tuple[Spent, ...] | None, Noted],
    "found": Findable,
}
# What works of many trees have in common; of no sort that is equal to another, as 1 is to true.
_IN_COMMON = (
    *("work", "named", "title", "tree", "called", "kind", "place", "place_name", "group"),
    *("opens", "best", "closes", "cautions"),
)
# A slot as it is written, and what was made for it.
Note = tuple[str, bytes]


def _sort_of(slot: Hashable) -> str:
    """The first word of a slot that is made ahead, else ""."""
    if not isinstance(slot, tuple) or slot[0] not in SORTS:
        return ""
    return str(slot[0])


class Noting(Memo):
    """Notes what is made for slots that are made ahead."""

    def __init__(self) -> None:
        super().__init__()
        self.made: dict[Hashable, Any] = {}

    def once(self, slot: Hashable, inputs: tuple[object, ...], work: Callable[[], T]) -> T:
        made = work()
        if _sort_of(slot):
            self.made[slot] = made
        return made

    @property
    def notes(self) -> list[Note]:
        """What was noted, as it is written."""
        encode = msgspec.msgpack.encode
        return [(repr(slot), encode(made)) for slot, made in self.made.items()]


class MadeAhead(Memo):
    """Gives out what was noted, and makes what was not."""

    def __init__(self, folder: str) -> None:
        """`folder`: where a large file may lie. OSError."""
        super().__init__()
        self._laid, self._places = LaidDown(folder), dict[str, Place]()
        self._held: dict[Hashable, Any] = {}
        self._met: dict[Any, Any] = {}
        self._decoders = {
            sort: msgspec.msgpack.Decoder(shape).decode for sort, shape in SORTS.items()
        }

    def take(self, notes: Iterable[Note]) -> None:
        """Lay down what was noted of some trees."""
        for slot, data in notes:
            self._places[slot] = self._laid.put(data)

    def hold(self, made: Mapping[Hashable, Any]) -> None:
        """Hold what was made of some trees as it is."""
        self._held |= made

    def once(self, slot: Hashable, inputs: tuple[object, ...], work: Callable[[], T]) -> T:
        if slot in self._held:
            held: T = self._held[slot]
            return held
        sort = _sort_of(slot)
        place = self._places.get(repr(slot)) if sort else None
        if place is None:
            return work()
        made = self._decoders[sort](self._laid.take(place))
        if isinstance(made, EntriesOfTree):
            made = made._replace(weeks=list(map(self._like_before, made.weeks)))
        elif sort == "taken" and made[0] is not None:
            made = tuple(map(self._spent_like_before, made[0])), made[1]
        elif isinstance(made, Findable):
            # Many trees have the same words.
            made = replace(
                made, written=tuple(map(self._met.setdefault, made.written, made.written))
            )
        given: T = made
        return given

    def _like_before(self, one: WeekWork) -> WeekWork:
        """The same, of parts that were met before where they are equal: those of all trees are held
        together."""
        same = self._met.setdefault
        parts = {name: same(part, part) for name in _IN_COMMON if (part := getattr(one, name))}
        because = tuple([same(reason, reason) for reason in one.because])
        return replace(one, because=because, **parts)

    def _spent_like_before(self, one: Spent) -> Spent:
        """Likewise of what a tree took, which is held of all trees at once."""
        same = self._met.setdefault
        return replace(
            one,
            material=same(one.material, one.material),
            what=same(one.what, one.what),
            day=same(one.day, one.day),
        )
