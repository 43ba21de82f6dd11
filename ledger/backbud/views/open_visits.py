"""Tells which visits are open, and which of very many stand on the page of all."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from datetime import date
from typing import NamedTuple

from backbud.views.visit import AccountView, VisitView, in_the_house, to_come

# More visits on one page are slow to open; of more, so many of each sort stand there, and all with
# the person whose they are. Ours.
MOST_VISITS, FIRST_VISITS = 300, 100


class OpenVisits(NamedTuple):
    """Visits of which something is open: of trees in the house, those that are wanted home soonest
    first; agreed, of trees that are not here yet; of trees that went home with something to bill or
    to pay. `left_out`: of each of the three how many are not among them."""

    here: tuple[VisitView, ...]
    to_come: tuple[VisitView, ...]
    gone: tuple[VisitView, ...]
    left_out: tuple[int, int, int] = (0, 0, 0)

    @property
    def how_many(self) -> int:
        """How many they are."""
        return len(self.here) + len(self.to_come) + len(self.gone)


def open_visits(accounts: Sequence[AccountView]) -> OpenVisits:
    """The visits of these people of which something is open."""
    return OpenVisits(in_the_house(accounts), to_come(accounts), tuple(_gone(accounts)))


def _gone(accounts: Iterable[AccountView]) -> Iterable[VisitView]:
    return (
        one
        for account in accounts
        for one in account.visits
        if one.went is not None and (one.owed or any(sums.to_bill for sums in one.money))
    )


def go_by_person(found: OpenVisits) -> bool:
    """Whether each person's stand on a page of their own."""
    return found.how_many > MOST_VISITS


def first_visits(found: OpenVisits) -> OpenVisits:
    """What of very many stands on the page of all: of those that went home the latest."""
    here, coming, gone = found.here, found.to_come, found.gone
    latest = sorted(gone, key=lambda one: one.went or date.min, reverse=True)
    most = FIRST_VISITS
    left_out = tuple(max(len(some) - most, 0) for some in (here, coming, gone))
    return OpenVisits(
        here[:most], coming[:most], tuple(latest[:most]), (left_out[0], left_out[1], left_out[2])
    )
