"""One run at a time publishes in a journal: a lock that ends with its process."""

from __future__ import annotations

import os
import sys
import time
from _thread import get_ident
from collections.abc import Iterator
from contextlib import contextmanager, suppress

from backbud.publish import MEMORY
from backbud.publish.disk import check_file, lstat, memory_folder
from backbud.publish.refused import STILL_WHOLE, BusyError, told_by_system

if sys.platform == "win32":
    import msvcrt
else:
    import fcntl

LOCK = "lock"
LOCK_WAIT_SECONDS = 10.0
_PAUSE_SECONDS = 0.05
_LOCKED_BYTE = 1 << 30  # far behind the text, which others may read while Windows locks this byte
_FLAGS = os.O_RDWR | os.O_CREAT | getattr(os, "O_NOFOLLOW", 0) | getattr(os, "O_NONBLOCK", 0)

_held: set[tuple[str, int, int]] = set()  # the journal, the process and its thread


@contextmanager
def lock(journal: str, wait_seconds: float = LOCK_WAIT_SECONDS, name: str = LOCK) -> Iterator[None]:
    """Keep every other run, and every other thread of this one, from publishing in the journal.

    `name`: another lock of the journal, for what others do one at a time.

    A thread that holds the lock may take it again; so may, unwanted, two tasks of one event loop.
    Raises BusyError after `wait_seconds`, PublishError if the journal cannot be written to.
    """
    key = (os.path.join(os.path.realpath(journal), name), os.getpid(), get_ident())
    if key in _held:
        yield
        return
    until = time.monotonic() + wait_seconds
    while (descriptor := _taken(journal, name, until)) is None:
        time.sleep(_PAUSE_SECONDS)
    _held.add(key)
    try:
        yield
    finally:
        _held.discard(key)
        _unlock(descriptor)  # a process that was forked meanwhile may have it open still
        os.close(descriptor)


def _taken(journal: str, name: str, until: float) -> int | None:
    """The locked file's descriptor; None while another run has it, BusyError when it is late."""
    path = os.path.join(memory_folder(journal), name)
    with told_by_system(journal, STILL_WHOLE):
        check_file(path, f"{MEMORY}/{name}")
        descriptor = os.open(path, _FLAGS, 0o666)
        try:
            found = _lock_now(descriptor) and lstat(path)
            # If `.backbud/` was deleted in between, others would lock another file.
            if found and os.path.samestat(found, os.fstat(descriptor)):
                _sign(descriptor)
                return descriptor
            if time.monotonic() >= until:
                who = os.read(descriptor, 100).decode("ascii", "replace") or "unknown"
                raise BusyError(
                    f"Another run of backbud (process {who}) is at work on this journal."
                    " Try again when it has ended."
                )
        except BaseException:
            os.close(descriptor)
            raise
        os.close(descriptor)
        return None


def _sign(descriptor: int) -> None:
    """Say who holds the lock. The lock counts without it, so a full disk is no obstacle."""
    with suppress(OSError):
        os.lseek(descriptor, 0, os.SEEK_SET)
        os.ftruncate(descriptor, 0)
        os.write(descriptor, str(os.getpid()).encode())


def _lock_now(descriptor: int) -> bool:
    """Whether the file could be locked at once; whoever reads it then begins at its first byte."""
    try:
        if sys.platform == "win32":
            os.lseek(descriptor, _LOCKED_BYTE, os.SEEK_SET)
            msvcrt.locking(descriptor, msvcrt.LK_NBLCK, 1)
        else:
            fcntl.flock(descriptor, fcntl.LOCK_EX | fcntl.LOCK_NB)
    except OSError as error:
        if sys.platform != "win32" and not isinstance(error, BlockingIOError):
            raise
        os.lseek(descriptor, 0, os.SEEK_SET)
        return False
    return True


def _unlock(descriptor: int) -> None:
    if sys.platform == "win32":
        os.lseek(descriptor, _LOCKED_BYTE, os.SEEK_SET)
        msvcrt.locking(descriptor, msvcrt.LK_UNLCK, 1)
    else:
        fcntl.flock(descriptor, fcntl.LOCK_UN)
