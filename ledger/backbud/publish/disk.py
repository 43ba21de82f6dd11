"""The steps that safe writing is made of: files written, synced and renamed, real folders made."""

from __future__ import annotations

import errno
import os
import stat
import sys
import time
from _thread import get_ident
from collections.abc import Callable, Iterable, Sequence
from contextlib import suppress

from backbud.publish import MEMORY
from backbud.publish.plain import is_link
from backbud.publish.refused import STILL_WHOLE, PublishError, linked, told_by_system

# Windows refuses to replace or remove a file that a reader has open for a moment.
RETRY_PAUSES_SECONDS: tuple[float, ...] = (
    (0.01, 0.02, 0.05, 0.1, 0.2, 0.4, 0.8) if sys.platform == "win32" else ()
)

# So many files are synced at once.
_AT_ONCE = 16


def lstat(path: str) -> os.stat_result | None:
    """What stands at a path, a link itself and not its target; None if nothing does."""
    try:
        return os.lstat(path)
    except (FileNotFoundError, NotADirectoryError):
        return None


def is_real_folder(path: str) -> bool:
    """Whether a folder stands there, and no link to one."""
    found = lstat(path)
    return found is not None and stat.S_ISDIR(found.st_mode) and not is_link(found)


def check_file(path: str, shown: str) -> None:
    """PublishError where something stands at a path that is no file: a link, a folder."""
    found = lstat(path)
    if found is not None and not stat.S_ISREG(found.st_mode):
        raise PublishError(f"{shown} is in the way: it should be a file. Move it away.")


def make_real_folder(path: str, shown: str) -> None:
    """Make a folder if nothing stands there. PublishError where a link does, or a file."""
    found = lstat(path)
    if found is None:
        # Another run may make it at the same time.
        with suppress(FileExistsError):
            os.mkdir(path)
            sync_folder(os.path.dirname(path) or os.curdir)
        found = lstat(path)
    if found is None:
        return
    if is_link(found):
        raise linked(shown)
    if not stat.S_ISDIR(found.st_mode):
        raise PublishError(f"{shown} is in the way: it should be a folder. Move it away.")


def memory_folder(journal: str) -> str:
    """The path of `.backbud/` in the journal, made if it is missing, with a `.gitignore` of all.

    Raises PublishError if it is a link or cannot be made.
    """
    folder = os.path.join(journal, MEMORY)
    with told_by_system(journal, STILL_WHOLE):
        if not os.path.isdir(journal):
            raise PublishError(f"There is no folder {journal}.")
        make_real_folder(folder, MEMORY)
        if not os.path.lexists(os.path.join(folder, ".gitignore")):
            write_whole(folder, ".gitignore", b"*\n")
    return folder


def write_new(path: str, content: bytes) -> None:
    """Write a file that is not there yet: never through a link that somebody put there."""
    with open(path, "xb") as file:
        file.write(content)


def write_whole(folder: str, name: str, content: bytes, *, synced: bool = True) -> None:
    """Write a small file so that a reader finds the old bytes or the new ones. Raises OSError.

    `synced`: also after the machine lost its power; what can be made again need not be.
    """
    path = os.path.join(folder, name)
    beside = f"{path}.{os.getpid()}-{get_ident()}"
    remove_if_there(beside)  # left by a dead process that had this one's number
    try:
        write_new(beside, content)
        if synced:
            sync_files([beside])
        retried(os.replace, beside, path)
    except OSError:
        remove_if_there(beside)
        raise


def sync_files(paths: Iterable[str]) -> None:
    """Bring files to the disk."""
    _at_once(_sync_file, [*paths])


def sync_folders(paths: Iterable[str]) -> None:
    """`sync_folder` of each; some may have been removed."""
    _at_once(_sync_folder_if_there, [*paths])


def _sync_file(path: str) -> None:
    # With no file object round it: of these there are as many as an output has files.
    descriptor = os.open(path, os.O_RDWR)
    try:
        os.fsync(descriptor)
    finally:
        os.close(descriptor)


def _sync_folder_if_there(path: str) -> None:
    with suppress(FileNotFoundError, NotADirectoryError):
        sync_folder(path)


def _at_once(sync: Callable[[str], None], paths: Sequence[str]) -> None:
    """Sync each of these; what is asked for at once a disk does together, in nearly the time of
    one. Raises the first of what was raised, once all have ended."""
    if len(paths) < 2:
        for path in paths:
            sync(path)
        return
    from threading import Thread

    raised: list[BaseException] = []

    def some(of: Sequence[str]) -> None:
        try:
            for path in of:
                sync(path)
        except BaseException as error:
            raised.append(error)

    threads: list[Thread] = []
    for share in [paths[n::_AT_ONCE] for n in range(min(_AT_ONCE, len(paths)))]:
        thread = Thread(target=some, args=(share,))
        try:
            thread.start()
        except RuntimeError:
            # The system gives no more of them.
            some(share)
        else:
            threads.append(thread)
    for thread in threads:
        thread.join()
    if raised:
        raise raised[0]


def sync_folder(path: str) -> None:
    """Sync the names in a folder, where the system can."""
    if sys.platform == "win32":
        return
    descriptor = os.open(path, os.O_RDONLY | os.O_DIRECTORY)
    try:
        os.fsync(descriptor)
    except OSError as error:
        # Some network file systems cannot sync a folder at all.
        if error.errno not in (errno.EINVAL, errno.ENOTSUP):
            raise
    finally:
        os.close(descriptor)


def retried(step: Callable[..., None], *paths: str) -> None:
    """Take a step on files, again where somebody has one of them open for a moment."""
    for pause in RETRY_PAUSES_SECONDS:
        try:
            return step(*paths)
        except PermissionError:
            time.sleep(pause)
    return step(*paths)


def remove_if_there(path: str) -> None:
    """Remove a file, or do nothing where there is none. Raises OSError."""
    with suppress(FileNotFoundError):
        retried(os.remove, path)
