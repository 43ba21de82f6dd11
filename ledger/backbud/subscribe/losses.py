"""Entries that would leave a calendar although nothing in the plan explains why.

The plan explains what is settled, skipped, lapsed, replaced or merged, and what is shown in another
calendar now; the diary explains a tree that left; the calendar, what another entry of the same rule
stands for. An entry that stands for several works comes and goes with its week, so it is explained
while there is such work, and such a place or kind of tree. A card or a page that is missing
explains nothing.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterable
from datetime import date, timedelta
from typing import NamedTuple
from urllib.parse import unquote

from backbud.calendar.entries import task_uid_of, uid_of
from backbud.journal.things import Things
from backbud.plan.followups import sort_of_work
from backbud.plan.run import Plan

# More of a calendar than this does not go without a yes.
SHARE = 5
# A rule of the season hangs on a growing year, which the plan lets go of once it is past.
_GROWING_YEAR = re.compile(r"\d{4}(-\d{2,4})?")
_PAST = timedelta(days=366)
# The rules that hang on a forecast (plan/common/).
_FORETOLD = ("frost-ahead", "heat-ahead", "wind-ahead")


class Gone(NamedTuple):
    """An entry of ours that is to be taken out: its UID, its title, and its last day."""

    uid: str
    title: str
    last: date | None


class Explained(NamedTuple):
    """What the plan knows: the UIDs of all that it ever asks for, and by their first handles the
    trees there are and those that left. `works`: the sorts of work that it asks for; `wheres`: the
    kinds of tree, and the places by first handle."""

    uids: frozenset[str]
    trees: frozenset[str]
    departed: frozenset[str]
    today: date
    works: frozenset[str] = frozenset()
    wheres: frozenset[str] = frozenset({""})


def explained_by(plan: Plan, things: Things, journal_id: str, today: date) -> Explained:
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
        frozenset(sort_of_work(one)[0] for one in plan.all()),
        frozenset(
            ("", *(tree.kind for tree in plan.trees.values()),
             *(place.first_handle for place in things.of_kind("place")))
        ),
    )  # fmt: skip


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
    sort, is_joint, _ = gone.uid.removeprefix("task:").partition(":")
    if is_joint:
        return _is_of_another_week(sort, _id_of(gone.uid), explained)
    tree, rule, cause, *part = (*_id_of(gone.uid), "", "", "")
    if tree in explained.departed:
        return True
    if tree not in explained.trees or gone.last is None:
        return False
    if rule in _FORETOLD or "foretold" in part:
        # What was foretold need not come.
        return True
    of_the_season = _GROWING_YEAR.fullmatch(cause) is not None
    return gone.last < explained.today - (timedelta() if of_the_season else _PAST)


def _is_of_another_week(sort: str, name: list[str], explained: Explained) -> bool:
    """Of an entry that stands for several works, whether all that it is named for is there still:
    its work, its place or kind."""
    named = [name[0].partition(":")[2], *name[1:-1]]  # and then the week
    if sort in ("must", "may"):
        return named[0] in explained.works and "/".join(named[1:]) in explained.wheres
    return sort not in ("place", "kind") or "/".join(named) in explained.wheres


def _rule_of(uid: str) -> tuple[str, ...]:
    """The tree and the rule; of a UID that is a digest, itself."""
    return tuple(_id_of(uid)[:2])


def _id_of(uid: str) -> list[str]:
    """The parts of the follow-up's id: first handle, rule, cause, part."""
    return unquote(uid.removeprefix("task:").rpartition("@")[0]).split("/")
