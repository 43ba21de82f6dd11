"""Finds what was done or is planned out of its time, with the line of the diary it stands on."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta

from msgspec import Struct

from backbud.collection.state import Entry
from backbud.collection.whereabouts import Histories
from backbud.journal.events import Origin
from backbud.plan.common.out_of_its_time import OUT_OF_ITS_TIME
from backbud.plan.followups import FollowUp
from backbud.plan.hang import WOULD_BE
from backbud.plan.run import Plan

# What was done longer ago is history: no aftercare helps any more.
_LATELY = timedelta(days=150)
_DONE = ("pruned", "decandled", "defoliated")


class Caution(Struct, frozen=True):
    """What speaks against a work on a tree, and the line that it stands on, if it does."""

    tree: str
    text: str
    origin: Origin | None


def to_judge(histories: Histories, today: date) -> tuple[str, ...]:
    """The trees on which something was done lately, or planned, that a species may judge."""
    return tuple(
        handle
        for handle, tree in histories.trees.items()
        if tree.standing == "here" and any(_may_be_judged(entry, today) for entry in tree.entries)
    )


def cautions_of(plan: Plan, today: date) -> Iterator[Caution]:
    """What is to be said against works of a plan that are not done with."""
    for one in plan.all():
        if one.is_open(today):
            yield from _of(one)


def _may_be_judged(entry: Entry, today: date) -> bool:
    event = entry.event
    if not event.exact or entry.undone:
        return False
    if event.was("planned", "put-off"):
        return True
    judged = event.act in _DONE or "root_work" in event.row.traits
    return judged and today - event.day <= _LATELY


def _of(one: FollowUp) -> Iterator[Caution]:
    origin = next((reason.origin for reason in one.because if reason.origin), None)
    if f"/{OUT_OF_ITS_TIME}/" in one.id:
        said = next((reason.text for reason in one.because if reason.sort == "rule"), "")
        yield Caution(one.tree, said, origin)
    for caution in one.cautions if one.promised else ():
        if caution.startswith(WOULD_BE):
            yield Caution(one.tree, caution, origin)
