"""Finds what was done or is planned out of its time, with the line of the diary it stands on."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from datetime import date
from functools import partial

from backbud.collection.hard_work import SEASON
from backbud.memo import NO_MEMO, Identical, Memo
from backbud.plan.common.out_of_its_time import OUT_OF_ITS_TIME
from backbud.plan.followups import FollowUp
from backbud.plan.run import Plan
from backbud.plan.told_cautions import Caution


def cautions_of(plan: Plan, today: date, kept: Memo = NO_MEMO) -> Iterator[Caution]:
    """What is to be said against works of a plan that are not done with.

    `kept`: what an earlier run of this process left.
    """
    for handle, those in plan.follow_ups.items():
        yield from cautions_of_tree(handle, those, today, kept)


def cautions_of_tree(
    handle: str, follow_ups: Iterable[FollowUp], today: date, kept: Memo
) -> tuple[Caution, ...]:
    """The same of one tree."""
    inputs = (Identical(follow_ups), today)
    return kept.once(("cautions", handle), inputs, partial(_of_tree, follow_ups, today))


def _of_tree(follow_ups: Iterable[FollowUp], today: date) -> tuple[Caution, ...]:
    return tuple(caution for one in follow_ups if one.is_open(today) for caution in _of(one))


def _of(one: FollowUp) -> Iterator[Caution]:
    origin = next((reason.origin for reason in one.because if reason.origin), None)
    until = one.window.closes + SEASON
    if f"/{OUT_OF_ITS_TIME}/" in one.id:
        said = next((reason.text for reason in one.because if reason.sort == "rule"), "")
        yield Caution(one.tree, said, origin, until)
    for said in one.against:
        yield Caution(one.tree, said, origin, until)
