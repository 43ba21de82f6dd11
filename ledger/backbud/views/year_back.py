"""The year back as it is shown: what was done of what was foreseen, what came to nothing, which
trees came and went, where the hours went, and how the weather was against other years.

It looks back over twelve months from the day, or to where the diary begins: what nobody wrote down
before that was not missed. Each lapsed work is told once.
"""

from __future__ import annotations

from bisect import bisect_left
from collections import Counter
from collections.abc import Iterable, Iterator, Mapping
from datetime import date, timedelta
from functools import partial
from itertools import chain
from typing import Literal

from msgspec import Struct

from backbud.collection.state import Standing, Tree
from backbud.memo import NO_MEMO, Identical, Memo
from backbud.plan.followups import FollowUp, sort_of_work
from backbud.plan.hours import worked_minutes
from backbud.plan.lapsed import lapsed
from backbud.tongue import phrase
from backbud.views.nursery import Nursery
from backbud.views.photograph import PairView, PhotographView, then_and_now
from backbud.views.sky import Frosts, Sum

Fate = Literal["done", "skipped", "missed", "let go", "still open"]
DAYS = timedelta(days=365)
# So many trees of a row are named; so many pairs of photographs are shown.
MOST_NAMED = 6
MOST_PAIRS = 12
# A diary that has a line in so many days before the twelve months was kept all through them.
KEPT_BEFORE = timedelta(days=60)


class ForeseenView(Struct, frozen=True):
    """A work that was asked for in the year: how many were, and what became of them.

    `missed`: it had to be done, and came to nothing; `let_go`: it was a chance of the season.
    `still_open`: its window is over, and it still wants doing.
    """

    work: str
    done: int
    skipped: int
    missed: int
    let_go: int
    still_open: int

    @property
    def foreseen(self) -> int:
        return self.done + self.skipped + self.missed + self.let_go + self.still_open


class LapsedView(Struct, frozen=True):
    """A work that came to nothing on trees of one kind, told once.

    `missed`: it had to be done, or there was a reason for it in these very trees. `first`, `last`:
    of the days on which it was gone. `trees`: handle and name of those that are named; `more`: how
    many are not.
    """

    kind: str
    work: str
    missed: bool
    first: date
    last: date
    reason: str
    trees: tuple[tuple[str, str], ...]
    more: int


class PassingView(Struct, frozen=True):
    """A tree that came or went: how (`bought`, `died`), and when, as far as that is known."""

    tree: str
    tree_name: str
    kind: str
    how: str
    day: date


class TreePairView(Struct, frozen=True):
    """A tree's photographs of one side, then and now."""

    tree: str
    tree_name: str
    pair: PairView


class YearBackView(Struct, frozen=True):
    """Twelve months back, or from the first line of the diary in them; both ends included.

    `foreseen`: what was asked for most first. `lapsed`: what was missed first. `minutes`: by what
    was done, "" where no line says, what took longest first. `heat`, `frosts`: of the home place,
    None where nothing is known of it.
    """

    first: date
    last: date
    foreseen: tuple[ForeseenView, ...]
    lapsed: tuple[LapsedView, ...]
    gained: tuple[PassingView, ...]
    lost: tuple[PassingView, ...]
    minutes: tuple[tuple[str, int], ...]
    heat: Sum | None
    frosts: Frosts | None
    pairs: tuple[TreePairView, ...]

    @property
    def asked_done_missed(self) -> tuple[int, int, int]:
        """How many works the trees asked for, and how many of them were done, and missed."""
        some = self.foreseen
        return (
            sum(one.foreseen for one in some),
            sum(one.done for one in some),
            sum(one.missed for one in some),
        )

    @property
    def all_minutes(self) -> int:
        """What was worked."""
        return sum(minutes for _, minutes in self.minutes)

    @property
    def warmer_years(self) -> int:
        """How many years on record had a larger heat sum by this day."""
        heat = self.heat
        return 0 if heat is None else sum(one.by_now > heat.now for one in heat.years)


class GoneWork(Struct, frozen=True, gc=False):
    """A work of a tree that came to nothing: its name, when, why, and whether it was missed."""

    work: str
    day: date
    reason: str
    missed: bool


class BackOfTree(Struct, frozen=True):
    """What a tree brings to the year back."""

    fates: tuple[tuple[str, Fate], ...]
    gone: tuple[GoneWork, ...]
    minutes: tuple[tuple[str, float], ...]
    gained: PassingView | None
    lost: PassingView | None


def year_back_view(view: Nursery, kept: Memo = NO_MEMO) -> YearBackView:
    """Look back over the twelve months before the view's day.

    `kept`: what an earlier run of this process left.
    """
    first, last = year_back_begins(view.trees, view.today), view.today
    of_trees = {tree.handle: back_of_tree(view, tree, first, kept) for tree in view.trees}
    fates = [one.fates for one in of_trees.values()]
    sky = view.weather.skies[0] if view.weather.home_known and view.weather.skies else None
    return YearBackView(
        first,
        last,
        kept.once("foreseen", (fates,), lambda: _foreseen(chain.from_iterable(fates))),
        _lapsed(view.trees, of_trees),
        _by_day(one.gained for one in of_trees.values()),
        _by_day(one.lost for one in of_trees.values()),
        _minutes(chain.from_iterable(one.minutes for one in of_trees.values())),
        sky.heat if sky else None,
        sky.frosts if sky else None,
        tuple(_pairs(view.trees, view.photographs, first))[:MOST_PAIRS],
    )


