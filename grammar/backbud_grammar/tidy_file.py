"""A file is tidied in place, whole or not at all."""

from __future__ import annotations

import os
import stat
import tempfile
from contextlib import suppress

from backbud_grammar.tidy import TidyError, tidy_text


def tidy_file(path: str) -> bool:
    """Tidy a file in place; whether it changed. OSError, or TidyError where it is left alone.

    The new text is written beside the file and then put in its place in one step.
    """
    found = os.lstat(path)
    if stat.S_ISLNK(found.st_mode):
        raise TidyError("it is a link; name the file it leads to")
    if not stat.S_ISREG(found.st_mode):
        raise TidyError("it is a folder" if stat.S_ISDIR(found.st_mode) else "it is no plain file")
    with open(path, "rb") as file:
        data = file.read()
    tidied = tidy_text(_decoded(data)).encode()
    if tidied == data:
        return False
    if not os.access(path, os.W_OK):
        raise TidyError("it is not yours to write")
    _put_in_place(path, tidied, found)
    return True


def _decoded(data: bytes) -> str:
    if data.startswith((b"\xff\xfe", b"\xfe\xff")):
        raise TidyError("it is UTF-16; save it as UTF-8 first")
    if b"\0" in data:
        raise TidyError("it is no text")
    try:
        return data.decode()
    except UnicodeDecodeError as error:
        line = data.count(b"\n", 0, error.start) + 1
        raise TidyError(f"a letter in line {line} is not UTF-8; save it as UTF-8 first") from None


def _put_in_place(path: str, data: bytes, found: os.stat_result) -> None:
    """Write the bytes beside the file, and put them in its place if nobody wrote it meanwhile."""
    handle, waiting = tempfile.mkstemp(prefix=".", suffix=".tidy", dir=os.path.dirname(path) or ".")
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(data)
            file.flush()
            os.fsync(file.fileno())
        if hasattr(os, "chown"):
            # Only root can give a file away; the others own it already.
            with suppress(OSError):
                os.chown(waiting, found.st_uid, found.st_gid)
        os.chmod(waiting, stat.S_IMODE(found.st_mode))
        now = os.lstat(path)
        if (now.st_ino, now.st_size, now.st_mtime_ns) != (
            found.st_ino,
            found.st_size,
            found.st_mtime_ns,
        ):
            raise TidyError("it was written by somebody else just now; try again")
        os.replace(waiting, path)
    except BaseException:
        os.unlink(waiting)
        raise
