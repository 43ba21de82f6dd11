"""What is no tree's own, and every plan hangs on: the weather, and all that is kept beside it."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from datetime import date
from functools import cached_property, partial
from typing import TYPE_CHECKING

from backbud.collection.whereabouts import Histories
from backbud.journal.problems import PlacedFlaws
from backbud.journal.read import Journal
from backbud.journal.weather.said import says_weather
from backbud.memo import NO_MEMO, Memo

if TYPE_CHECKING:
    from backbud.journal.weather.records import Records
    from backbud.plan.world import ByTree, World


class Surroundings:
    """The surroundings of the trees of one journal on one day; made when somebody asks for them.

    `histories`: replays the journal. `mark`: changes with the journal's own plugins. `kept`: what
    an earlier run of this process left.
    """

    def __init__(
        self,
        journal: Journal,
        histories: Callable[[], Histories],
        today: date,
        mark: str,
        kept: Memo,
    ) -> None:
        self._journal, self._histories, self._today = journal, histories, today
        self._mark, self._kept = mark, kept

    @property
    def weather(self) -> Records:
        """What is known of the weather of each place."""
        world, own = self._world
        return own if world is None else world.weather

    @cached_property
    def flaws(self) -> PlacedFlaws:
        """What is wrong with what is said of the weather, in the diary, on cards and in files."""
        if not says_weather(self._journal):
            return self._journal.positions.flaws_without_weather()
        world, own = self._world
        return own.flaws() if world is None else world.flaws(own)

    @property
    def texts(self) -> Mapping[str, bytes]:
        """The bytes of each weather file that was read."""
        self.flaws  # noqa: B018  reads them
        return self.weather.texts if says_weather(self._journal) else {}

    @cached_property
    def by_tree(self) -> ByTree:
        """Keeps what was made of one tree's card and history."""
        from backbud.plan.world import ByTree

        return ByTree(self._kept, self._world[0])

    def go_on_with(self, kept: Memo) -> None:
        """From here on this is what was made of each tree."""
        if "by_tree" in self.__dict__:
            self.by_tree.go_on_with(kept)

    @cached_property
    def _world(self) -> tuple[World | None, Records]:
        """What stands for all that is no tree's own, with the weather of an earlier run if nothing
        of it has changed; and the weather as this run reads it."""
        from backbud.journal.weather.records import records

        weather = records(self._journal)
        if self._kept is NO_MEMO:
            return None, weather
        from backbud.plan.world import World, world_of

        around = world_of(self._journal, self._histories(), self._today, self._kept)
        inputs = (*around, self._mark)
        return self._kept.once("world", inputs, partial(World, weather)), weather
