"""Finds which species the installed packages offer, and loads none of them."""

from __future__ import annotations

import os
import sys
from collections.abc import Iterable, Iterator
from contextlib import suppress
from functools import cache
from importlib.machinery import PathFinder
from typing import TYPE_CHECKING

from backbud.plugins.faults import OURS

if TYPE_CHECKING:
    from importlib.metadata import EntryPoint

GROUP = "backbud.species"


@cache
def species_points() -> tuple[EntryPoint, ...]:
    """Where each species is to be had, by its name."""
    from importlib.metadata import entry_points

    return tuple(sorted(entry_points(group=GROUP), key=lambda point: point.name))


def are_ours_alone(kinds: Iterable[str]) -> bool:
    """Whether this program's own species are all there is, and each of these kinds is the name of
    one."""
    points = _points_in_folders()
    if points is None or not _are_ours(points):
        points = [(point.name, point.module) for point in species_points()]
    names = {name.casefold() for name, _ in points}
    return _are_ours(points) and all(kind.casefold() in names for kind in kinds)


def _are_ours(points: list[tuple[str, str]]) -> bool:
    """Whether each point, a name and a module, is of this program, and no two have one name."""
    names = {name.casefold() for name, _ in points}
    return len(names) == len(points) and all(
        module.partition(".")[0] in OURS for _, module in points
    )


def _points_in_folders() -> list[tuple[str, str]] | None:
    """The name and module of each species that is offered, as it stands in the folders that Python
    imports from; None where packages may lie elsewhere, or otherwise. Of a package that is there
    twice both are given.

    To load what the interpreter has for that takes longer than a check of a small journal.
    """
    if any(hasattr(one, "find_distributions") and one is not PathFinder for one in sys.meta_path):
        return None
    found: list[tuple[str, str]] = []
    for path in sys.path:
        try:
            with os.scandir(path or os.curdir) as entries:
                names = [entry.name for entry in entries]
        except NotADirectoryError:
            # A zip archive may hold packages, too.
            return None
        except OSError:
            continue
        for name in names:
            if name.endswith((".egg", ".egg-info", ".egg-link")):
                return None
            if name.endswith(".dist-info"):
                points = os.path.join(path, name, "entry_points.txt")
                with suppress(FileNotFoundError), open(points, encoding="utf-8") as file:
                    found += _points_in(file)
    return found


def _points_in(lines: Iterable[str]) -> Iterator[tuple[str, str]]:
    """The points of our group in a file of entry points (the format of the Python Packaging
    Authority: a group in brackets, `name = module:object` below it)."""
    group = ""
    for line in map(str.strip, lines):
        if line.startswith("["):
            group = line.strip("[]")
        elif group == GROUP and "=" in line and line[0] not in "#;":
            name, _, value = line.partition("=")
            yield name.strip(), value.partition(":")[0].strip()
