"""Tells at a tree's card, in every command, that a step failed for it by a fault of ours.

A command that takes fewer steps may not come upon such a fault, so it is remembered until a run
that takes every step did not meet it again.
"""

from __future__ import annotations

import os
from collections.abc import Callable
from contextlib import suppress
from functools import cached_property

from backbud.journal import remember
from backbud.journal.events import Origin
from backbud.journal.faults import FAULT, fault_at
from backbud.journal.problems import PlacedFlaw, PlacedFlaws, flaw_at
from backbud.journal.read import Journal
from backbud.journal.settings import SETTINGS_FILE
from backbud.publish import MEMORY

# What failed by a fault of ours, as the last run that came upon it told it.
FAULTS_FILE = "faults"


class FaultsMet:
    """The faults that this run met, by the tree they were met for, and those of earlier runs.

    `state`: a mark that changes with the journal, the day, the program and the plugins.
    """

    def __init__(self, journal: Journal, state: Callable[[], str]) -> None:
        self._journal, self._state = journal, state
        self._met: dict[str, PlacedFlaw] = {}

    def meet(self, what: str, handle: str, error: Exception) -> None:
        """A step failed for a tree. One fault of each tree is enough."""
        if handle in self._met:
            return
        journal = self._journal
        card = journal.things.by_handle.get(handle)
        origin = card.origin if card is not None else Origin(SETTINGS_FILE, 1, 1)
        self._met[handle] = fault_at(origin, journal.texts, journal.memory, what, error)
        remember.keep_names(journal.memory, FAULTS_FILE, self._state(), self._written)

    def flaws(self, *, all_steps_taken: bool) -> PlacedFlaws:
        """The faults as they are told. `all_steps_taken`: this run came upon every one there is."""
        met = tuple(self._met.values())
        return met if all_steps_taken else (*met, *self._not_met())

    def forget(self) -> None:
        """Every step was taken: what an earlier run remembered beyond what this one met is over."""
        if self._remembered != self._written:
            remember.keep_names(self._journal.memory, FAULTS_FILE, self._state(), self._written)

    @property
    def _written(self) -> frozenset[str]:
        from json import dumps

        return frozenset(
            dumps([one.file, one.number, one.flaw.column, one.flaw.message, one.flaw.hint])
            for one in (*self._journal.flaws, *self._met.values())
            if one.flaw.code == FAULT
        )

    @cached_property
    def _remembered(self) -> frozenset[str]:
        # Its mark takes long to work out, and few journals have one.
        if not os.path.exists(os.path.join(self._journal.folder, MEMORY, FAULTS_FILE)):
            return frozenset()
        return remember.recall_names(self._journal.memory, FAULTS_FILE, self._state())

    def _not_met(self) -> PlacedFlaws:
        if not self._remembered:
            return ()
        from json import loads

        flaws: list[PlacedFlaw] = []
        for written in self._remembered - self._written:
            with suppress(ValueError, TypeError):
                file, line, column, message, hint = loads(written)
                origin = Origin(str(file), int(line), int(column))
                flaws.append(flaw_at(origin, FAULT, str(message), str(hint), 0, 1))
        return tuple(flaws)