def year_back_begins(trees: Iterable[Tree], today: date) -> date:
    """The first day that is looked back on."""
    first = today - DAYS
    days = [today]
    for tree in trees:
        at = bisect_left(tree.history, first - KEPT_BEFORE, key=lambda entry: entry.event.day)
        if at < len(tree.history):
            days.append(tree.history[at].event.day)
            if days[-1] <= first:
                # Of a diary that is old enough the first tree or two tell it.
                return first
    return max(first, min(days))


def back_of_tree(view: Nursery, tree: Tree, first: date, kept: Memo) -> BackOfTree:
    """What a tree of the view brings to the year back. `first`: the day from which on it looks."""
    plans, last = view.plans.get(tree.handle, ()), view.today
    return kept.once(
        ("back", tree.handle),
        (Identical(tree), Identical(plans), first, last),
        partial(_back, tree, plans, first, last),
    )


def _back(tree: Tree, plans: Iterable[FollowUp], first: date, last: date) -> BackOfTree:
    some = list(plans)
    gone = tuple(
        GoneWork(sort_of_work(one.work)[1], one.day, one.reason, one.missed)
        for one in lapsed(some, first, last, last)
    )
    fates: list[tuple[str, Fate]] = [
        (one.work, "missed" if one.missed else "let go") for one in gone
    ]
    for one in some:
        fate = _fate(one, first, last)
        if fate is not None:
            fates.append((sort_of_work(one)[1], fate))
    return BackOfTree(
        tuple(fates),
        gone,
        tuple(worked_minutes(tree.history, first, last)),
        _gained(tree, first, last),
        _lost(tree, first, last),
    )


def _fate(one: FollowUp, first: date, last: date) -> Fate | None:
    """What became of a work in a span of days; of what lapsed `lapsed` tells."""
    state = one.state(last)
    if state == "done" or state == "skipped":
        day = one.settled.day if one.settled else one.window.closes
        return state if first <= day <= last else None
    if state in ("overdue", "promised") and first <= one.window_on(last).closes <= last:
        return "still open"
    return None


def _foreseen(fates: Iterable[tuple[str, Fate]]) -> tuple[ForeseenView, ...]:
    by_work: dict[str, Counter[Fate]] = {}
    for called, fate in fates:
        by_work.setdefault(called, Counter())[fate] += 1
    found = [
        ForeseenView(
            called, of["done"], of["skipped"], of["missed"], of["let go"], of["still open"]
        )
        for called, of in by_work.items()
    ]
    return tuple(sorted(found, key=lambda one: (-one.foreseen, one.work)))


def _lapsed(trees: Iterable[Tree], of_trees: Mapping[str, BackOfTree]) -> tuple[LapsedView, ...]:
    alike: dict[tuple[bool, str, str], list[tuple[Tree, GoneWork]]] = {}
    for tree in trees:
        for gone in of_trees[tree.handle].gone:
            alike.setdefault((not gone.missed, tree.kind, gone.work), []).append((tree, gone))
    found = []
    for (is_chance, kind, called), those in alike.items():
        named = tuple(dict.fromkeys((tree.handle, tree.title) for tree, _ in those))
        found.append(
            LapsedView(
                kind,
                called,
                not is_chance,
                min(gone.day for _, gone in those),
                max(gone.day for _, gone in those),
                those[0][1].reason,
                named[:MOST_NAMED],
                len(named) - len(named[:MOST_NAMED]),
            )
        )
    return tuple(sorted(found, key=lambda one: (not one.missed, one.kind, one.first, one.work)))


# ------------------------------------------------------------------ trees that came and went


def _gained(tree: Tree, first: date, last: date) -> PassingView | None:
    """How a tree came, where that was in the span; a customer's that comes again is none."""
    arrivals = (
        entry.event
        for entry in tree.history
        if "arrival" in entry.event.row.traits and not entry.undone and not entry.event.held
    )
    came = next(arrivals, None)
    day = came.day if came is not None else tree.since
    how = phrase(came.act) if came is not None else phrase("came")
    if day is None or not first <= day <= last:
        return None
    return PassingView(tree.handle, tree.title, tree.kind, how, day)


_GONE: tuple[Standing, ...] = ("sold", "lent", "returned", "died", "lost")


def _lost(tree: Tree, first: date, last: date) -> PassingView | None:
    day = tree.standing_since
    if tree.standing not in _GONE or day is None or not first <= day <= last:
        return None
    return PassingView(tree.handle, tree.title, tree.kind, tree.standing, day)


def _by_day(passing: Iterable[PassingView | None]) -> tuple[PassingView, ...]:
    return tuple(sorted((one for one in passing if one), key=lambda one: (one.day, one.tree)))


# ------------------------------------------------------------------ hours and photographs


def _minutes(worked: Iterable[tuple[str, float]]) -> tuple[tuple[str, int], ...]:
    sums: Counter[str] = Counter()
    for act, minutes in worked:
        sums[act] += minutes  # type: ignore[assignment]
    known = ((act, round(minutes)) for act, minutes in sums.items() if round(minutes))
    return tuple(sorted(known, key=lambda one: (one[0] == "", -one[1], one[0])))


def _pairs(
    trees: Iterable[Tree], photographs: Mapping[str, tuple[PhotographView, ...]], first: date
) -> Iterator[TreePairView]:
    """The trees of which a picture of the year stands beside an older one of the same side."""
    for tree in trees:
        for pair in then_and_now(photographs.get(tree.handle, ())):
            if pair.now.when.last >= first:
                yield TreePairView(tree.handle, tree.title, pair)
