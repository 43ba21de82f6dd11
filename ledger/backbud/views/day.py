"""What wants doing on a day: what is late, what can be done now, what comes, and what is later.

What is most at stake stands first, then what closes first. One thing that is looked at is one
line, and what may be done on the trees of one kind stands once, under its best week.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from datetime import date, timedelta
from itertools import groupby
from operator import attrgetter
from typing import Any, NamedTuple, TypeVar

from msgspec import Struct

from backbud.collection.on_tree import TAKEN_OFF_BY
from backbud.collection.state import Tree
from backbud.plan.followups import FollowUp, State
from backbud.plan.run import Plan
from backbud.views.work import WorkView, work_view
from backbud.words import monday_of

T = TypeVar("T")

# How far ahead the coming works are laid out by week.
WEEKS_AHEAD = 6
# Further ahead than anything is asked for.
FAR = timedelta(days=36500)
# How long a settled work is still told of.
SETTLED_DAYS = 365
# What is done to all that is there of a thing at one time.
_OF_THINGS = frozenset({"checked", *TAKEN_OFF_BY.values()})


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
    """Everything that wants doing: first what a tree may die without, now; what is late, what can
    be done now, what comes by week in the next six weeks, and by month what comes later; last what
    was promised over a season ago.

    `later_waits`: how many of those later wait on the weather. `first_late`: how many of the first
    are late.
    """

    first: Together
    overdue: Together
    now: Together
    coming: tuple[Together, ...]
    later: tuple[Together, ...]
    promised: Together
    later_waits: int = 0
    first_late: int = 0


class Item(NamedTuple):
    """An open work, as a day sorts it: by what it stands under, how much it matters, its days, its
    tree and its id.

    `waits`: on the weather. `shown`: its row. `work`: the work itself.
    """

    under: date
    rank: tuple[int, bool]
    first: date
    second: date
    tree: str
    id: str
    minutes: int
    waits: bool
    shown: Any
    work: WorkView


class Items(NamedTuple):
    """Open works by how they stand: to be done now lest the tree dies, late, to be done now, in the
    weeks ahead, later, and promised over a season ago."""

    first: Sequence[Item]
    overdue: Sequence[Item]
    now: Sequence[Item]
    near: Sequence[Item]
    later: Sequence[Item]
    promised: Sequence[Item]


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
    found = Items([], [], [], [], [], [])
    for work in works:
        if not work.is_open:
            continue
        stand: str = stands(work, today)
        if stand == "coming":
            stand = "near" if is_near(work, today) else "later"
            under = _first_of_month(work.best) if stand == "later" else monday_of(work.best)
            days = (work.best, work.closes)
        else:
            days, under = (work.closes, work.best), today
            if work.at_stake == "life" and stand != "promised":
                stand = "first"
        item = Item(under, work.weight.rank, *days, work.tree_name, work.id, work.minutes,
                    work.waits_on_weather, show(work), work)  # fmt: skip
        getattr(found, stand).append(item)
    return Items(*map(sorted, found))


# Makes the one row of several works that are a round.
RowOfRound = Callable[[Sequence[WorkView]], object]


def day_view(found: Items, row_of_round: RowOfRound | None = None) -> DayView:
    """Lay out open works, each sort of them in order.

    `row_of_round`: where it is None each work of a round has its own row.
    """
    if row_of_round is not None:
        found = chances_once(found)
    return DayView(
        _together(None, found.first, row_of_round),
        _together(None, found.overdue, row_of_round),
        _together(None, found.now, row_of_round),
        tuple(_grouped(found.near, row_of_round)),
        tuple(_grouped(found.later, row_of_round)),
        _together(None, found.promised, row_of_round),
        sum(item.waits for item in found.later),
        sum(item.work.state == "overdue" for item in found.first),
    )


def stands(work: WorkView, today: date) -> State:
    """Under which heading a work stands: what may be done comes until its best week."""
    waits = not work.single and work.state == "now" and today < monday_of(work.best)
    return "coming" if waits else work.state


def chances_once(found: Items) -> Items:
    """Put what may be done on the trees of one kind where the first of them stands."""
    where: dict[str, tuple[str, date]] = {}
    moved: dict[str, list[Item]] = {sort: [] for sort in Items._fields}
    for sort, those in zip(Items._fields, found, strict=True):
        for item in those:
            to, under = sort, item.under
            if item.work.group:
                to, under = where.setdefault(item.work.group, (sort, under))
            moved[to].append(item._replace(under=under) if under != item.under else item)
    return Items(*(sorted(those, key=_in_order) for those in moved.values()))


def _in_order(item: Item) -> tuple[object, ...]:
    return item[:6]


def is_near(work: WorkView, today: date) -> bool:
    """Whether its best day lies within the weeks that are laid out one by one."""
    return work.best < monday_of(today) + timedelta(weeks=WEEKS_AHEAD)


def settled(works: Iterable[WorkView], today: date) -> tuple[WorkView, ...]:
    """What was done or skipped within a year, the latest first."""
    since = today - timedelta(days=SETTLED_DAYS)
    recent = (one for one in works if one.state in ("done", "skipped") and one.settled_on >= since)
    return tuple(sorted(recent, key=attrgetter("settled_on"), reverse=True))


def due(works: Iterable[WorkView], today: date, within: timedelta) -> tuple[WorkView, ...]:
    """What is late, can be done now, or begins within so many days, and what was promised: what is
    most at stake first, then what closes first; what comes by its week before that."""
    return tuple(
        sorted(
            (
                one
                for one in works
                if one.state in ("overdue", "now", "promised")
                or (one.state == "coming" and one.opens <= today + within)
            ),
            key=lambda one: due_order(one, today),
        )
    )


def due_order(one: WorkView, today: date) -> tuple[object, ...]:
    """What is to be done now before what comes, by its week, before what was promised long ago; of
    these what is most at stake first, then what closes first."""
    stand = stands(one, today)
    coming = stand == "coming"
    sort = 1 if coming else 2 if stand == "promised" else 0
    week = monday_of(one.best) if coming else date.min
    return sort, week, one.weight.rank, one.closes, one.tree, one.id


def open_first(works: Iterable[WorkView], today: date) -> tuple[WorkView, ...]:
    """What is open, what matters most first; then what is settled, the latest first."""
    some = list(works)
    return (
        *sorted((one for one in some if one.is_open), key=lambda one: due_order(one, today)),
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
    """The works that are one line, each in one, in the order of the first of each: looks at one
    thing on a tree, or taking it off, whatever its parts; the same work for the same reason, asked
    by one line of the diary; and what may be done on the trees of one kind. `work`: what one of
    them shows."""
    things: dict[object, list[T]] = {}
    for one in some:
        things.setdefault(_thing(work(one)), []).append(one)
    found: dict[object, list[T]] = {}
    for those in things.values():
        found.setdefault(_alike(work(those[0])), []).extend(those)
    return list(found.values())


def joint_title(some: Sequence[WorkView]) -> str:
    """The title of works that are one line: `check wire on left 1 and left 2`."""
    first = some[0]
    parts = list(dict.fromkeys(one.part for one in some))
    ending = f" on {first.part}"
    if len(parts) == 1 or not first.title.endswith(ending):
        return first.title
    title = first.title.removesuffix(ending)
    if "" in parts:
        return title
    *others, last = parts
    return f"{title} on {', '.join(others)} and {last}"


def _thing(one: WorkView) -> object:
    """What is one thing on a tree: what a look, or a taking off, at one time settles."""
    if one.planned:
        # Written down twice, it is one promise.
        return one.tree, one.act, one.title, one.opens, one.closes
    if one.act not in _OF_THINGS or not one.single:
        return one.id
    return one.tree, one.act, one.settled_by


def _alike(one: WorkView) -> object:
    """What works of one round have alike; a season asks each tree for its own reason."""
    if one.group:
        return one.group, one.act, one.title
    reasons = one.reasons if one.reasons and one.reasons[0].file else ()
    return (one.act, one.title, one.opens, one.best, one.closes, one.moved_from, reasons,
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
