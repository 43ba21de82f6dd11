"""Tells when the roots of a tree were last cut."""

from __future__ import annotations

from backbud.collection.state import Tree
from backbud.journal.events import Event


def last_cut_of_roots(tree: Tree) -> Event | None:
    """The last act of its history that cut roots of this tree; None where none did."""
    acts = (entry.event for entry in reversed(tree.history) if not entry.undone)
    return next((event for event in acts if _cut_roots(tree, event)), None)


def _cut_roots(tree: Tree, event: Event) -> bool:
    """Whether an act cut roots of this tree; one that lost a layer lost no root."""
    if "cuts_roots" not in event.row.traits or event.has("no root work"):
        return False
    return event.act != "separated" or tree.standing_since == event.day
