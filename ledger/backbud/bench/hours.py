"""How long each act takes, learned from the hours that were written down, by size of tree."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from math import inf
from typing import NamedTuple

from backbud.bench.pots import positive

# The trade's classes by height in cm, each to its limit. Common practice, no source: shows and
# countries draw the lines a little differently.
SIZE_CLASSES_CM: Sequence[tuple[str, float]] = (
    ("mame", 10),
    ("shohin", 20),
    ("kifu", 35),
    ("chuhin", 60),
    ("dai", inf),
)

# Common practice, no source: two works are chance, three begin to be a habit.
FEWEST_WORKED = 3

# An act, the tree's height in cm (None where it is not known), the minutes it took.
Worked = tuple[str, float | None, float]


class ActOfSize(NamedTuple):
    """An act on trees of one size class ("" where the height is not known)."""

    act: str
    size_class: str


def size_class(size_cm: float | None) -> str:
    """Return the trade's class of a tree by its height in cm; "" where that is not known.

    ValueError where the height is not above zero.
    """
    if size_cm is None:
        return ""
    positive(size_cm, "tree's height in cm")
    return next(name for name, limit_cm in SIZE_CLASSES_CM if size_cm <= limit_cm)


def learned_minutes(worked: Iterable[Worked]) -> dict[ActOfSize, float]:
    """Return the median minutes of each act and size class that was worked three times or more.

    ValueError where minutes or a height are not above zero.
    """
    minutes_of: dict[ActOfSize, list[float]] = {}
    for act, size_cm, minutes in worked:
        positive(minutes, f"minutes of {act}")
        minutes_of.setdefault(ActOfSize(act, size_class(size_cm)), []).append(minutes)
    return {
        act: _median(minutes)
        for act, minutes in minutes_of.items()
        if len(minutes) >= FEWEST_WORKED
    }


def minutes_for(
    act: str,
    size_cm: float | None,
    learned: Mapping[ActOfSize, float],
    default_minutes: float,
) -> float:
    """Return the minutes an act takes on a tree of a height (cm): as learned, else the default."""
    return learned.get(ActOfSize(act, size_class(size_cm)), default_minutes)


def _median(values: Sequence[float]) -> float:
    # `statistics` would do, and adds about 5 ms to every start.
    ordered = sorted(values)
    middle = len(ordered) // 2
    return (ordered[middle] + ordered[-middle - 1]) / 2
