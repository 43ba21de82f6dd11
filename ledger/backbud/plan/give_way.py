"""Lets what a rule proposed give way to the keeper's own plan of the same work, and to what stands
for it."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date, timedelta

from msgspec.structs import replace

from backbud.collection.on_tree import is_meant
from backbud.plan.common.fresh_roots_out import FRESH_ROOTS
from backbud.plan.common.root_rest import ROOT_REST
from backbud.plan.common.winter_frost import CUT_ROOTS, WINTER
from backbud.plan.due import Due
from backbud.plan.followups import FollowUp

# How near a plan stands for a proposal; common practice, no source.
NEAR = timedelta(days=42)
# The rule for every tree that asks a tree out of its winter quarters.
OUT_AGAIN = "winter-quarters-out"
DAY = timedelta(days=1)
HALF_A_YEAR = timedelta(days=180)
YEAR = timedelta(days=365)


def given_way(dues: Iterable[Due]) -> list[Due]:
    """Return the dues; a proposal gives way to the plan of the same work near its window.

    A proposal that the keeper put off is from then on a plan, and one plan of a work is enough.
    """
    every = _one_shelter(_one_way_out(_never_went_in(list(dues))))
    by_act: dict[str, list[Due]] = {}
    for due in every:
        by_act.setdefault(due.follow_up.act, []).append(due)
    plans = {
        act: [due for due in those if _is_the_keepers(due.follow_up)]
        for act, those in by_act.items()
    }
    keepers = {due.follow_up.id for those in plans.values() for due in those}
    out = []
    for due in every:
        act = due.follow_up.act
        if any(_stands_for(plan, due) for plan in plans[act]):
            out.append(_replaced(due))
        elif due.follow_up.id in keepers:
            out.append(_weighed(due, [other for other in by_act[act] if _stands_for(due, other)]))
        else:
            out.append(due)
    return out


def _weighed(plan: Due, gone: list[Due]) -> Due:
    """The plan, with as much at stake as what gave way to it: it is the same work."""
    weights = [due.follow_up.weight for due in (plan, *gone)]
    worst = min(weights, key=lambda weight: weight.rank).at_stake
    weight = replace(plan.follow_up.weight, at_stake=worst)
    return replace(plan, follow_up=replace(plan.follow_up, weight=weight))


def _never_went_in(dues: list[Due]) -> list[Due]:
    """What a work asks out again of a cover that it asked it into is asked no more once the days
    for going in have passed: nobody took it there."""
    left_out = {
        (due.rule, due.cause): due.follow_up.window.closes
        for due in dues
        if due.part == "in" and due.follow_up.outcome == "open" and due.follow_up.weight.lapses
    }
    return [
        replace(
            due, follow_up=replace(due.follow_up, next_cycle=left_out[due.rule, due.cause] + DAY)
        )
        if due.part == "out" and (due.rule, due.cause) in left_out
        else due
        for due in dues
    ]


def _one_way_out(dues: list[Due]) -> list[Due]:
    """Of moves out of one cover near one another, that of the last cause stands for all; a
    species' own before that of every tree."""
    ways = [due for due in dues if due.follow_up.outcome == "open" and _goes_out(due)]
    ways.sort(key=lambda due: (due.rule != OUT_AGAIN, due.at, due.follow_up.id), reverse=True)
    gone: set[str] = set()
    for n, one in enumerate(ways):
        for other in ways[n + 1 :]:
            if one.follow_up.id not in gone and _are_near(one.follow_up, other.follow_up):
                gone.add(other.follow_up.id)
    return [_replaced(due) if due.follow_up.id in gone else due for due in dues]


def _one_shelter(dues: list[Due]) -> list[Due]:
    """While frost is foretold, the shelter from it stands for what else asks for the same one: the
    winter's protection, a cover for young leaves. Once the frost is over they ask again. And what
    asks for roots that were cut in autumn, or under a cover that they left, stands for what took
    them for mature, or for sheltered."""
    spells = [due for due in dues if due.follow_up.foretold is not None and _shelters(due)]
    young = [due for due in dues if due.rule in (CUT_ROOTS, FRESH_ROOTS) and _shelters(due)]
    if not (spells or young):
        return dues

    def gives_way(due: Due) -> bool:
        if due.rule == ROOT_REST:
            return any(one.rule == FRESH_ROOTS and _meet(due, one) for one in young)
        for_young = due.rule == WINTER and any(_is_same(due, one) for one in young)
        return for_young or any(_is_same(due, one) for one in spells)

    return [_replaced(due) if gives_way(due) else due for due in dues]


def _shelters(due: Due) -> bool:
    return due.covers == "any" and due.follow_up.outcome == "open"


def _is_same(due: Due, spell: Due) -> bool:
    return due.follow_up.foretold is None and _meet(due, spell) and _shelters(due)


def _meet(due: Due, other: Due) -> bool:
    """Whether both ask for the same act in days that they share, and the first is still open."""
    one, two = due.follow_up, other.follow_up
    overlap = one.window.opens <= two.window.closes and two.window.opens <= one.window.closes
    return one.outcome == "open" and one.act == two.act and overlap


def _goes_out(due: Due) -> bool:
    return due.follow_up.act == "moved" and (due.part == "out" or due.rule == OUT_AGAIN)


def _are_near(one: FollowUp, other: FollowUp) -> bool:
    opens, closes = one.window.opens - NEAR, one.window.closes + NEAR
    return opens <= other.window.closes and other.window.opens <= closes


def _replaced(due: Due) -> Due:
    return replace(due, follow_up=replace(due.follow_up, outcome="replaced", settled=None))


def _is_the_keepers(follow_up: FollowUp) -> bool:
    alive = follow_up.outcome in ("open", "done")
    return alive and (follow_up.planned or follow_up.moved_from is not None)


def _stands_for(plan: Due, due: Due) -> bool:
    """Whether a plan stands for another work of the same act."""
    one, other = plan.follow_up, due.follow_up
    if not (other.outcome == "open" or (other.outcome == "done" and other.settled is one.settled)):
        return False
    if not _same_check(one, other):
        return False
    # A plan for one branch does not stand for the whole tree, nor for another branch.
    if plan.where and not is_meant(due.where, (plan.where,)):
        return False
    if _is_the_keepers(other):
        return _outranks(plan, due)
    first, last = _reach(plan)
    return first <= other.window.best <= last


def _same_check(one: FollowUp, other: FollowUp) -> bool:
    return one.act != "checked" or bool(set(one.settled_by).intersection(other.settled_by))


def _outranks(plan: Due, due: Due) -> bool:
    """Of two that were moved to one window, of a proposal that was moved to that of a plan, or the
    same thing said twice of it, a plan before a proposal, then the first by id."""
    one, other = plan.follow_up, due.follow_up
    both = one.moved_from is not None or not other.planned
    moved = other.moved_from is not None and both
    twice = one.title == other.title and plan.where == due.where
    if one.window != other.window or not (moved or twice):
        return False
    return (not one.planned, one.id) < (not other.planned, other.id)


def _reach(plan: Due) -> tuple[date, date]:
    follow_up = plan.follow_up
    window = follow_up.moved_from or follow_up.window
    if "once_a_year" not in follow_up.row.traits:
        return window.opens - NEAR, follow_up.window.closes + NEAR
    # It stands for every proposal until then, and after it.
    said = plan.event.day if follow_up.planned and plan.event else window.opens
    return min(said, window.opens) - YEAR, follow_up.window.closes + HALF_A_YEAR
