"""What a reading of the journal found goes in; the next reading in the same process takes it out.

Each thing is kept with all that it was read from, and is taken again only for the very same: the
section that was outlined, the file and line where it stands, and what every handle means. What
had a flaw is read anew each time, so that it is told each time.
"""

from __future__ import annotations

from collections.abc import Callable, Hashable, Iterable
from typing import Generic, TypeVar

from backbud.journal.dated import SoundActs
from backbud.journal.notes import Notes
from backbud.journal.remember import Memory
from backbud.journal.things import PlacedCard, Things
from backbud.kept import Is
from backbud_grammar.parse import Details

T = TypeVar("T")


class Sections(Generic[T]):
    """What was made of sections that had no flaw, by where they stand."""

    def __init__(self) -> None:
        self._around: Hashable = None
        self._known: dict[tuple[str, int], tuple[object, T]] = {}
        self._used: dict[tuple[str, int], tuple[object, T]] = {}

    def begin(self, around: Hashable) -> None:
        """Begin a reading. `around`: what else a section is read by; another one forgets all."""
        self._known = self._used if around == self._around else {}
        self._around, self._used = around, {}

    def find(self, file: str, line: int, section: object) -> T | None:
        """What was made of this section in this place, if anything was kept of it."""
        known = self._known.get((file, line))
        if known is None or known[0] is not section:
            return None
        self._used[file, line] = known
        return known[1]

    def keep(self, file: str, line: int, section: object, made: T) -> None:
        """Keep what was made of a section in which nothing was wrong."""
        self._used[file, line] = section, made


class Warm(Generic[T]):
    """What one process keeps of a journal's text. `pages`: each as it was read."""

    def __init__(self) -> None:
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
        southern: bool,
        notes: Notes,
        read: Callable[[], Things],
    ) -> Things:
        """What these very cards in these places say, if nothing was wrong with them."""
        inputs = [southern, *((Is(placed.card), placed.file, placed.line) for placed in cards)]
        if self._things is None or self._things[0] != inputs:
            noted, things = len(notes), read()
            self._things = (inputs, things) if len(notes) == noted else None
            return things
        return self._things[1]
