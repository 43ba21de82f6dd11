"""What a replay of the whole diary gives: the history of everything in it."""

from __future__ import annotations

from collections.abc import Collection, Mapping

from msgspec import Struct

from backbud.collection.subjects import Whereabouts
from backbud.journal.events import Event


class Histories(Struct, frozen=True):
    """Every tree's history and last whereabouts, by handle; and what was done to other things."""

    trees: Mapping[str, Whereabouts]
    others: Mapping[str, tuple[Event, ...]]

    def only(self, handles: Collection[str]) -> Histories:
        """Those of these trees, and of what is no tree."""
        if len(handles) == len(self.trees):
            return self
        return Histories({handle: self.trees[handle] for handle in handles}, self.others)
