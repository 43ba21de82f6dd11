"""Finds the tree that somebody asks for, by its handle or by a follow-up's id."""

from __future__ import annotations

from collections.abc import Mapping

from backbud.collection.whereabouts import Histories, Whereabouts
from backbud.journal.things import Things
from backbud_grammar.handles import fold


def tree_handle(written: str, things: Things, trees: Mapping[str, Whereabouts]) -> str:
    """The canonical handle of the tree so called, or ""; one that was parted off has no card."""
    found = things.find(written)
    if found is not None:
        return found.handle if found.kind == "tree" else ""
    folded = fold(written)
    return next((handle for handle in trees if fold(handle) == folded), "")


def tree_of_id(written: str, histories: Histories) -> str:
    """The tree that a follow-up's id begins with, or "" when it is only a part of an id."""
    first, _, rest = written.partition("/")
    by_first = {tree.first_handle: tree.handle for tree in histories.trees.values()}
    return by_first.get(first, "") if rest or "/" in written else ""
