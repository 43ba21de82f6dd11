"""Keeps a log of nightly runs: a line a run, and no more of it than anybody reads."""

from __future__ import annotations

import os
from contextlib import suppress
from datetime import datetime

from backbud.person import folder_outside
from backbud_grammar.shown import shown

NAME = "nightly.log"
# A year of two runs a day is some 100 kB.
MOST_BYTES, OLD_ONES = 128 * 1024, 3


def log_file(journal: str) -> str:
    """Where the log lies, in the person's own folder; "" where that is in the journal."""
    folder = folder_outside(journal)
    return os.path.join(folder, NAME) if folder else ""


def add_to_log(journal: str, now: datetime, line: str, whole: bool) -> None:
    """Add a line; where the file has become long, it is set aside first, and the oldest goes. A log
    that cannot be written holds nothing up."""
    path = log_file(journal)
    if not path:
        return
    with suppress(OSError):
        os.makedirs(os.path.dirname(path), mode=0o700, exist_ok=True)
        _rotate(path)
        mark = "" if whole else " NOT WHOLE"
        said = f"{now:%Y-%m-%d %H:%M}{mark} {os.path.realpath(journal)}: {line}"
        flags = os.O_WRONLY | os.O_APPEND | os.O_CREAT | getattr(os, "O_NOFOLLOW", 0)
        with open(os.open(path, flags, 0o600), "a", encoding="utf-8", errors="replace") as file:
            file.write(shown(said) + "\n")


def _rotate(path: str) -> None:
    if not os.path.exists(path) or os.path.getsize(path) < MOST_BYTES:
        return
    for n in range(OLD_ONES, 0, -1):
        older = path if n == 1 else f"{path}.{n - 1}"
        if os.path.exists(older):
            os.replace(older, f"{path}.{n}")
