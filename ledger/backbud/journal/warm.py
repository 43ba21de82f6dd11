"""Keeps what one process has read of a journal, so that after a save only what changed is read.

Each thing is kept with all that it was read from, and is taken again only for the very same: the
section that was outlined, the file and line where it stands, and what every handle means. What
had a flaw is read anew each time, so that it is told each time.
"""

from __future__ import annotations

from collections.abc import Callable, Hashable, Iterable, Mapping
from typing import Any, Generic, NamedTuple, TypeVar

from backbud.journal.dated import SoundActs
from backbud.journal.problems import PlacedFlaw, WithFlaws
from backbud.journal.remember import Kept, Memory
from backbud.journal.things import PlacedCard, Things
from backbud.memo import Identical
from backbud_grammar.parse import Details
from backbud_grammar.syntax import Stray

T = TypeVar("T")


class Outlined(NamedTuple):
    """A file's bytes, their digest, its sections as remembered, and which of them are what.

    `pages`, `strays`: by their first line (0 first).
    """

    data: bytes
    digest: bytes
    row: list[Kept[Any]]
    pages: list[tuple[int, Kept[Any]]]
    cards: list[PlacedCard]
    card_digests: list[bytes]
    strays: list[tuple[int, Stray]]


class Read(NamedTuple, Generic[T]):
    """What was made of the pages of a file: all of it, and by line that which had no flaw."""

    of: Outlined
    made: list[T]
    by_line: dict[int, tuple[object, T]]
    is_sound: bool


# Makes something of one page, if anything: of its line, what was outlined, and how much was found
# wrong in the file above it.
ReadSection = Callable[[int, Kept[Any], int], WithFlaws[T | None]]


class Sections(Generic[T]):
    """What was made of sections that had no flaw, by the file and line where they stand."""

    def __init__(self) -> None:
        self._around: Hashable = None
        self._known: dict[str, Read[T]] = {}
        self._used: dict[str, Read[T]] = {}

    def begin(self, around: Hashable) -> None:
        """Begin a reading. `around`: what else a section is read by; another one forgets all."""
        self._known = self._used if around == self._around else {}
        self._around, self._used = around, {}

    def of_file(self, file: str, outlined: Outlined, read: ReadSection[T]) -> WithFlaws[list[T]]:
        """What the pages of a file are made into."""
        known = self._known.get(file)
        if known is not None and known.of is outlined and known.is_sound:
            self._used[file] = known
            return WithFlaws(known.made)
        now, flaws = self._read(outlined, known.by_line if known is not None else {}, read)
        self._used[file] = now
        return WithFlaws(now.made, flaws)

    def _read(
        self,
        outlined: Outlined,
        before: Mapping[int, tuple[object, T]],
        read: ReadSection[T],
    ) -> WithFlaws[Read[T]]:
        now = Read[T](outlined, [], {}, is_sound=True)
        flaws: list[PlacedFlaw] = []
        for line, kept in outlined.pages:
            known = before.get(line)
            found: WithFlaws[T | None] = (
                WithFlaws(known[1])
                if known is not None and known[0] is kept.section
                else read(line, kept, len(flaws))
            )
            if found.value is not None:
                now.made.append(found.value)
                if not found.flaws:
                    now.by_line[line] = kept.section, found.value
            flaws += found.flaws
        return WithFlaws(now._replace(is_sound=not flaws), tuple(flaws))


class Warm(Generic[T]):
    """What one process keeps of a journal's text. `pages`: each as it was read.

    `outlined`: each file, by name. `by_digest`: every section there was, once one was sought.
    """

    def __init__(self) -> None:
        self.outlined: dict[str, Outlined] = {}
        self.by_digest: dict[bytes, Kept[Any]] | None = None
        self.memory: Memory | None = None
        self.details: Details | None = None
        self.pages: Sections[T] = Sections()
        self._handles = b""
        self._sound: SoundActs = {}
        self._things: tuple[list[object], Things] | None = None

    def sound(self, handles: bytes) -> SoundActs:
        """The acts in which nothing was wrong, as long as every handle means the same."""
        if self._handles != handles:
            self._handles, self._sound = handles, {}
        return self._sound

    def things(
        self,
        cards: Iterable[PlacedCard],
        read: Callable[[], WithFlaws[Things]],
    ) -> WithFlaws[Things]:
        """What these very cards in these places say, if nothing was wrong with them."""
        inputs: list[object] = [
            (Identical(placed.card), placed.file, placed.line) for placed in cards
        ]
        if self._things is None or self._things[0] != inputs:
            found = read()
            self._things = (inputs, found.value) if not found.flaws else None
            return found
        return WithFlaws(self._things[1])
