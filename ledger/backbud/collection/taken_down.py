"""Takes down a tree's lines during the replay, and makes entries of them once somebody asks.

Most of a diary changes nothing that the replay must know, so its events wait until a plan or a
page wants them.
"""

from __future__ import annotations

from collections.abc import Collection, Container, Iterable, Iterator, Mapping

from msgspec import Struct
from msgspec.structs import replace

from backbud.collection.attached import Attached
from backbud.collection.held import held
from backbud.collection.on_tree import OFF_PARTS, ON_PARTS, Change, put_on_by
from backbud.collection.state import Entry, OnTree
from backbud.journal.dated import DatedBlock
from backbud.journal.events import Event, Origin


class Everyday(Struct, gc=False, eq=False):
    """A block as it stands in the histories of so many trees, or only one of its acts.

    `totals`: by act (`Entry.totals`).
    """

    block: DatedBlock
    only: int | None
    trees: int
    totals: Mapping[str, bool]
    _entries: tuple[Entry, ...] | None = None

    @property
    def changes(self) -> bool:
        """Whether it may change what is on a tree."""
        return not PARTS.isdisjoint(self.block.acts)

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


class Inherited(Struct, gc=False, eq=False):
    """The lines of the batch that a tree was one of, until it was parted off."""

    lines: Lines
    batch: str

    def __eq__(self, other: object) -> bool:
        if not isinstance(other, Inherited):
            return NotImplemented
        return self.batch == other.batch and self.lines == other.lines

    @property
    def entries(self) -> list[Entry]:
        return [self._entry(entry) for entry in self.lines.entries]

    def _entry(self, entry: Entry) -> Entry:
        """Of what was done to some nobody knows whether this one was among them."""
        event = entry.event if entry.of is None or entry.event.held else held(entry.event)
        return replace(entry, event=event, within=entry.within or self.batch)


def among(event: Event, things: int, *, totals: bool) -> int:
    """How many share what is a total in the line."""
    if things > 1 and (totals or any(detail.share == "together" for detail in event.details)):
        return things
    return 1


class Lines:
    """A tree's history as it is taken down, oldest first; its entries are for when that is done.

    Two are equal when they say the same, whoever has asked for the entries of either.
    """

    __slots__ = ("_before", "_changing", "_entries", "_lines", "_on_tree", "_seen")
    __hash__ = None  # type: ignore[assignment]

    def __init__(self, before: Iterable[OnTree] = ()) -> None:
        """`before`: what was on the tree when its first line was taken down."""
        self._before = before
        self._lines: list[Entry | Everyday | Inherited] = []
        # Those that may change what is on the tree: few.
        self._changing: list[Entry | Everyday | Inherited | Change] = []
        self._entries: tuple[Entry, ...] | None = None
        self._on_tree: Attached | None = None
        # How many of these what is on it goes by.
        self._seen = 0

    def append(self, line: Entry | Everyday) -> None:
        self._lines.append(line)
        if isinstance(line, Entry) or line.changes:
            self._changing.append(line)

    def change(self, change: Change) -> None:
        """Go on by what a line changes on the tree, and take down no line: for whoever asks for no
        history. Who may inherit them must have the lines."""
        self._changing.append(change)

    def inherit(self, lines: Lines, batch: str) -> None:
        """Put the lines of a batch before those of a tree that is parted off it."""
        inherited = Inherited(lines, batch)
        self._lines.insert(0, inherited)
        self._changing.insert(0, inherited)
        self._before, self._on_tree, self._seen = lines._before, None, 0

    def __eq__(self, other: object) -> bool:
        return isinstance(other, Lines) and self._lines == other._lines

    def copied(self) -> Lines:
        """The same so far, to be written on apart from this."""
        other = Lines(self._before)
        other._lines, other._changing = self._lines.copy(), self._changing.copy()
        return other

    @property
    def told(self) -> list[Entry]:
        """The lines that the replay looked at closely: those that move a tree are among them."""
        return [line for line in self._lines if isinstance(line, Entry)]

    @property
    def last_told(self) -> Entry | None:
        """The last of them."""
        return next((line for line in reversed(self._lines) if isinstance(line, Entry)), None)

    def holds(self, file: str, subjects: int, acts: Collection[int]) -> bool:
        """Whether a block of a file is among them, by the number of its subject line, or one of its
        acts."""
        for line in self._lines:
            if isinstance(line, Everyday):
                if line.block.line == subjects and line.block.head.file == file:
                    return True
            elif isinstance(line, Entry) and line.event.line in acts and line.event.file == file:
                return True
        return False

    @property
    def on_tree(self) -> Attached:
        """What is on the tree after the lines so far, of what comes off by parts."""
        if self._on_tree is None:
            self._on_tree = Attached(self._before)
        for line in self._changing[self._seen :]:
            if isinstance(line, Change):
                self._on_tree.change(line)
                continue
            for event in _changing(line):
                effect = put_on_by(event.row)
                if effect is not None:
                    self._on_tree.change(effect(event))
        self._seen = len(self._changing)
        return self._on_tree

    def tell_of(self, blocks: Container[int], works: Container[Origin]) -> bool:
        """Whether one of the lines stands in one of these blocks (by `id`), or is one of these
        works or corrected by one; without making the entries of all others."""
        return any(_tells_of(line, blocks, works) for line in self._lines)

    def forget_what_is_on(self) -> None:
        """Let go of what is on the tree: it is worked out again for whoever asks."""
        self._on_tree, self._seen = None, 0

    @property
    def entries(self) -> tuple[Entry, ...]:
        if self._entries is None:
            entries: list[Entry] = []
            for line in self._lines:
                if isinstance(line, Entry):
                    entries.append(line)
                else:
                    entries += line.entries
            if self._lines and isinstance(self._lines[0], Inherited):
                # What was noted ahead of a tree stands among the days of its batch.
                entries.sort(key=lambda entry: entry.event.day)
            # Another thread may ask meanwhile, and never sees half of them. What a tree's history
            # is made of is this very value.
            self._entries = tuple(entries)
        return self._entries


def _tells_of(
    line: Entry | Everyday | Inherited, blocks: Container[int], works: Container[Origin]
) -> bool:
    if isinstance(line, Everyday):
        return id(line.block) in blocks
    if isinstance(line, Inherited):
        return any(_tells_of(entry, blocks, works) for entry in line.entries)
    by = line.corrected_by
    return line.event.origin in works or (by is not None and by.origin in works)


def _changing(line: Entry | Everyday | Inherited) -> Iterator[Event]:
    """The events of a line that change it; few do, and so few are made."""
    if isinstance(line, Inherited):
        for entry in line.entries:
            yield from _changing(entry)
    elif isinstance(line, Entry):
        if line.event.act in PARTS and not line.undone and line.of is None:
            yield line.event
    elif line.only is not None:
        if line.block.acts[line.only] in PARTS:
            yield line.block.event(line.only)
    elif not PARTS.isdisjoint(line.block.acts):
        for at, act in enumerate(line.block.acts):
            if act in PARTS:
                yield line.block.event(at)


# The acts that may change what is on a tree, of what comes off by parts.
PARTS = ON_PARTS | OFF_PARTS
