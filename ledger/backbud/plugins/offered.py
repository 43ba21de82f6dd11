"""Finds which species the installed packages offer, and loads none of them."""

from __future__ import annotations

from collections.abc import Iterable
from functools import cache
from importlib.metadata import EntryPoint, entry_points

from backbud.plugins.faults import OURS

GROUP = "backbud.species"


@cache
def species_points() -> tuple[EntryPoint, ...]:
    """Where each species is to be had, by its name."""
    return tuple(sorted(entry_points(group=GROUP), key=lambda point: point.name))


def are_ours_alone(kinds: Iterable[str]) -> bool:
    """Whether this program's own species are all there is, and each of these kinds is the name of
    one."""
    points = species_points()
    if any(point.module.partition(".")[0] not in OURS for point in points):
        return False
    names = {point.name.casefold() for point in points}
    return len(names) == len(points) and all(kind.casefold() in names for kind in kinds)
