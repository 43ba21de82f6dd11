"""The wire, guys and wrapping that are on a tree, and which of it is old."""

from __future__ import annotations

from datetime import date, timedelta

from msgspec import Struct

from backbud.collection.state import Tree
from backbud.views.plain_words import thing_in_words

WIRED = frozenset({"wire", "guy", "wrap"})
_OLD = timedelta(days=365)


class WireOnView(Struct, frozen=True):
    """Wire, a guy or wrapping on a tree. `old`: it came with it, or is on for over a year."""

    what: str
    since: date
    old: bool


def wires_on(tree: Tree, came: date | None, today: date) -> tuple[WireOnView, ...]:
    """What is on a tree. `came`: the day its visit began, None where nobody says."""
    return tuple(
        WireOnView(
            thing_in_words(thing),
            thing.since,
            (came is not None and thing.since < came) or today - thing.since > _OLD,
        )
        for thing in tree.on_tree
        if thing.sort in WIRED
    )
