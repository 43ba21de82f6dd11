"""Where the files of a journal come from: the disk, or what an open editor holds of them."""

from __future__ import annotations

from typing import Protocol

from backbud.journal.find import Found, find_files
from backbud.journal.load import Loaded, load


class FileSource(Protocol):
    """Finds the text files of one journal and loads each by its name."""

    def found(self) -> Found:
        """What lies below the journal's folder. OSError where the folder cannot be read."""

    def loaded(self, name: str) -> Loaded:
        """The text of one file, the settings too."""


class OnDisk:
    """The files as they lie on the disk."""

    def __init__(self, folder: str) -> None:
        self._folder = folder

    def found(self) -> Found:
        return find_files(self._folder)

    def loaded(self, name: str) -> Loaded:
        return load(self._folder, name)
