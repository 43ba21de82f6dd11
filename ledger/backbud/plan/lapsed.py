"""Tells which works of a span of days came to nothing: their time passed and nobody did them.

It is told once, in the year's review. What was done, skipped, put off or promised is not among
them, nor what stays or comes again.
"""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date, timedelta

from msgspec import Struct

from backbud.plan.followups import FollowUp
from backbud.plan.once_past import late_until

_DAY = timedelta(days=1)


class Lapsed(Struct, frozen=True, gc=False):
    """A work that came to nothing. `day`: the first on which it could no longer be done. `reason`:
    why it was asked for, in one sentence. `missed`: it had to be done, or there was a reason for
    it in this very tree; else it was a chance of the season, to be told by its `work.group`.
    """

    day: date
    work: FollowUp
    reason: str
    missed: bool


def lapsed(works: Iterable[FollowUp], first: date, last: date, today: date) -> tuple[Lapsed, ...]:
    """What lapsed from the `first` day to the `last` and not after `today`: what was most at stake
    first, then by the day."""
    found = []
    for one in works:
        day = lapses_on(one)
        if day is not None and first <= day <= min(last, today):
            missed = one.weight.must or one.singly
            found.append(Lapsed(day, one, _asked_for(one), missed))
    return tuple(sorted(found, key=lambda it: (it.work.weight.rank, it.day, it.work.id)))


def lapses_on(one: FollowUp) -> date | None:
    """The first day on which a work is gone if nobody does it; None of one that never lapses."""
    if one.outcome != "open" or one.promised:
        return None
    if one.weight.lapses:
        day = one.window.closes + _DAY
    elif one.weight.once_past == "grows" and one.schedule.again is None:
        day = late_until(one.window.closes, one.schedule) + _DAY
    else:
        return None
    # The next of its kind stood for it by then.
    replaced = one.next_cycle is not None and one.next_cycle <= day
    return None if replaced else day


def _asked_for(one: FollowUp) -> str:
    """The sentence of its rule, else the last of its reasons."""
    of_rule = (reason.text for reason in one.because if reason.sort == "rule")
    return next(of_rule, one.because[-1].text)
