"""What all feeds of a run share, gathered once however many write some of their entries."""

from __future__ import annotations

from functools import cached_property

from msgspec.structs import replace

from backbud.journal.settings import Settings
from backbud.views.grounds import Grounds
from backbud.views.hidden_names import EverybodysNames


class AroundFeeds:
    """`inputs`: all that an entry is made from beside its own follow-up and tree."""

    def __init__(self, grounds: Grounds, settings: Settings) -> None:
        self._grounds = grounds
        trees = [(tree.handle, tree.first_handle, tree.title, tree.owner)
                 for tree in grounds.trees.values()]  # fmt: skip
        self.inputs = (settings, trees, replace(grounds, trees={}))

    @cached_property
    def names(self) -> EverybodysNames:
        """The names of everybody and of every tree: asked for once an owner has a feed."""
        return EverybodysNames(self._grounds)
