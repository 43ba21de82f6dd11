"""What wants doing on a day, in order: what is late, what can be done now, and what comes."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from datetime import date, timedelta
from operator import attrgetter
from typing import TypeVar

from backbud.collection.state import Tree
from backbud.plan.followups import FollowUp
from backbud.plan.run import Plan
from backbud.views.work import WorkView, work_view
from backbud.words import monday_of

T = TypeVar("T")
# What is at stake, the day, the title and the id.
Urgency = tuple[int, int, str, str]

# So far ahead the weather that a work waits on is told with it.
WEEKS_AHEAD = 6
# How long a settled work is still told of.
SETTLED_DAYS = 365


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


def at_stake(work: WorkView) -> int:
    """How much is at stake, the most first: what can hurt, then the rest."""
    return 0 if work.cautions else 1


def urgency(work: WorkView) -> Urgency:
    """What is at stake first, then what closes first. Of what is past, what closed last: it can
    still be made good, and nothing stands first for its age."""
    day = work.closes.toordinal()
    return at_stake(work), -day if work.state == "overdue" else day, work.title, work.id


def in_order(works: Iterable[WorkView]) -> tuple[WorkView, ...]:
    """Those that are open: what is late, then what can be done now, each by what is at stake; then
    what comes, by its best day."""
    some = [one for one in works if one.is_open]
    return (
        *sorted((one for one in some if one.state == "overdue"), key=urgency),
        *sorted((one for one in some if one.state == "now"), key=urgency),
        *sorted(
            (one for one in some if one.state == "coming"),
            key=lambda one: (one.best, one.closes, one.id),
        ),
    )


def is_near(work: WorkView, today: date) -> bool:
    """Whether its best day lies within the next six weeks."""
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
