"""Tells tree by tree what was written about money: its visits, and whom it shares a sum with.

Both what falls due (unpaid.py) and what a person owes (backbud/visits) go by it. What is kept of
one tree hangs on that tree's own lines and on who shares its sums.
"""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from functools import cached_property, partial
from typing import TypeVar

from msgspec import Struct

from backbud.collection.bookings import (
    MONEY_ACTS,
    Booked,
    MoneyLine,
    Sharing,
    bookings,
    shared_lines,
)
from backbud.collection.visit import Visit, visits_of
from backbud.collection.whereabouts import Histories
from backbud.journal.read import Journal
from backbud.plan.world import ByTree

T = TypeVar("T")


class MoneyWritten(Struct, frozen=True):
    """Whether anything was billed, credited or paid of a tree, and the lines about money that it
    shares with others."""

    any: bool
    shared: tuple[MoneyLine, ...]


class BookedOfVisit(Struct, frozen=True):
    """What was billed, credited and paid of a visit, whose it was and when it began."""

    owner: str
    begun: date
    booked: tuple[Booked, ...]


class MoneyLines:
    """What was written about money of each tree until a day."""

    def __init__(
        self, journal: Journal, histories: Histories, today: date, by_tree: ByTree | None = None
    ) -> None:
        """`by_tree`: what an earlier run of this process left, for the very same day."""
        self._journal, self._histories, self._today = journal, histories, today
        self._by_tree = by_tree or ByTree()
        self.keeper = keeper_of(journal)
        self.currency = journal.settings.currency

    @cached_property
    def written(self) -> dict[str, MoneyWritten]:
        """What was written of each tree."""
        return {
            handle: self.once("money", handle, partial(_written, self._histories, handle))
            for handle in self._histories.trees
        }

    @cached_property
    def sharing(self) -> Sharing:
        """Who shares a sum."""
        return Sharing((handle, one.shared) for handle, one in self.written.items())

    def visits(self, handle: str) -> tuple[Visit, ...]:
        """The visits of a tree, oldest first."""
        things, keeper = self._journal.things, self.keeper
        return self.once(
            "visits",
            handle,
            partial(visits_of, self._histories, things, handle, keeper, self._today),
        )

    def booked(self, handle: str) -> tuple[BookedOfVisit, ...]:
        """What was billed, credited and paid of a tree, by its visits."""
        return self.once("booked", handle, partial(self._booked, handle), self.shared_by(handle))

    def shared_by(self, handle: str) -> tuple[tuple[str, ...], ...]:
        """The trees that share each sum of this one."""
        return self.sharing.those_of(self.written[handle].shared)

    def once(self, what: str, handle: str, work: Callable[[], T], *more: object) -> T:
        """What was made of a tree's own lines, and of `more`."""
        things = self._journal.things
        return self._by_tree.once(what, handle, self._histories, things, work, self._today, *more)

    def _booked(self, handle: str) -> tuple[BookedOfVisit, ...]:
        return tuple(
            BookedOfVisit(
                visit.owner,
                visit.came or date.min,
                bookings(visit.entries, handle, self.sharing, self.currency),
            )
            for visit in self.visits(handle)
        )


def keeper_of(journal: Journal) -> str:
    """The handle of the keeper, "" where the settings name nobody who has a card."""
    found = journal.things.find(journal.settings.keeper)
    return found.handle if found is not None else ""


def _written(histories: Histories, handle: str) -> MoneyWritten:
    entries = histories.trees[handle].entries
    return MoneyWritten(
        any(entry.event.act in MONEY_ACTS for entry in entries), shared_lines(entries)
    )
