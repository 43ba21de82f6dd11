"""Asks again for a shelter that was taken away before its time, while the tree stands bare.

Who unwraps a tree in a warm week of March, or moves it out, has done the autumn's work; the nights
that it was done against still come.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date, timedelta

from msgspec.structs import replace

from backbud.collection.places import is_warm_cover, is_winter_cover
from backbud.collection.state import Tree
from backbud.plan.due import Due
from backbud.plan.followups import FollowUp, Reason
from backbud.species import PROTECTION, Window
from backbud.tongue import phrase

# So long before its window a shelter may come off as well; ours, no source.
EARLY = timedelta(days=7)
# From the day by which a tender tree is in to the last of its winter; ours, to the long side.
WINTER = timedelta(days=270)


def bare_again(dues: Sequence[Due], tree: Tree, cover: str) -> list[Due]:
    """The dues, and each shelter anew that was left too early. `cover`: over where it stands."""
    too_early = [due.follow_up for due in dues if due.bares and _came_off_early(due.follow_up)]
    if not too_early:
        return list(dues)
    bare = not (tree.on("protection") or is_winter_cover(cover))
    cold = not is_warm_cover(cover)
    left = [
        due
        for due in dues
        if due.follow_up.outcome == "done"
        if (due.covers == "any" and bare) or (due.covers == "warm" and cold)
    ]
    return [*dues, *_again(left, too_early)]


def _came_off_early(bared: FollowUp) -> bool:
    done = bared.settled
    return bared.outcome == "done" and done is not None and done.day < bared.window.opens - EARLY


def _again(shelters: Sequence[Due], too_early: Sequence[FollowUp]) -> Iterator[Due]:
    """Each of the shelters once more, from the last day on which it was left."""
    for due in shelters:
        one = due.follow_up
        left = [
            (off.settled.day, off.window.opens)
            for off in too_early
            if off.settled is not None and one.settled is not None
            if one.settled.day <= off.settled.day < _lasts(due)
        ]
        if left:
            day, due_off = max(left)
            yield replace(due, follow_up=_from(due, day, due_off))


def _lasts(due: Due) -> date:
    """Until when a shelter is wanted: a tender tree's all winter."""
    one = due.follow_up
    return one.window.closes if due.covers == "any" else one.window.closes + WINTER


def _from(due: Due, day: date, due_off: date) -> FollowUp:
    one = due.follow_up
    window, weight = Window(day, day, due_off), PROTECTION
    if due.covers == "any":
        opens, weight = max(one.window.opens, day), one.weight
        window = Window(opens, max(one.window.best, opens), one.window.closes)
    said = phrase(
        "It was taken from under its cover on {day}, and was to stay there until {due_off}.",
        day=day,
        due_off=due_off,
    )
    return replace(
        one,
        # Its name tells it from the one that was done, so that no calendar takes it for that.
        id=f"{one.id}/bare-{day}",
        window=window,
        outcome="open",
        settled=None,
        weight=weight,
        because=(*one.because, Reason("datum", said)),
    )
