"""Tells whether memory is left for a copy of this process."""

from __future__ import annotations

import os
from contextlib import suppress

_SYSTEM = "/proc/meminfo"
# What the processes of a container may take together (Linux, control groups of version 2).
_CONTAINER = "/sys/fs/cgroup/memory.max"


def has_room_for_copy() -> bool:
    """Whether as much again as this process holds is left: both write to what they share, if only
    to count who looks at it, and then each has its own. True where the system does not say."""
    with suppress(OSError, ValueError, IndexError):
        held = _held()
        return held < min(_available(), _limit() - held)
    return True


def _held() -> int:
    """What this process holds, in bytes (Linux: the second figure is its pages)."""
    with open("/proc/self/statm", "rb") as file:
        return int(file.read().split()[1]) * os.sysconf("SC_PAGE_SIZE")


def _available() -> int:
    """What is left for new work without swapping, in bytes (Linux, proc(5))."""
    with open(_SYSTEM, encoding="ascii") as file:
        found = [line for line in file if line.startswith("MemAvailable:")]
    return int(found[0].split()[1]) * 1024


def _limit() -> float:
    """What all processes of this container may hold; endless where nobody says."""
    try:
        with open(_CONTAINER, encoding="ascii") as file:
            found = file.read().strip()
    except OSError:
        return float("inf")
    return float("inf") if found == "max" else int(found)
