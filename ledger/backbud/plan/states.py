"""Counts how many follow-ups of a plan stand under each heading on a day."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable
from datetime import date

from backbud.memo import NO_MEMO, Identical, Memo
from backbud.plan.followups import FollowUp, State
from backbud.plan.run import Plan


def states_of(plan: Plan, today: date, kept: Memo = NO_MEMO) -> Counter[State]:
    """How many follow-ups stand under each heading. `kept`: what an earlier run of this process
    left."""
    states: Counter[State] = Counter()
    for handle, those in plan.follow_ups.items():
        states.update(states_of_tree(handle, those, today, kept))
    return states


def states_of_tree(
    handle: str, follow_ups: Iterable[FollowUp], today: date, kept: Memo
) -> dict[State, int]:
    """The same of one tree."""

    def counted() -> dict[State, int]:
        return dict(Counter(one.heading_on(today) for one in follow_ups))

    return kept.once(("states", handle), (Identical(follow_ups), today), counted)
