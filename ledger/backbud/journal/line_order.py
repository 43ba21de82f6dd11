"""The order of what was written: by day, then by file and line, wherever a file rests by now.

`backbud rest` moves whole days of years long past to files below `resting/`. Each is still sorted
by the name that it had before, in front of what is left in a file of that name.
"""

from __future__ import annotations

from typing import Protocol

RESTING = "resting"
_PREFIX = f"{RESTING}/"


class _OnALine(Protocol):
    @property
    def file(self) -> str: ...

    @property
    def line(self) -> int: ...


def rests(file: str) -> bool:
    """Whether a file lies in the folder of years long past."""
    return file.startswith(_PREFIX)


def sorted_as(file: str) -> tuple[str, bool]:
    """What a file is sorted by: the name that it had before it was put to rest; and whether it is
    not at rest.

    >>> sorted_as("resting/diary/2014.txt") < sorted_as("diary/2014.txt") < sorted_as("garden.txt")
    True
    """
    return file.removeprefix(_PREFIX), not rests(file)


def likelier_first(name: str) -> tuple[int, str, bool]:
    """Sorts files that say the same, the one to keep first: the name of a copy is longer, and what
    is at rest came from a file of the name before it."""
    plain, stays = sorted_as(name)
    return len(plain), plain, not stays


def line_order(at: _OnALine) -> tuple[str, bool, int]:
    """What lines of one day are sorted by."""
    return *sorted_as(at.file), at.line
