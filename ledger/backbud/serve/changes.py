"""When something in a journal's folder changed, told once it has been quiet again.

The system tells most of it (watchdog). A look at names, sizes and times every two seconds finds
the rest: network disks, lost messages, a folder that was deleted and came back, and that the
person has come to trust the journal's own code, which is recorded outside of it.
"""

from __future__ import annotations

import fnmatch
import os
import stat
import threading
import time
from collections.abc import Callable, Iterator
from contextlib import suppress
from typing import TYPE_CHECKING

from msgspec import Struct

from backbud.consent.place import recorded
from backbud.publish import DEEPEST, OUTPUTS

if TYPE_CHECKING:
    from watchdog.events import FileSystemEvent
    from watchdog.observers.api import BaseObserver

# So long nothing more may happen; an editor's save is several steps within a few milliseconds.
QUIET_SECONDS = 0.03
# Nobody waits longer than this, however busy the folder is.
LONGEST_SECONDS = 0.5
LOOK_SECONDS = 2.0
# What editors leave beside a file while it is open, or while it is being saved.
SWAP_FILES = ("*~", "*.swp", "*.swo", "*.swx", "#*#", "4913", "*.tmp", "*.part", "*.crswap")
READ_DOT_FILES = (".gitignore",)


# ------------------------------------------------------------------ the pure core


def matters(path: str) -> bool:
    """Whether a file or folder may be part of the journal, by its path from the journal's folder.

    The output, the memory, folders whose names begin with a dot and swap files are not.
    """
    *folders, name = path.replace("\\", "/").split("/")
    if any(folder.startswith(".") for folder in folders) or (folders and folders[0] in OUTPUTS):
        return False
    if path in OUTPUTS or (name.startswith(".") and name not in READ_DOT_FILES):
        return False
    return not any(fnmatch.fnmatchcase(name, pattern) for pattern in SWAP_FILES)


class Waiting(Struct, frozen=True):
    """Changes that nobody was told of yet: when the first and the last of them were, in seconds."""

    first: float
    last: float

    @property
    def due(self) -> float:
        """When they are to be told: once it is quiet, but not too late."""
        return min(self.last + QUIET_SECONDS, self.first + LONGEST_SECONDS)


def with_change(waiting: Waiting | None, now: float) -> Waiting:
    """One more change, at a time in seconds."""
    return Waiting(now if waiting is None else waiting.first, now)


# Of each file that matters, by its path: size, time and number.
Look = dict[str, tuple[int, int, int]]


def look(journal: str) -> Look:
    """Every file of the journal that matters; empty where the folder is gone."""
    return dict(_look(journal, ""))


def _look(journal: str, below: str) -> Iterator[tuple[str, tuple[int, int, int]]]:
    try:
        entries = list(os.scandir(os.path.join(journal, below)))
    except OSError:
        return
    for entry in entries:
        path = f"{below}/{entry.name}" if below else entry.name
        if not matters(path):
            continue
        try:
            found = entry.stat(follow_symlinks=False)
        except OSError:
            continue  # it vanished in between
        if stat.S_ISDIR(found.st_mode) and path.count("/") < DEEPEST:
            yield from _look(journal, path)
        else:
            yield path, (found.st_size, found.st_mtime_ns, found.st_ino)


# ------------------------------------------------------------------ the thread


class Changes:
    """Calls `tell` in a thread of its own after every change, and on every new day.

    `today`: asks for the day. `tell` is called again only when it has returned.
    """

    def __init__(self, journal: str, tell: Callable[[], None], today: Callable[[], object]) -> None:
        self._journal, self._tell, self._today = os.path.realpath(journal), tell, today
        self._happened = threading.Condition()
        self._waiting: Waiting | None = None
        self._stopped = False
        self._observer: BaseObserver | None = None
        self._watched: tuple[int, int] | None = None
        self._seen: tuple[Look, bytes] = ({}, b"")
        self._day = today()
        self._thread = threading.Thread(target=self._run, name="changes", daemon=True)

    def start(self) -> None:
        """Begin to watch; what changes from here on is told, and at once all that is there."""
        self._watch()
        self.note()
        self._thread.start()

    def stop(self, wait_seconds: float = 2.0) -> None:
        """End it; a call of `tell` that takes longer is left to itself."""
        with self._happened:
            self._stopped = True
            self._happened.notify()
        self._unwatch()
        self._thread.join(wait_seconds)

    def note(self) -> None:
        """Something changed just now."""
        with self._happened:
            self._waiting = with_change(self._waiting, time.monotonic())
            self._happened.notify()

    # -------------------------------------------------------------- waiting

    def _run(self) -> None:
        while self._wait():
            self._seen, self._day = self._looked(), self._today()
            self._tell()

    def _wait(self) -> bool:
        """Wait until changes are due; False when it is to end."""
        next_look = time.monotonic() + LOOK_SECONDS
        while True:
            with self._happened:
                now = time.monotonic()
                if self._stopped:
                    return False
                if self._waiting is not None and now >= self._waiting.due:
                    self._waiting = None
                    return True
                until = next_look if self._waiting is None else self._waiting.due
                self._happened.wait(max(until - now, 0.0))
            if time.monotonic() >= next_look:
                self._look_again()
                next_look = time.monotonic() + LOOK_SECONDS

    def _look_again(self) -> None:
        """Find what the system did not tell."""
        if self._watched != _identity(self._journal):
            # The folder is gone, or another one came in its place.
            self._unwatch()
            self._watch()
            self.note()
        elif self._looked() != self._seen or self._today() != self._day:
            self.note()

    def _looked(self) -> tuple[Look, bytes]:
        """The files of the journal, and what of its code is trusted."""
        return look(self._journal), recorded(self._journal)

    # -------------------------------------------------------------- what the system tells

    def _watch(self) -> None:
        import logging
        import warnings

        from watchdog.events import FileSystemEventHandler
        from watchdog.observers import Observer

        # What it complains of (that it was ended as it waited) helps nobody; what it misses, the
        # look every two seconds finds.
        logging.getLogger("watchdog").setLevel(logging.CRITICAL + 1)
        # Folders that appear while they are listed are listed twice, and it warns of that.
        warnings.filterwarnings("ignore", category=RuntimeWarning, module=r"watchdog\.")
        changes = self

        class ChangeListener(FileSystemEventHandler):
            def on_any_event(self, event: FileSystemEvent) -> None:
                changes._heard(event)

        self._watched = _identity(self._journal)
        if self._watched is None:
            return
        observer = Observer()
        try:
            observer.schedule(ChangeListener(), self._journal, recursive=True)
            observer.start()
        except OSError:
            return  # no more watches to be had: the look every two seconds finds it
        self._observer = observer

    def _unwatch(self) -> None:
        observer, self._observer = self._observer, None
        if observer is not None:
            with suppress(OSError, RuntimeError):
                observer.stop()
                observer.join(1.0)

    def _heard(self, event: FileSystemEvent) -> None:
        # Reading a file is no change; a folder "changes" with each file in it, which is told too.
        if event.event_type in ("opened", "closed_no_write"):
            return
        if event.event_type == "modified" and event.is_directory:
            return
        for path in (event.src_path, event.dest_path):
            if path and self._matters(os.fsdecode(path)):
                self.note()
                return

    def _matters(self, path: str) -> bool:
        below = os.path.relpath(path, self._journal)
        return below == os.curdir or matters(below)


def _identity(folder: str) -> tuple[int, int] | None:
    """Which folder stands at a path; None where there is none."""
    try:
        found = os.stat(folder)
    except OSError:
        return None
    return found.st_dev, found.st_ino
