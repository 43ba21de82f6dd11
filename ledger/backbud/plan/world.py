"""Tells when a tree must be planned anew: when its own lines or what all trees share changed.

For a process that plans one journal again and again (memo.py). Dates, figures and measures are
compared as they were written.
"""

from __future__ import annotations

import os
from collections.abc import Callable
from datetime import date
from functools import partial
from typing import TypeVar

from backbud.collection.whereabouts import Histories
from backbud.journal.problems import PlacedFlaws
from backbud.journal.read import Journal
from backbud.journal.settings import SETTINGS_FILE
from backbud.journal.things import Things
from backbud.journal.weather.files import refused
from backbud.journal.weather.named import weather_files
from backbud.journal.weather.records import Records
from backbud.memo import NO_MEMO, Identical, Memo

T = TypeVar("T")


def world_of(
    journal: Journal, histories: Histories, today: date, kept: Memo = NO_MEMO
) -> tuple[object, ...]:
    """Everything that the plan of any tree may look at, but for what is that tree's own.

    `kept`: what an earlier run of this process left of the cards.
    """
    things = journal.things
    return (
        today,
        journal.southern,
        journal.texts[SETTINGS_FILE],
        tuple(histories.trees),
        kept.once("cards of the world", (Identical(things),), partial(_of_cards, things)),
        kept.once("weather of the world", (Identical(*journal.weather),), partial(_said, journal)),
        [(name, _bytes(journal, name)) for name in weather_files(journal.things)],
        [(name, _bytes(journal, name)) for name in weather_arrived(journal)],
    )


def _said(journal: Journal) -> list[tuple[object, ...]]:
    return [
        (said.day, said.place, said.name, repr(said.value), said.unit) for said in journal.weather
    ]


def _of_cards(things: Things) -> tuple[object, ...]:
    """Of other trees it is only what they are called: a reason leaves out lines that name them."""
    trees = things.of_kind("tree")
    return (
        things.spellings,
        [(tree.handle, tree.first_handle, tree.title) for tree in trees],
        [thing for thing in things.by_handle.values() if thing.kind != "tree"],
    )


def weather_arrived(journal: Journal) -> tuple[str, ...]:
    """The files of forecasts and past days that came by themselves."""
    return journal.positions.files.arrived(journal.positions.place).names


def _bytes(journal: Journal, name: str) -> bytes | None:
    """What a weather file holds; None where it is not read at all."""
    if name in journal.weather_files:
        return journal.weather_files[name].data
    if refused(journal.folder, name) is not None:
        return None
    try:
        with open(os.path.join(journal.folder, name), "rb") as file:
            return file.read()
    except OSError:
        return None


class World:
    """What stands for all that is no tree's own, with the weather and what was reckoned from it."""

    def __init__(self, weather: Records) -> None:
        self.weather = weather
        self._is_sound = not weather.flaws()

    def flaws(self, weather: Records) -> PlacedFlaws:
        """What is wrong in the weather, as `weather`, of this reading of the same journal, tells
        it: its lines may stand elsewhere by now."""
        return () if self._is_sound else weather.flaws()


class ByTree:
    """Keeps what was made of one tree's card and history, as long as the world is the same."""

    def __init__(self, kept: Memo = NO_MEMO, world: object = None) -> None:
        self.kept, self.world = kept, Identical(world)
        self._own: dict[str, Identical] = {}

    def once(
        self,
        what: str,
        handle: str,
        histories: Histories,
        things: Things,
        work: Callable[[], T],
        *more: object,
    ) -> T:
        """What was made of a tree's own: its card, and its history from first line to last.

        `more`: what else it was made from.
        """
        own = self.own(handle, histories, things)
        return self.kept.once((what, handle), (own, *more), work)

    def own(self, handle: str, histories: Histories, things: Things) -> Identical:
        """What stands for a tree's own, and for what is no tree's."""
        own = self._own.get(handle)
        if own is None:
            inputs = (self.world, histories.trees[handle], things.by_handle.get(handle))
            # The very same for as long as all of it is equal: compared ten times for each tree.
            made = partial(Identical, inputs)
            own = self._own[handle] = self.kept.once(("own", handle), inputs, made)
        return own

    def together(self, what: str, inputs: tuple[object, ...], work: Callable[[], T]) -> T:
        """What was made of what was kept of many trees, and of nothing else that is no tree's."""
        return self.kept.once(what, (self.world, *inputs), work)

    def go_on_with(self, kept: Memo) -> None:
        """From here on this is what was made of each tree."""
        self.kept = kept

    def drop(self, what: str, handle: str) -> None:
        """Let it be made anew next time."""
        self.kept.forget((what, handle))
