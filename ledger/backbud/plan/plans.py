"""The plans of one journal on one day, each made once: of every tree, or of some."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from datetime import date
from typing import TYPE_CHECKING

from backbud.collection.whereabouts import Histories
from backbud.journal.problems import PlacedFlaw, WithFlaws
from backbud.journal.read import Journal
from backbud.plan.contained import Meet, planned_but_faulty
from backbud.plugins.added import Plugins

if TYPE_CHECKING:
    from backbud.journal.weather.records import Records
    from backbud.plan.each_tree import EachTree
    from backbud.plan.run import Plan
    from backbud.plan.world import ByTree
    from backbud.species import Species


class Plans:
    """Plans trees. `species`: finds a kind; `meet`: is told of a tree that planning fails for.

    Such a tree is then as its card has it, with no follow-up. `by_two`: whether a copy of this
    process may help.
    """

    def __init__(
        self,
        journal: Journal,
        today: date,
        species: Callable[[str], Species | None],
        plugins: Plugins,
        meet: Meet,
        by_two: Callable[[], bool],
    ) -> None:
        self._journal, self._today, self._species = journal, today, species
        self._plugins, self._meet, self._by_two = plugins, meet, by_two
        self._made: dict[tuple[str, ...], WithFlaws[Plan]] = {}

    def of(
        self, handles: Iterable[str], histories: Histories, weather: Records, by_tree: ByTree
    ) -> Plan:
        """The follow-ups of these trees."""
        wanted = tuple(handles)
        made = self._made.get(wanted)
        if made is None:
            made = self._made[wanted] = self._planned(wanted, histories, weather, by_tree)
        return made.value

    def each_tree(self, histories: Histories, weather: Records, by_tree: ByTree) -> EachTree:
        """What the plan of any tree is made from."""
        from backbud.plan.run import each_tree

        return each_tree(
            self._journal,
            histories,
            self._species,
            weather,
            self._today,
            by_tree,
            self._plugins,
        )

    def take(self, plan: Plan | None) -> None:
        """Have none but a plan that was made elsewhere, in which no rule failed; or none at all."""
        self._made = {} if plan is None else {tuple(plan.trees): WithFlaws(plan)}

    def flaws(self) -> Iterator[PlacedFlaw]:
        """What was found wrong by those that were made."""
        for plan in self._made.values():
            yield from plan.flaws

    def _planned(
        self, wanted: Sequence[str], histories: Histories, weather: Records, by_tree: ByTree
    ) -> WithFlaws[Plan]:
        from backbud.plan.run import plan_all
        from backbud.plan.without_plans import without_plans

        def planned(handles: Sequence[str]) -> WithFlaws[Plan]:
            return plan_all(
                self._journal,
                histories,
                self._species,
                weather,
                self._today,
                handles,
                by_tree,
                self._plugins,
                by_two=self._by_two(),
            )

        def filled(plan: Plan) -> Plan:
            return without_plans(plan, histories, self._journal.things, wanted)

        return planned_but_faulty(planned, wanted, filled, self._meet)
