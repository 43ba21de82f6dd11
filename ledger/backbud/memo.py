"""Remembers what a run made for the next run in the same process, as long as its inputs are equal.

For a process that compiles one journal again and again. A value is given out only for inputs that
are equal to those it was made from, so it can never be out of date; what a run has no use for is
let go, but for what a value that is still in use was made from. Whoever asks names everything that
the work looks at, and the work changes nothing but what it returns.
"""

from __future__ import annotations

from collections.abc import Callable, Container, Hashable
from operator import is_
from types import MethodType
from typing import Any, TypeVar

from msgspec import Struct

from backbud.tongue import speak

T = TypeVar("T")


class _Made(Struct, eq=False):
    """A value, what it was made from, the slots that were asked while it was made, and the number
    of the last run that had a use for it."""

    inputs: tuple[object, ...]
    value: Any
    within: tuple[Hashable, ...]
    run: int


class Memo:
    """The values of the last run, and of this one so far, each in a slot of its own."""

    def __init__(self) -> None:
        self._values: dict[Hashable, _Made] = {}
        self._run = 0
        self._speaks = ""
        # The slots that the work at hand has asked, while there is one.
        self._asked: list[Hashable] | None = None

    def once(self, slot: Hashable, inputs: tuple[object, ...], work: Callable[[], T]) -> T:
        """The value in the slot if it was made from equal inputs, else what the work returns.

        The work may ask for values of other slots. These are kept as long as its own value is.
        """
        if self._asked is not None:
            self._asked.append(slot)
        known = self._values.get(slot)
        if known is None or known.inputs != inputs:
            known = self._values[slot] = self._made(inputs, work)
        elif known.run != self._run:
            self._keep(known)
        value: T = known.value
        return value

    def same(self, slot: Hashable, value: T) -> T:
        """The very object that was in the slot, if it is equal, else this one.

        So what is made from many values can be asked for by one, with `Identical`.
        """
        return self.once(slot, (value,), lambda: value)

    def _made(self, inputs: tuple[object, ...], work: Callable[[], T]) -> _Made:
        asked: list[Hashable] = []
        outer, self._asked = self._asked, asked
        try:
            return _Made(inputs, work(), tuple(asked), self._run)
        finally:
            self._asked = outer

    def _keep(self, known: _Made) -> None:
        known.run = run = self._run
        for slot in known.within:
            made = self._values.get(slot)
            if made is not None and made.run != run:
                self._keep(made)

    def speak(self, language: str) -> None:
        """From here on what is made is in this language: let go of what an earlier run made in
        another. What this run has read so far is in none."""
        speak(language)
        if language != self._speaks:
            if self._speaks:
                self._let_go()
            self._speaks = language

    def holds(self, slot: Hashable) -> bool:
        """Whether anything is in the slot, whatever it was made from."""
        return slot in self._values

    def forget(self, slot: Hashable) -> None:
        """Let the work in this slot be done anew next time."""
        self._values.pop(slot, None)

    def end(self) -> None:
        """A run has ended well: let go of what it did not ask for."""
        self._let_go()
        self._run += 1

    def _let_go(self) -> None:
        """Of what this run has not asked for."""
        run = self._run
        for slot in [slot for slot, made in self._values.items() if made.run != run]:
            del self._values[slot]


class Apart(Memo):
    """The slots of a memo for another reader: what is made for one never takes another's place."""

    def __init__(self, kept: Memo, reader: str) -> None:
        super().__init__()
        self._kept, self._reader = kept, reader

    def once(self, slot: Hashable, inputs: tuple[object, ...], work: Callable[[], T]) -> T:
        return self._kept.once((self._reader, slot), inputs, work)


class WithinRun(Memo):
    """The slots of a memo; of these few the value is worked out once in a run, whatever it keeps.

    For one run: what their values are made from does not change while it lasts.
    """

    def __init__(self, kept: Memo, slots: Container[Hashable]) -> None:
        super().__init__()
        self._kept, self._slots = kept, slots
        self._known: dict[Hashable, Any] = {}

    def once(self, slot: Hashable, inputs: tuple[object, ...], work: Callable[[], T]) -> T:
        if slot not in self._slots:
            return self._kept.once(slot, inputs, work)
        if slot not in self._known:
            self._known[slot] = self._kept.once(slot, inputs, work)
        value: T = self._known[slot]
        return value


class _NoMemo(Memo):
    """Remembers nothing: for a process that compiles once."""

    def speak(self, language: str) -> None:
        speak(language)

    def once(self, slot: Hashable, inputs: tuple[object, ...], work: Callable[[], T]) -> T:
        return work()

    def forget(self, slot: Hashable) -> None:
        pass

    def end(self) -> None:
        pass


NO_MEMO = _NoMemo()


class Identical:
    """Stands among inputs for frozen values each of which is the same only if it is the very same
    object.

    Two values may be equal and yet be written differently: 9 cm and 9.0 cm. And to compare what is
    large takes longer than to see that it is one object.
    """

    __slots__ = ("values",)
    __hash__ = None  # type: ignore[assignment]
    values: tuple[object, ...]

    def __new__(cls, *values: object) -> Any:
        """One value alone becomes a method of it: of two of these Python itself asks, in a tenth of
        the time, whether they are of the very same object. Tens of thousands are in a run."""
        if len(values) == 1 and values[0] is not None:
            return MethodType(_of_one, values[0])
        made = object.__new__(cls)
        made.values = values
        return made

    def __eq__(self, other: object) -> bool:
        if not isinstance(other, Identical):
            return False
        mine, others = self.values, other.values
        return len(mine) == len(others) and all(map(is_, mine, others))


def _of_one(value: object) -> None:
    """What one value stands behind; nobody calls it."""


class AsWritten:
    """Stands among inputs for a value that is the same only if it is written the same: 9 cm and
    9.0 cm are not. It is written once somebody compares it."""

    __slots__ = ("_text", "_value")
    __hash__ = None  # type: ignore[assignment]

    def __init__(self, value: object) -> None:
        self._value, self._text = value, ""

    def __eq__(self, other: object) -> bool:
        return isinstance(other, AsWritten) and self._written() == other._written()

    def _written(self) -> str:
        self._text = self._text or repr(self._value)
        return self._text
