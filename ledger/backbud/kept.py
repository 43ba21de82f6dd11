"""A value's inputs go in; the value of an earlier run comes out where they are still the same.

For a process that compiles one journal again and again. A kept value is handed out only for
inputs that are equal to those it was made from, so it can never be out of date; what a run has no
use for is let go. Whoever asks names everything that the work looks at, and the work changes
nothing but what it returns.
"""

from __future__ import annotations

from collections.abc import Callable, Hashable
from typing import Any, TypeVar

T = TypeVar("T")


class Kept:
    """The values of the last run, and of this one so far."""

    def __init__(self) -> None:
        self._before: dict[Hashable, tuple[tuple[object, ...], Any]] = {}
        self._now: dict[Hashable, tuple[tuple[object, ...], Any]] = {}

    def once(self, slot: Hashable, inputs: tuple[object, ...], work: Callable[[], T]) -> T:
        """The value in the slot if it was made from equal inputs, else what the work returns."""
        known = self._now.get(slot) or self._before.get(slot)
        if known is None or known[0] != inputs:
            known = (inputs, work())
        self._now[slot] = known
        value: T = known[1]
        return value

    def drop(self, slot: Hashable) -> None:
        """Let the work in this slot be done anew next time."""
        self._now.pop(slot, None)
        self._before.pop(slot, None)

    def end(self) -> None:
        """A run has ended well: let go of what it did not ask for."""
        self._before, self._now = self._now, {}


class _Nothing(Kept):
    """Keeps nothing: for a process that compiles once."""

    def once(self, slot: Hashable, inputs: tuple[object, ...], work: Callable[[], T]) -> T:
        return work()

    def drop(self, slot: Hashable) -> None:
        pass

    def end(self) -> None:
        pass


KEEP_NOTHING = _Nothing()


class Is:
    """Stands among inputs for a frozen value that is the same only if it is the very same object.

    Two values may be equal and yet be written differently: 9 cm and 9.0 cm.
    """

    __slots__ = ("value",)
    __hash__ = None  # type: ignore[assignment]

    def __init__(self, value: object) -> None:
        self.value = value

    def __eq__(self, other: object) -> bool:
        return isinstance(other, Is) and self.value is other.value
