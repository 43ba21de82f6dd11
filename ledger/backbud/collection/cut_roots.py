"""Tells when the roots of a tree were last cut."""

from __future__ import annotations

from backbud.collection.state import Tree
from backbud.journal.events import Event


def last_cut_of_roots(tree: Tree) -> Event | None:
    """The last act of its history that cut roots of this tree; None where none did."""
    for entry in reversed(tree.history):
        event = entry.event
        # Few do, and each limit of each winter asks.
        if "cuts_roots" in event.row.traits and not entry.undone and _cut_roots(tree, event):
            return event
    return None


def _cut_roots(tree: Tree, event: Event) -> bool:
    """Whether an act that cuts roots cut some of this tree; one that lost a layer lost no root."""
    if event.has("no root work"):
        return False
    return event.act != "separated" or tree.standing_since == event.day
