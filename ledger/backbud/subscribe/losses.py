"""Entries that would leave a calendar although nothing in the plan explains why.

The plan explains what is settled, skipped, lapsed, replaced or merged, and what is shown in another
calendar now; the diary explains a tree that left; the calendar, what another entry of the same rule
stands for. A card or a page that is missing explains nothing.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterable
from datetime import date, timedelta
from typing import NamedTuple
from urllib.parse import unquote

from backbud.calendar.entries import task_uid_of, uid_of
from backbud.plan.run import Plan

# More of a calendar than this does not go without a yes.
SHARE = 5
# A rule of the season hangs on a growing year, which the plan lets go of once it is past.
_GROWING_YEAR = re.compile(r"\d{4}(-\d{2,4})?")
_PAST = timedelta(days=366)


class Gone(NamedTuple):
    """An entry of ours that is to be taken out: its UID, its title, and its last day."""

    uid: str
    title: str
    last: date | None


class Explained(NamedTuple):
    """What the plan knows: the UIDs of all that it ever asks for, and by their first handles the
    trees there are and those that left."""

    uids: frozenset[str]
    trees: frozenset[str]
    departed: frozenset[str]
    today: date


def explained_by(plan: Plan, journal_id: str, today: date) -> Explained:
    """Return what a plan can explain."""
    return Explained(
        frozenset(of(one.id, journal_id) for one in plan.all() for of in (uid_of, task_uid_of)),
        frozenset(tree.first_handle for tree in plan.trees.values()),
        frozenset(
            tree.first_handle
            for tree in plan.trees.values()
            if tree.standing not in ("here", "not yet")
        ),
        today,
    )


def unexplained(gone: Iterable[Gone], new: Iterable[str], explained: Explained) -> tuple[Gone, ...]:
    """Return the entries whose going nothing explains. `new`: the UIDs that are to be added."""
    moved = Counter(_rule_of(uid) for uid in new)
    left: list[Gone] = []
    for one in gone:
        if one.uid in explained.uids or _has_ended(one, explained):
            continue
        rule = _rule_of(one.uid)
        if moved[rule]:
            moved[rule] -= 1
        else:
            left.append(one)
    return tuple(left)


def _has_ended(gone: Gone, explained: Explained) -> bool:
    tree, _, cause, *_ = (*_id_of(gone.uid), "", "", "")
    if tree in explained.departed:
        return True
    if tree not in explained.trees or gone.last is None:
        return False
    of_the_season = _GROWING_YEAR.fullmatch(cause) is not None
    return gone.last < explained.today - (timedelta() if of_the_season else _PAST)


def _rule_of(uid: str) -> tuple[str, ...]:
    """The tree and the rule; of a UID that is a digest, itself."""
    return tuple(_id_of(uid)[:2])


def _id_of(uid: str) -> list[str]:
    """The parts of the follow-up's id: first handle, rule, cause, part."""
    return unquote(uid.removeprefix("task:").rpartition("@")[0]).split("/")
