"""Lets a copy of this process do a part of a large work while this one does the rest."""

from __future__ import annotations

import os
import sys
from collections.abc import Callable, Iterable, Iterator, Mapping
from itertools import pairwise
from typing import BinaryIO

# Of fewer lines it takes no longer to read all than to begin a process and take over its answer.
MANY_LINES = 20_000
_LENGTH_BYTES = 8
# The most that Linux gives anybody unasked.
_PIPE_BYTES = 1 << 20


class SecondProcess:
    """A copy of this process at work; `pieces` must be gone through, once."""

    def __init__(self, number: int, pipe: int) -> None:
        self._number, self._pipe = number, pipe

    def pieces(self) -> Iterator[bytes]:
        """What it makes, piece by piece, each as soon as it is whole; no more once that failed."""
        try:
            with os.fdopen(self._pipe, "rb") as pipe:
                while (piece := _piece(pipe)) is not None:
                    yield piece
        finally:
            os.waitpid(self._number, 0)


def _piece(pipe: BinaryIO) -> bytes | None:
    """The next piece; None where it is not whole, or there is none."""
    length = int.from_bytes(pipe.read(_LENGTH_BYTES), "big")
    piece = pipe.read(length)
    return piece if length and len(piece) == length else None


def begun_beside(work: Callable[[], Iterable[bytes]]) -> SecondProcess | None:
    """A copy of this process that does the work, and nothing else; None where it cannot be had.

    The work must write nothing and read no file: it only reckons. No piece of it is empty.
    """
    if not may_be_copied():
        return None
    reading, writing = os.pipe()
    _widen(writing)
    try:
        number = os.fork()
    except OSError:
        os.close(reading)
        os.close(writing)
        return None
    if number:
        os.close(writing)
        return SecondProcess(number, reading)
    try:
        only_these_open(writing)
        with os.fdopen(writing, "wb") as pipe:
            for piece in work():
                pipe.write(len(piece).to_bytes(_LENGTH_BYTES, "big"))
                pipe.write(piece)
                pipe.flush()
    finally:
        # Whatever went wrong here is done, and told, by the first process.
        os._exit(0)


def _widen(pipe: int) -> None:
    """Let a pipe hold as much as it may, so that a process need not wait until the other reads."""
    try:
        from fcntl import F_SETPIPE_SZ, fcntl

        fcntl(pipe, F_SETPIPE_SZ, _PIPE_BYTES)
    except (ImportError, OSError):
        # Elsewhere than on Linux it stays as it is.
        return


def only_these_open(*numbers: int) -> None:
    """Close every other file that a copy of a process has open, but for what it prints to: a lock
    that it holds must end with the first process."""
    kept = sorted({2, *numbers})
    for one, next_one in pairwise((*kept, os.sysconf("SC_OPEN_MAX"))):
        os.closerange(one + 1, next_one)


def may_be_copied() -> bool:
    """Whether there is a second processor, and this process may be copied: a thread would be lost,
    and the locks that it holds would stay shut."""
    threading = sys.modules.get("threading")
    if not hasattr(os, "fork") or (threading is not None and threading.active_count() > 1):
        return False
    if hasattr(os, "sched_getaffinity"):
        return len(os.sched_getaffinity(0)) > 1
    return (os.cpu_count() or 1) > 1


def later_of(lines: Mapping[str, int], share: float) -> list[str]:
    """The last of these files, with about a share of all lines. `lines`: of each file by its name.

    >>> later_of({"a": 4, "b": 3, "c": 3}, 0.5)
    ['c']
    """
    left = sum(lines.values()) * (1 - share)
    later: list[str] = []
    for name, so_many in lines.items():
        if left <= 0:
            later.append(name)
        left -= so_many
    return later
