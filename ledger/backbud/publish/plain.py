"""Reads a file that anybody may have put there: no link is followed, no pipe waited for.

What lies in a journal may have come from anybody: a link may lead anywhere, and a pipe or a device
in the place of a file may never come to an end. Asked on the way of a run that has nothing to do,
so it imports only what the interpreter has loaded anyway.
"""

from __future__ import annotations

import os
import stat
from errno import ELOOP, ENOENT, ENOTDIR, ENXIO
from io import FileIO

# Nothing that backbud remembers comes near it; who ships more than this fills nobody's memory.
MOST_BYTES = 1 << 28
_WINDOWS_JUNCTION = 0xA0000003  # IO_REPARSE_TAG_MOUNT_POINT: a folder that leads elsewhere
_NOT_THERE = (ENOENT, ENOTDIR, ELOOP, ENXIO)
_FOLDER = os.O_RDONLY | getattr(os, "O_DIRECTORY", 0) | getattr(os, "O_NOFOLLOW", 0)
_FILE = (
    os.O_RDONLY
    | getattr(os, "O_NOFOLLOW", 0)
    | getattr(os, "O_NONBLOCK", 0)
    | getattr(os, "O_BINARY", 0)
)
_HAS_OPENAT = os.open in os.supports_dir_fd and hasattr(os, "O_NOFOLLOW")


def is_link(found: os.stat_result) -> bool:
    """Whether it is a link, or a folder that leads elsewhere."""
    return stat.S_ISLNK(found.st_mode) or getattr(found, "st_reparse_tag", 0) == _WINDOWS_JUNCTION


def read_plain(root: str, name: str, most: int = MOST_BYTES) -> bytes | None:
    """The bytes of the file at a relative POSIX path below a folder.

    None where there is none, where a link is on the way, where it is no regular file or a larger
    one than `most` bytes. The folder itself may be a link. OSError where it cannot be read.
    """
    try:
        descriptor = _open_below(root, name) if _HAS_OPENAT else _open_looked_at(root, name)
    except OSError as error:
        if error.errno in _NOT_THERE:
            return None
        raise
    if descriptor is None:
        return None
    with FileIO(descriptor) as file:
        found = os.fstat(descriptor)
        if not stat.S_ISREG(found.st_mode) or found.st_size > most:
            return None
        return file.read(found.st_size)


def _open_below(root: str, name: str) -> int:
    *folders, last = name.split("/")
    at = os.open(root, os.O_RDONLY | os.O_DIRECTORY)
    for folder in folders:
        try:
            below = os.open(folder, _FOLDER, dir_fd=at)
        finally:
            os.close(at)
        at = below
    try:
        return os.open(last, _FILE, dir_fd=at)
    finally:
        os.close(at)


def _open_looked_at(root: str, name: str) -> int | None:
    """The same where the system opens nothing below a folder that is open already."""
    path = root
    for part in name.split("/"):
        path = os.path.join(path, part)
        if is_link(os.lstat(path)):
            return None
    return os.open(path, _FILE) if os.path.isfile(path) else None
