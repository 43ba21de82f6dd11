"""What wants doing on a day: what is late, what can be done now, what comes, and what is later."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from datetime import date, timedelta
from itertools import groupby
from operator import attrgetter
from typing import Any, NamedTuple, TypeVar

from msgspec import Struct

from backbud.collection.state import Tree
from backbud.plan.followups import FollowUp
from backbud.plan.run import Plan
from backbud.views.work import WorkView, work_view
from backbud.words import monday_of

T = TypeVar("T")

# How far ahead the coming works are laid out by week.
WEEKS_AHEAD = 6
# How long a settled work is still told of.
SETTLED_DAYS = 365


class Together(Struct, frozen=True):
    """Works that stand together: `rows` as they are shown, how many `works` and `minutes` in all.

    A round may be one row.
    `since`: the Monday or the first day of the month that they stand under; None for what is late
    or can be done now.
    """

    since: date | None
    works: int
    minutes: int
    rows: tuple[Any, ...]


class DayView(Struct, frozen=True):
    """Everything that wants doing: what is late, what can be done now, what comes by week in the
    next six weeks, and by month what comes later.

    `later_waits`: how many of those later wait on the weather.
    """

    overdue: Together
    now: Together
    coming: tuple[Together, ...]
    later: tuple[Together, ...]
    later_waits: int = 0


class Item(NamedTuple):
    """An open work, as a day sorts it: by what it stands under, its days, its tree and its id.

    `waits`: on the weather. `shown`: its row. `work`: the work itself.
    """

    under: date
    first: date
    second: date
    tree: str
    id: str
    minutes: int
    waits: bool
    shown: Any
    work: WorkView


class Items(NamedTuple):
    """Open works by how they stand: late, to be done now, in the weeks ahead, and later."""

    overdue: Sequence[Item]
    now: Sequence[Item]
    near: Sequence[Item]
    later: Sequence[Item]


def works_of(
    plans: Iterable[FollowUp], tree: Tree, names: Mapping[str, str], today: date
) -> tuple[WorkView, ...]:
    """The follow-ups of a tree as they are shown on a day, in the same order."""
    return tuple(work_view(one, tree, names, today) for one in plans)


def open_works_of(
    plans: Iterable[FollowUp], tree: Tree, names: Mapping[str, str], today: date
) -> tuple[WorkView, ...]:
    """Those of a tree's follow-ups that still want doing, as they are shown on a day."""
    return works_of((one for one in plans if one.is_open(today)), tree, names, today)


def all_works(plan: Plan, names: Mapping[str, str], today: date) -> Iterator[WorkView]:
    """Every follow-up of every tree of a plan as it is shown on a day."""
    for handle, those in plan.follow_ups.items():
        yield from works_of(those, plan.trees[handle], names, today)


def items(works: Iterable[WorkView], today: date, show: Callable[[WorkView], object]) -> Items:
    """The open works of a tree on a day, in order. `show`: makes the row of each."""
    found = Items([], [], [], [])
    for work in works:
        if not work.is_open:
            continue
        stand: str = work.state
        if stand == "coming":
            stand = "near" if is_near(work, today) else "later"
            under = _first_of_month(work.best) if stand == "later" else monday_of(work.best)
            days = (work.best, work.closes)
        else:
            days, under = (work.closes, work.best), today
        row = show(work)
        item = Item(under, *days, work.tree_name, work.id, work.minutes, work.waits_on_weather, row,
                    work)  # fmt: skip
        getattr(found, stand).append(item)
    return Items(*map(sorted, found))


# Makes the one row of several works that are a round.
RowOfRound = Callable[[Sequence[WorkView]], object]


def day_view(found: Items, row_of_round: RowOfRound | None = None) -> DayView:
    """Lay out open works, each sort of them in order.

    `row_of_round`: where it is None each work of a round has its own row.
    """
    return DayView(
        _together(None, found.overdue, row_of_round),
        _together(None, found.now, row_of_round),
        tuple(_grouped(found.near, row_of_round)),
        tuple(_grouped(found.later, row_of_round)),
        sum(item.waits for item in found.later),
    )


def is_near(work: WorkView, today: date) -> bool:
    """Whether its best day lies within the weeks that are laid out one by one."""
    return work.best < monday_of(today) + timedelta(weeks=WEEKS_AHEAD)


def settled(works: Iterable[WorkView], today: date) -> tuple[WorkView, ...]:
    """What was done or skipped within a year, the latest first."""
    since = today - timedelta(days=SETTLED_DAYS)
    recent = (one for one in works if one.state in ("done", "skipped") and one.settled_on >= since)
    return tuple(sorted(recent, key=attrgetter("settled_on"), reverse=True))


def due(works: Iterable[WorkView], today: date, within: timedelta) -> tuple[WorkView, ...]:
    """What is late, can be done now, or begins within so many days: by its best day."""
    return tuple(
        sorted(
            (
                one
                for one in works
                if one.state in ("overdue", "now")
                or (one.state == "coming" and one.opens <= today + within)
            ),
            key=lambda one: (one.best, one.tree, one.id),
        )
    )


def open_first(works: Iterable[WorkView]) -> tuple[WorkView, ...]:
    """What is open, the soonest first; then what is settled, the latest first."""
    some = list(works)
    return (
        *sorted((one for one in some if one.is_open), key=attrgetter("best", "id")),
        *sorted(
            (one for one in some if not one.is_open),
            key=attrgetter("settled_on", "id"),
            reverse=True,
        ),
    )


def called(ident: str, works: Iterable[WorkView]) -> tuple[WorkView, ...]:
    """The work of this id; else every one whose id holds what was written."""
    some = tuple(works)
    exact = tuple(one for one in some if one.id == ident)
    return exact or tuple(one for one in some if ident in one.id)


def rounds(some: Iterable[T], work: Callable[[T], WorkView]) -> list[list[T]]:
    """The same work for the same reason, asked by one line of the diary, in one: in the order of
    the first of each. `work`: what one of them shows."""
    found: dict[object, list[T]] = {}
    for one in some:
        found.setdefault(_alike(work(one)), []).append(one)
    return list(found.values())


def _alike(one: WorkView) -> object:
    """What works of one round have alike; a work that no line asks for is alone."""
    if not one.reasons or not one.reasons[0].file:
        return one.id
    return (one.act, one.title, one.opens, one.best, one.closes, one.moved_from, one.reasons,
            one.cautions)  # fmt: skip


def _first_of_month(day: date) -> date:
    return day.replace(day=1)


def _grouped(found: Iterable[Item], row_of_round: RowOfRound | None) -> Iterator[Together]:
    for under, members in groupby(found, attrgetter("under")):
        yield _together(under, list(members), row_of_round)


def _together(
    since: date | None, found: Sequence[Item], row_of_round: RowOfRound | None
) -> Together:
    minutes = sum(item.minutes for item in found)
    if row_of_round is None:
        rows = [item.shown for item in found]
    else:
        rows = [
            those[0].shown if len(those) == 1 else row_of_round([item.work for item in those])
            for those in rounds(found, attrgetter("work"))
        ]
    return Together(since, len(found), minutes, tuple(rows))
