"""The week by place, as it hangs at the bench on paper: what belongs to it, as one walks."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from datetime import date, timedelta
from functools import partial
from itertools import chain

from msgspec import Struct

from backbud.memo import NO_MEMO, Identical, Memo
from backbud.views.bench import (
    HEADINGS,
    SOON_DAYS,
    AtBench,
    Heading,
    Round,
    at_bench,
    heading_of,
    round_of,
)
from backbud.views.day import plain_title, urgency
from backbud.views.work import WorkView

DAYS = 7


class PlaceThisWeek(Struct, frozen=True):
    """A place with its rounds of the week: what is at stake first, then what closes first."""

    place: str
    place_name: str
    rounds: tuple[Round, ...]


class WeekOfTree(Struct, frozen=True):
    """What a tree brings to the week, and how many of its works can be done but are best later."""

    works: tuple[AtBench, ...]
    waiting: int


class WeekOnPaper(Struct, frozen=True):
    """The week from a day on, by place. `first`, `last`: its days, both included. `waiting`: how
    many works can be done by now, but are best later."""

    first: date
    last: date
    places: tuple[PlaceThisWeek, ...]
    waiting: int


def last_of_week(today: date) -> date:
    """The last day of the week that begins today."""
    return today + timedelta(DAYS - 1)


def in_week(work: WorkView, today: date) -> bool:
    """Whether an open work belongs to the week: it can be done in it, and is best by its end,
    closes soon, or is what a tree may die without."""
    last = last_of_week(today)
    is_due = work.best <= last or work.closes <= today + timedelta(SOON_DAYS)
    return work.opens <= last and (is_due or work.at_stake == "life")


def of_week(works: Iterable[WorkView], today: date) -> WeekOfTree:
    """What a tree brings to the week. `works`: those that are open."""
    found, waiting = [], 0
    for one in works:
        if in_week(one, today):
            heading = heading_of(one, today)
            found.append(AtBench(urgency(one), heading, one.act, plain_title(one), one))
        else:
            waiting += at_bench(one, today)
    return WeekOfTree(tuple(found), waiting)


def week_on_paper(
    trees: Iterable[WeekOfTree], walk: Sequence[str], today: date, kept: Memo = NO_MEMO
) -> WeekOnPaper:
    """Lay out the week. `walk`: the handles of the trees in the order in which one walks past
    them; so stand the places, too, each where its first tree does. `kept`: what an earlier run of
    this process left of each place."""
    some = list(trees)
    order = kept.same("walk", {handle: at for at, handle in enumerate(walk)})
    by_place: dict[tuple[str, str], list[AtBench]] = {}
    for one in chain.from_iterable(tree.works for tree in some):
        by_place.setdefault((one.work.place, one.work.place_name), []).append(one)
    places = sorted(by_place, key=lambda place: min(order[o.work.tree] for o in by_place[place]))
    return WeekOnPaper(
        today,
        last_of_week(today),
        tuple(
            kept.once(
                ("week of place", place),
                (by_place[place], Identical(order)),
                partial(_place, by_place[place], order),
            )
            for place in places
        ),
        sum(tree.waiting for tree in some),
    )


def _place(works: Sequence[AtBench], order: dict[str, int]) -> PlaceThisWeek:
    alike: dict[tuple[Heading, str, str], list[AtBench]] = {}
    for one in sorted(works, key=lambda one: (HEADINGS.index(one.heading), one.urgency)):
        alike.setdefault((one.heading, one.act, one.title), []).append(one)
    first = works[0].work
    return PlaceThisWeek(
        first.place, first.place_name, tuple(round_of(those, order) for those in alike.values())
    )
