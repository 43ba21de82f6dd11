"""Puts a new text in the place of a file of the diary, whole, if nobody wrote it meanwhile."""

from __future__ import annotations

import os
import stat
from contextlib import suppress

from backbud.jot.line import JotError
from backbud.publish.disk import (
    is_real_folder,
    lstat,
    make_real_folder,
    remove_if_there,
    retried,
    sync_folder,
)


def plain_bytes(path: str, name: str) -> tuple[bytes, os.stat_result]:
    """The bytes of a plain file, and which they were."""
    found = os.lstat(path)
    if not stat.S_ISREG(found.st_mode):
        raise JotError(f"{name} is no plain file; nothing was changed")
    if not os.access(path, os.W_OK):
        raise JotError(f"{name} is not yours to write")
    with open(path, "rb") as file:
        return file.read(), found


def replace_file(
    path: str, folder: str, name: str, new: bytes, old: bytes, found: os.stat_result | None
) -> bool:
    """Write the bytes beside the file and put them in its place, if nobody wrote it meanwhile.

    `found`: the file as it was, None where there was none.
    """
    _real_folders(folder, name)
    beside = f"{os.path.dirname(path)}/.{os.path.basename(path)}.{os.getpid()}.jot"
    remove_if_there(beside)  # left by a dead process that had this one's number
    flags = os.O_WRONLY | os.O_CREAT | os.O_EXCL | getattr(os, "O_BINARY", 0)
    handle = os.open(beside, flags | getattr(os, "O_NOFOLLOW", 0), 0o666)
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(new)
            file.flush()
            os.fsync(file.fileno())
        if found is None:
            return _linked(beside, path)
        if hasattr(os, "chown"):
            # Only root can give a file away; the others own it already.
            with suppress(OSError):
                os.chown(beside, found.st_uid, found.st_gid)
        os.chmod(beside, stat.S_IMODE(found.st_mode))
        if plain_bytes(path, name)[0] != old:
            return False
        retried(os.replace, beside, path)
        sync_folder(os.path.dirname(path))
    finally:
        with suppress(FileNotFoundError):
            os.unlink(beside)
    return True


def _linked(beside: str, path: str) -> bool:
    """Give a new file its name; whether nobody else had made one of that name meanwhile."""
    try:
        os.link(beside, path)
    except FileExistsError:
        return False
    except OSError:
        # This disk knows no links of files.
        if lstat(path) is not None:
            return False
        retried(os.replace, beside, path)
    sync_folder(os.path.dirname(path))
    return True


def _real_folders(folder: str, name: str) -> None:
    """Make the folders that a file is to lie in; PublishError where a link is in the way."""
    *parents, _ = name.split("/")
    for n in range(len(parents)):
        below = "/".join(parents[: n + 1])
        path = os.path.join(folder, below)
        if not is_real_folder(path):
            make_real_folder(path, below)
