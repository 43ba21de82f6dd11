"""Plans one tree at a time on a day, for whoever asks about single ones; no minutes are learned."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date

from msgspec import Struct

from backbud.collection.fold import tree_on
from backbud.collection.state import Tree
from backbud.collection.whereabouts import Histories
from backbud.journal.read import Journal
from backbud.journal.weather.records import Records
from backbud.plan.followups import FollowUp
from backbud.plan.hang import Hanger
from backbud.plan.run import follow_ups_of
from backbud.plan.unpaid import bills_by_tree
from backbud.species import Rule, Species


class PlannedTree(Struct, frozen=True):
    """A tree at the end of a day, and what falls due on it as it was known then."""

    tree: Tree
    follow_ups: tuple[FollowUp, ...]


class OneByOne:
    """Plans trees as they stood on one day."""

    def __init__(
        self,
        journal: Journal,
        histories: Histories,
        weather: Records,
        find_species: Callable[[str], Species | None],
        day: date,
        own: tuple[Rule, ...] = (),
    ) -> None:
        self._journal, self._histories, self._day = journal, histories, day
        self._find = find_species
        self._hanger = Hanger(journal, histories, weather, day, own)
        self._bills = bills_by_tree(journal, histories, day)

    def of(self, handle: str) -> PlannedTree:
        """One tree and its follow-ups. KeyError where no tree is so called."""
        tree = tree_on(self._histories, self._journal.things, handle, self._day)
        bills = self._bills.get(handle, ())
        return PlannedTree(tree, follow_ups_of(tree, self._find(tree.kind), self._hanger, bills))
