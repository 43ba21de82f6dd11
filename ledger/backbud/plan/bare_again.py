"""Asks again for a shelter that was taken away before its time, while the tree stands bare.

Who unwraps a tree in a warm week of March, or moves it out, has done the autumn's work; the nights
that it was done against still come.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date, timedelta

from msgspec.structs import replace

from backbud.collection.places import is_winter_cover
from backbud.collection.state import Tree
from backbud.plan.due import Due
from backbud.plan.followups import FollowUp, Reason
from backbud.species import Window, phrase

# So long before its window a shelter may come off as well; ours, no source.
EARLY = timedelta(days=7)


def bare_again(dues: Sequence[Due], tree: Tree, cover: str) -> list[Due]:
    """The dues, and each shelter anew that was left too early. `cover`: over where it stands."""
    if tree.on("protection") or is_winter_cover(cover):
        return list(dues)
    too_early = [due.follow_up for due in dues if due.bares and _came_off_early(due.follow_up)]
    left = [due for due in dues if due.covers == "any" and due.follow_up.outcome == "done"]
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
            if one.settled.day <= off.settled.day < one.window.closes
        ]
        if left:
            yield replace(due, follow_up=_from(one, *max(left)))


def _from(one: FollowUp, day: date, due_off: date) -> FollowUp:
    opens = max(one.window.opens, day)
    said = phrase(
        "It was taken from under its cover on {day}, and was to stay there until {due_off}.",
        day=day,
        due_off=due_off,
    )
    return replace(
        one,
        # Its name tells it from the one that was done, so that no calendar takes it for that.
        id=f"{one.id}/bare-{day}",
        window=Window(opens, max(one.window.best, opens), one.window.closes),
        outcome="open",
        settled=None,
        because=(*one.because, Reason("datum", said)),
    )
