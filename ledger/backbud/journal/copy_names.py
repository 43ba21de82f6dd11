"""Tells by its name whether a file is a copy that a synchroniser or a file manager made."""

from __future__ import annotations

import re
from collections.abc import Container

# What such programs put behind a name, or before it, in English and German; from memory of their
# kind, and of none in particular.
_SAID = r"conflict(?:ed|s)?|copy|sync[ -]?conflict|in conflict|kopie|konflikt\w*|dupli[ck]at\w*"
_BEHIND = re.compile(rf"(?i)[ ._-]*(?:\((?:[^()]*\b(?:{_SAID})\b[^()]*|[0-9]{{1,3}})\)"
                     rf"|[ ._-](?:{_SAID})\b[^/]*)$")  # fmt: skip
_BEFORE = re.compile(r"(?i)^(?:copy(?: \([0-9]+\))? of|kopie(?: \([0-9]+\))? von) +")


_CONFLICT = re.compile(r"(?i)conflict|konflikt")


def is_of_conflict(name: str) -> bool:
    """Whether a name says that two wrote the same file at once."""
    return _CONFLICT.search(name.rpartition("/")[2]) is not None


def original_of(name: str, files: Container[str]) -> str:
    """The file that one is a copy of by its name, of those that are there; "" where it is none.

    >>> original_of("diary/2026 (conflicted copy 2026-11-20).txt", {"diary/2026.txt"})
    'diary/2026.txt'
    """
    folder, _, file = name.rpartition("/")
    stem, dot, ending = file.rpartition(".")
    if not dot:
        return ""
    base = _BEHIND.sub("", _BEFORE.sub("", stem))
    found = f"{folder}/{base}.{ending}" if folder else f"{base}.{ending}"
    return found if base and found != name and found in files else ""
