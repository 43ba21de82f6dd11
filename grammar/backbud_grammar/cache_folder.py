"""Finds the person's own folder for what only saves time, and says what in it can be trusted."""

from __future__ import annotations

import os
import stat
from pathlib import Path


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
    return folder if is_mine(folder) else None


def _in_a_journal(folder: Path) -> bool:
    return any(os.path.lexists(above / "backbud.toml") for above in (folder, *folder.parents))


def is_mine(path: Path) -> bool:
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
