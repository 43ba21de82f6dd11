"""Finds the trees in whose history a line of the diary stands."""

from __future__ import annotations

from collections.abc import Collection

from backbud.collection.whereabouts import Histories


def trees_meant(histories: Histories, file: str, subjects: int, acts: Collection[int]) -> list[str]:
    """The handles, in the order of the journal. `subjects`: the number of the subject line (from
    1), `acts`: those of the act lines below it."""
    return [
        handle for handle, at in histories.trees.items() if at.lines.holds(file, subjects, acts)
    ]
