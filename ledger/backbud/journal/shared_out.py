"""Shares out the parts of a large work between this process and a copy of it.

Who has nothing to do takes the next part. What the copy makes of one it lays down in a file that
has no name, and it counts once it is whole; a part that did not come is made by this process.
"""

from __future__ import annotations

import os
import tempfile
from collections.abc import Callable, Iterable, Iterator
from struct import Struct

from backbud.journal.room_for_copy import has_room_for_copy
from backbud.journal.second_process import may_be_copied, only_these_open

# Before a piece stands its length; behind the last of a part its number, negative, less one.
_HEAD = Struct("<q")
# The number of a part, as it is taken: so short that nobody reads a half of it.
_NUMBER = Struct("<H")
# The numbers of so many fit in any pipe at once (POSIX: 512 octets at least, 64 kB on Linux).
_MOST_PARTS = 2000

# Makes pieces of a part, by its number.
MakePart = Callable[[int], Iterable[bytes]]


class SharedOut:
    """A work that two processes have begun; `parts` is to be gone through once, within `with`."""

    def __init__(self, count: int, taking: int, spool: int, copy: int) -> None:
        self._count, self._taking, self._spool, self._copy = count, taking, spool, copy

    def parts(self) -> Iterator[tuple[int, Iterator[bytes] | None]]:
        """Each part once: its number, and the pieces that the copy made of it, None where it is to
        be made by this process. Those come first, and last again what the copy did not make."""
        here: set[int] = set()
        while (part := _next(self._taking)) is not None:
            here.add(part)
            yield part, None
        self._wait()
        came = _laid_down(self._spool)
        for part, places in came.items():
            yield part, (os.pread(self._spool, length, at) for at, length in places)
        for part in range(self._count):
            if part not in here and part not in came:
                yield part, None

    def __enter__(self) -> SharedOut:
        return self

    def __exit__(self, *_: object) -> None:
        while _next(self._taking) is not None:
            # Nobody asks for what is left.
            pass
        self._wait()
        os.close(self._taking)
        os.close(self._spool)

    def _wait(self) -> None:
        if self._copy:
            os.waitpid(self._copy, 0)
            self._copy = 0


def shared_out(count: int, folder: str, make: MakePart) -> SharedOut | None:
    """Let a copy of this process begin to take parts of a work; None where there can be none.

    `folder`: where a large file may lie. `make`: writes nothing. One copy makes all parts, and so
    knows what it found before.
    """
    if not 1 < count <= _MOST_PARTS or not may_be_copied() or not has_room_for_copy():
        return None
    opened: list[int] = []
    try:
        taking, giving = os.pipe()
        opened += (taking, giving)
        with tempfile.TemporaryFile(dir=folder) as nameless:
            spool = os.dup(nameless.fileno())
        opened.append(spool)
        os.write(giving, b"".join(map(_NUMBER.pack, range(count))))
        first, copy = os.getpid(), os.fork()
    except OSError:
        for one in opened:
            os.close(one)
        return None
    if copy:
        os.close(giving)
        return SharedOut(count, taking, spool, copy)
    try:
        only_these_open(taking, spool)
        while os.getppid() == first and (part := _next(taking)) is not None:
            _made(part, spool, make)
    finally:
        # Whatever went wrong here is done, and told, by the first process.
        os._exit(0)


def _next(taking: int) -> int | None:
    """The number of a part that nobody has taken; None where there is none."""
    number = os.read(taking, _NUMBER.size)
    return int(_NUMBER.unpack(number)[0]) if number else None


def _made(part: int, spool: int, make: MakePart) -> None:
    with os.fdopen(os.dup(spool), "wb") as file:
        for piece in make(part):
            file.write(_HEAD.pack(len(piece)))
            file.write(piece)
        file.write(_HEAD.pack(-part - 1))


def _laid_down(spool: int) -> dict[int, list[tuple[int, int]]]:
    """Of each part that is whole the places of its pieces, and their lengths."""
    found: dict[int, list[tuple[int, int]]] = {}
    places: list[tuple[int, int]] = []
    at, end = 0, os.fstat(spool).st_size
    while at + _HEAD.size <= end:
        length = int(_HEAD.unpack(os.pread(spool, _HEAD.size, at))[0])
        at += _HEAD.size
        if length < 0:
            found[-length - 1] = places
            places = []
        else:
            places.append((at, length))
            at += length
    return found
