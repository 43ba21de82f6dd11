"""The person's own cache folder, and files in it that can be made again at any time.

What lies there is believed, so it is never in a journal, which may come from somebody else.
"""

from __future__ import annotations

import os
import stat
from collections.abc import Callable
from pathlib import Path
from typing import IO, TypeVar

T = TypeVar("T")


def recalled_from_cache(name: str, read: Callable[[IO[bytes]], T]) -> T | None:
    """What `read` makes of a file that was kept; None where there is none that can be trusted."""
    folder = cache_folder()
    kept = folder / name if folder else None
    if kept is None or not _mine(kept) or not kept.is_file():
        return None
    try:
        with kept.open("rb") as file:
            return read(file)
    except Exception:
        # A torn or foreign file is no reason to stop: what it held is made again.
        return None


def keep_in_cache(name: str, write: Callable[[IO[bytes]], object]) -> None:
    """Keep a file that `write` writes, whole or, where that cannot be, not at all."""
    folder = cache_folder()
    if folder is None:
        return
    waiting = folder / f"{name}.{os.getpid()}"
    try:
        with waiting.open("wb") as file:
            write(file)
        waiting.replace(folder / name)
    except OSError:
        waiting.unlink(missing_ok=True)


def cache_folder() -> Path | None:
    """Return the person's own cache folder for backbud, made if need be, or None.

    A path that is not absolute is left out, as the XDG base directories have it; it would lead into
    whatever folder a command is given in. So is one that lies in a journal.
    """
    named = (os.environ.get(name, "") for name in ("XDG_CACHE_HOME", "LOCALAPPDATA"))
    base = next(filter(os.path.isabs, named), None)
    try:
        folder = (Path(base) if base else Path.home() / ".cache").joinpath("backbud")
        if not folder.is_absolute() or _in_a_journal(folder.resolve()):
            return None
        folder.mkdir(mode=0o700, parents=True, exist_ok=True)
    except (OSError, RuntimeError):
        return None
    return folder if _mine(folder) else None


def _in_a_journal(folder: Path) -> bool:
    return any(os.path.lexists(above / "backbud.toml") for above in (folder, *folder.parents))


def _mine(path: Path) -> bool:
    """Whether the path is this person's own and nobody else may write it."""
    try:
        found = path.lstat()
    except OSError:
        return False
    if stat.S_ISLNK(found.st_mode):
        return False
    if not hasattr(os, "getuid"):
        return True
    return found.st_uid == os.getuid() and not found.st_mode & (stat.S_IWGRP | stat.S_IWOTH)
