"""The Python files in a journal's `plugins/`, each read once, and the digest of them all.

Each is read once: what is shown, digested and run are these very bytes. Only regular files are
read, and no link is followed.
"""

from __future__ import annotations

import os
import stat
from collections.abc import Iterator, Mapping
from hashlib import blake2b

from msgspec import Struct

from backbud.consent.place import PLUGINS
from backbud_grammar.problems import Flaw

LARGEST_FILE = 1 << 20
MOST_FILES = 500
_ENDING = ".py"
# Windows has neither: there an open follows a link, but none is opened, since it was seen before.
_FLAGS = (
    os.O_RDONLY
    | getattr(os, "O_NOFOLLOW", 0)
    | getattr(os, "O_NONBLOCK", 0)
    | getattr(os, "O_BINARY", 0)
)


class PluginFiles(Struct, frozen=True):
    """The set: bytes by path from the journal's folder, sorted; what was left out, and why."""

    files: Mapping[str, bytes] = {}
    flaws: tuple[tuple[str, Flaw], ...] = ()

    @property
    def digest(self) -> str:
        """The digest of the whole set, of names and bytes, in hexadecimal."""
        return set_digest(self.files)


def text_of(data: bytes) -> str:
    """The text of a plugin, with plain line ends. UnicodeDecodeError where it is no UTF-8."""
    return data.decode("utf-8-sig").replace("\r\n", "\n").replace("\r", "\n")


def set_digest(files: Mapping[str, bytes]) -> str:
    """A digest of names and bytes, each closed by its length, so that no two sets read the same."""
    digest = blake2b(digest_size=32)
    for name, data in sorted(files.items()):
        written = name.encode()
        digest.update(b"%d:%s%d:" % (len(written), written, len(data)))
        digest.update(data)
    return digest.hexdigest()


def read_plugins(journal: str) -> PluginFiles:
    """Read every `*.py` of the journal's `plugins/` and below it.

    Passed over without a word: names that begin with a dot, and everything that is no `*.py`,
    compiled files among it.
    """
    files: dict[str, bytes] = {}
    flaws: list[tuple[str, Flaw]] = []
    top = os.path.join(journal, PLUGINS)
    if os.path.islink(top):
        return PluginFiles(flaws=((PLUGINS, _link()),))
    for name in _names(journal, PLUGINS, flaws):
        if len(files) == MOST_FILES:
            flaws.append((name, _flaw("many-files", "there are too many files in plugins/")))
            break
        try:
            data = _read(os.path.join(journal, name))
        except OSError as error:
            flaws.append((name, _flaw("unreadable", f"this cannot be read: {error.strerror}")))
            continue
        if data is None:
            flaws.append((name, _flaw("no-file", "this is no regular file")))
        elif len(data) > LARGEST_FILE:
            flaws.append((name, _flaw("large-file", "this file is too large for a plugin")))
        else:
            files[name] = data
    return PluginFiles(dict(sorted(files.items())), tuple(flaws))


def _names(journal: str, below: str, flaws: list[tuple[str, Flaw]]) -> Iterator[str]:
    try:
        entries = sorted(os.scandir(os.path.join(journal, below)), key=lambda entry: entry.name)
    except FileNotFoundError:
        return
    except OSError as error:
        flaws.append((below, _flaw("unreadable", f"this cannot be read: {error.strerror}")))
        return
    for entry in entries:
        name = f"{below}/{entry.name}"
        is_python = entry.name.endswith(_ENDING)
        if entry.name.startswith("."):
            continue
        if entry.is_symlink():
            if is_python or entry.is_dir():
                flaws.append((name, _link()))
        elif entry.is_dir(follow_symlinks=False):
            yield from _names(journal, name, flaws)
        elif is_python and not _is_text(entry.name):
            shown = name.encode(errors="surrogateescape").decode(errors="backslashreplace")
            flaws.append((shown, _flaw("bad-file-name", "this name is not UTF-8")))
        elif is_python:
            yield name


def _read(path: str) -> bytes | None:
    """The bytes, one more than a plugin may have at the most; None of what is no regular file."""
    descriptor = os.open(path, _FLAGS)
    with open(descriptor, "rb") as file:
        if not stat.S_ISREG(os.fstat(descriptor).st_mode):
            return None
        return file.read(LARGEST_FILE + 1)


def _is_text(name: str) -> bool:
    try:
        name.encode()
    except UnicodeEncodeError:
        return False
    return True


def _link() -> Flaw:
    # In the words of journal/find.py, which finds linked folders too.
    return Flaw(
        "link",
        0,
        1,
        1,
        "this is a link and was not followed",
        "Everything of a journal lies in its own folder.",
    )


def _flaw(code: str, message: str) -> Flaw:
    return Flaw(code, 0, 1, 1, message, "It was left out.")
