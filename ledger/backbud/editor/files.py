"""The files of one journal for the language server: what editors hold open stands before the disk.

The disk is only read. A file is read again when its size, time or number changed.
"""

from __future__ import annotations

import os
import stat
import time
from collections.abc import Mapping
from urllib.parse import quote, unquote, urlsplit

from msgspec import Struct

from backbud.editor.text import OpenText
from backbud.journal.find import Found, find_files
from backbud.journal.load import Loaded, load
from backbud.journal.settings import SETTINGS_FILE
from backbud.publish import OUTPUTS

# So often at most the disk is looked at for what nobody told.
LOOK_S = 3.0


def uri_of(folder: str, name: str) -> str:
    """The address of a file of a journal."""
    path = os.path.join(folder, name).replace(os.sep, "/")
    return f"file://{quote(path if path.startswith('/') else f'/{path}')}"


def path_of(uri: str) -> str:
    """The path of a file's address; "" where it is no file of this machine."""
    parts = urlsplit(uri)
    if parts.scheme != "file" or parts.netloc not in ("", "localhost"):
        return ""
    path = unquote(parts.path)
    # Windows: /C:/journal
    return path[1:] if os.name == "nt" and path[2:3] == ":" else path


def name_in(folder: str, path: str) -> str:
    """The name of a file below a journal's folder, with `/`; "" where it lies elsewhere."""
    real = os.path.join(os.path.realpath(os.path.dirname(path)), os.path.basename(path))
    below = os.path.relpath(real, os.path.realpath(folder)).replace(os.sep, "/")
    return "" if below.startswith("../") or below == ".." or os.path.isabs(below) else below


def may_be_read(name: str) -> bool:
    """Whether a file that does not lie on the disk yet would be read as a part of the journal."""
    parts = name.split("/")
    return (
        name.lower().endswith(".txt")
        and not any(part.startswith(".") for part in parts)
        and parts[0] not in OUTPUTS
    )


class _Seen(Struct, frozen=True):
    """A file as it was read, and by what it is known to be the same still."""

    mark: tuple[int, int, int]
    loaded: Loaded


class JournalFiles:
    """Files of a journal on the disk, as far as they were looked at; and what is open.

    Used by the reading thread alone, but for `open`, which is replaced and never changed.
    """

    def __init__(self, folder: str) -> None:
        self.folder = folder
        self.open: Mapping[str, OpenText] = {}
        self._found: Found | None = None
        self._seen: dict[str, _Seen] = {}
        self._looked = time.monotonic()

    def look_again(self) -> None:
        """The disk may hold something else by now."""
        self._found = None

    def at_once(self, texts: Mapping[str, OpenText]) -> _AtOnce:
        """The files as they are now, with these texts open."""
        if self._found is None:
            self._found = find_files(self.folder)
            names = (SETTINGS_FILE, *self._found.files)
            self._seen = {name: self._read(name) for name in names}
        return _AtOnce(self, self._found, texts)

    def is_changed(self) -> bool:
        """Whether files came, went or were written since they were read; looked at now and then."""
        now = time.monotonic()
        if self._found is None or now < self._looked + LOOK_S:
            return False
        self._looked = now
        found = find_files(self.folder)
        names = (SETTINGS_FILE, *found.files)
        known = {name: seen.mark for name, seen in self._seen.items()}
        if found == self._found and all(known.get(name) == self._mark(name) for name in names):
            return False
        self._found = None
        return True

    def on_disk(self, name: str) -> Loaded:
        """A file as it was last read."""
        if name not in self._seen:
            self._seen[name] = self._read(name)
        return self._seen[name].loaded

    def differs(self, name: str) -> bool:
        """Whether a file lies otherwise on the disk than it was read."""
        known = self._seen.get(name)
        path = os.path.join(self.folder, name)
        if os.path.realpath(path) != os.path.join(os.path.realpath(self.folder), name):
            return True
        return known is None or load(self.folder, name) != known.loaded

    def _read(self, name: str) -> _Seen:
        mark = self._mark(name)
        known = self._seen.get(name)
        if known is not None and mark == known.mark and mark[1]:
            return known
        return _Seen(mark, load(self.folder, name))

    def _mark(self, name: str) -> tuple[int, int, int]:
        try:
            found = os.lstat(os.path.join(self.folder, name))
        except OSError:
            return 0, 0, 0
        if not stat.S_ISREG(found.st_mode):
            return 0, 0, 0
        return found.st_size, found.st_mtime_ns, found.st_ino


class _AtOnce:
    """The files of a journal as one reading sees them."""

    def __init__(self, files: JournalFiles, found: Found, texts: Mapping[str, OpenText]) -> None:
        self._files, self._texts = files, texts
        # What is new in an editor and lies nowhere yet is read too; what is ignored is not.
        new = {
            name
            for name in texts
            if name not in found.files
            and may_be_read(name)
            and not os.path.lexists(os.path.join(files.folder, name))
        }
        names = tuple(sorted({*found.files, *new})) if new else found.files
        self._found = Found(names, found.passed_over)

    def found(self) -> Found:
        return self._found

    def loaded(self, name: str) -> Loaded:
        text = self._texts.get(name)
        return text.loaded if text is not None else self._files.on_disk(name)
