"""An everyday block and how many trees it names go in; their entries come out when asked.

Most of a diary changes nothing that the replay must know, so its events wait until a plan or a page
wants them.
"""

from __future__ import annotations

from collections.abc import Mapping

from msgspec import Struct

from backbud.collection.state import Entry
from backbud.journal.dated import DatedBlock
from backbud.journal.events import Event


class Everyday(Struct, gc=False, eq=False):
    """A block as it stands in the histories of so many trees, or only one of its acts.

    `totals`: by act (`Entry.totals`).
    """

    block: DatedBlock
    only: int | None
    trees: int
    totals: Mapping[str, bool]
    _entries: tuple[Entry, ...] | None = None

    def __eq__(self, other: object) -> bool:
        if not isinstance(other, Everyday):
            return NotImplemented
        same = self.block is other.block and self.only == other.only and self.trees == other.trees
        return same or self.entries == other.entries

    @property
    def entries(self) -> tuple[Entry, ...]:
        if self._entries is None:
            only, block = self.only, self.block
            events = block.events if only is None else (block.event(only),)
            self._entries = tuple([self._entry(event) for event in events])
        return self._entries

    def _entry(self, event: Event) -> Entry:
        totals = self.totals[event.act]
        return Entry(event, among(event, self.trees, totals=totals), None, None, totals)


def among(event: Event, things: int, *, totals: bool) -> int:
    """How many share what is a total in the line."""
    if things > 1 and (totals or any(detail.share == "together" for detail in event.details)):
        return things
    return 1


class Lines:
    """A tree's history as it is taken down, oldest first; its entries are for when that is done.

    Two are equal when they say the same, whoever has asked for the entries of either.
    """

    __slots__ = ("_entries", "_lines")
    __hash__ = None  # type: ignore[assignment]

    def __init__(self) -> None:
        self._lines: list[Entry | Everyday] = []
        self._entries: list[Entry] | None = None

    def append(self, line: Entry | Everyday) -> None:
        self._lines.append(line)

    def __eq__(self, other: object) -> bool:
        return isinstance(other, Lines) and self._lines == other._lines

    def copied(self) -> Lines:
        """The same so far, to be written on apart from this."""
        other = Lines()
        other._lines = self._lines.copy()
        return other

    @property
    def entries(self) -> list[Entry]:
        if self._entries is None:
            self._entries = []
            for line in self._lines:
                if isinstance(line, Entry):
                    self._entries.append(line)
                else:
                    self._entries += line.entries
        return self._entries
