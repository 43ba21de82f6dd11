"""Plans trees as if they stood somewhere else, as their owners will keep them."""

from __future__ import annotations

from datetime import date

from msgspec.structs import replace

from backbud.collection.fold import tree_on
from backbud.collection.state import Tree
from backbud.collection.whereabouts import Histories
from backbud.journal.read import Journal
from backbud.journal.weather.records import Records
from backbud.plan.each_tree import SpeciesFinder
from backbud.plan.followups import FollowUp
from backbud.plan.hang import Hanger
from backbud.plan.quote import Quoter
from backbud.plan.run import follow_ups_of
from backbud.species import Rule


class Elsewhere:
    """What trees will ask for at other places from now on; what those of a place share is made
    once. `own`: rules of the journal's own for every tree."""

    def __init__(
        self,
        journal: Journal,
        histories: Histories,
        find_species: SpeciesFinder,
        weather: Records,
        today: date,
        own: tuple[Rule, ...] = (),
    ) -> None:
        self._journal, self._histories, self._find_species = journal, histories, find_species
        self._weather, self._today, self._own = weather, today, own
        self._hangers: dict[str, Hanger] = {}
        self._quoter: Quoter | None = None

    def planned(self, handle: str, place: str) -> tuple[FollowUp, ...]:
        """What a tree will ask for at a place: a handle, "" for where it stood last, or else
        home."""
        things = self._journal.things
        return self.planned_tree(tree_on(self._histories, things, handle, self._today), place)

    def planned_tree(self, tree: Tree, place: str) -> tuple[FollowUp, ...]:
        """The same of one that is known as it stands today."""
        things = self._journal.things
        found = things.find(place or self._journal.settings.home)
        at = found.handle if found is not None else tree.place
        there = replace(tree, place=at, standing="here")
        return follow_ups_of(there, self._find_species(tree.kind), self._hanger(at))

    def _hanger(self, at: str) -> Hanger:
        known = self._hangers.get(at)
        if known is None:
            known = self._hangers[at] = Hanger(
                self._journal,
                self._histories,
                self._weather,
                self._today,
                self._own,
                at,
                self._quoter,
            )
            self._quoter = known.quoter
        return known
