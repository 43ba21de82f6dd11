"""Lays octets down in a file that has no name, and takes them up again by their place in it."""

from __future__ import annotations

import os
import tempfile

# Where octets lie: at which one they begin, and how many they are.
Place = tuple[int, int]


class LaidDown:
    """What one run has laid down so far; gone with the run, however that ends."""

    def __init__(self, folder: str) -> None:
        """`folder`: where a large file may lie. OSError."""
        self._file = tempfile.TemporaryFile(dir=folder)  # noqa: SIM115  as long as the run
        self._end = 0

    def put(self, data: bytes) -> Place:
        """Lay octets down."""
        place = self._end, len(data)
        self._file.write(data)
        self._end += len(data)
        return place

    def take(self, place: Place) -> bytes:
        """What lies there."""
        at, length = place
        self._file.seek(at)
        data = self._file.read(length)
        self._file.seek(0, os.SEEK_END)
        return data
