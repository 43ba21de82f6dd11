"""Feed rests after root work, and on a weak tree; it goes on by itself when that is over."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import timedelta

from msgspec.structs import replace

from backbud.collection.hard_work import stresses
from backbud.collection.state import Tree
from backbud.plan.due import Due

# Cut roots take up no feed for four weeks; common practice, no source.
_ROOTS_REST = timedelta(days=28)


def paused(dues: Iterable[Due], tree: Tree) -> list[Due]:
    """The dues; feed that would be given while it has to rest is asked for no more."""
    cuts = [
        entry.event.day
        for entry in tree.history
        if "root_work" in entry.event.row.traits and not entry.undone and stresses(entry.event)
    ]

    def rests(due: Due) -> bool:
        one = due.follow_up
        if one.act != "fed" or one.outcome != "open" or one.promised:
            return False
        opens, closes = one.window.opens, one.window.closes
        return tree.weak or any(opens - _ROOTS_REST < cut <= closes for cut in cuts)

    return [
        replace(due, follow_up=replace(due.follow_up, outcome="replaced")) if rests(due) else due
        for due in dues
    ]
