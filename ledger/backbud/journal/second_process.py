"""Lets a copy of this process do a part of a large work while this one does the rest."""

from __future__ import annotations

import os
import sys
from collections.abc import Callable, Mapping
from itertools import pairwise

# Of fewer lines it takes no longer to read all than to begin a process and take over its answer.
MANY_LINES = 20_000
_LENGTH_BYTES = 8


class SecondProcess:
    """A copy of this process at work; `answer` must be asked for, once."""

    def __init__(self, number: int, pipe: int) -> None:
        self._number, self._pipe = number, pipe

    def answer(self) -> bytes | None:
        """Wait for what it made; None where that failed."""
        try:
            with os.fdopen(self._pipe, "rb") as pipe:
                data = pipe.read()
        finally:
            os.waitpid(self._number, 0)
        length, made = data[:_LENGTH_BYTES], data[_LENGTH_BYTES:]
        is_whole = len(length) == _LENGTH_BYTES and int.from_bytes(length, "big") == len(made)
        return made if is_whole else None


def begun_beside(work: Callable[[], bytes]) -> SecondProcess | None:
    """A copy of this process that does the work, and nothing else; None where it cannot be had.

    The work must write nothing and read no file: it only reckons.
    """
    if not may_be_copied():
        return None
    reading, writing = os.pipe()
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
        made = work()
        with os.fdopen(writing, "wb") as pipe:
            pipe.write(len(made).to_bytes(_LENGTH_BYTES, "big"))
            pipe.write(made)
    finally:
        # Whatever went wrong here is done, and told, by the first process.
        os._exit(0)


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
