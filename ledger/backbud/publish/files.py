"""The shape of an output that is made file by file, so that a run need not hold all of it."""

from __future__ import annotations

from collections.abc import Generator
from typing import TypeVar

T = TypeVar("T")
# Each file's relative POSIX path and its bytes; what is returned is known once all are made.
Files = Generator[tuple[str, bytes], None, T]


def gathered(files: Files[T]) -> tuple[dict[str, bytes], T]:
    """All of the files at once, and what is returned at their end."""
    found: dict[str, bytes] = {}
    while True:
        try:
            name, content = next(files)
        except StopIteration as end:
            return found, end.value
        found[name] = content
