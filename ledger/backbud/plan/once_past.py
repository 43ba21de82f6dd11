"""Tells what becomes of an open work on a day, once its window has passed and nobody did it.

It lapses, or stays for its next good moment, or grows: it is late, for no longer than a season,
and comes again with the next good moment where there is one. A promise is late for a season, and
is then asked about as a promise.
"""

from __future__ import annotations

from datetime import date, timedelta
from typing import Literal

from backbud.collection.hard_work import SEASON
from backbud.species import Schedule, Weight, Window, a_year_later
from backbud.species.schedule import come_round

# The last days of a window are its end; ours, no source.
_ENDS = timedelta(days=7)
_A_DAY, _YEAR = timedelta(days=1), timedelta(days=365)
Stands = Literal["coming", "now", "overdue", "lapsed", "promised"]


def window_on(
    window: Window, weight: Weight, schedule: Schedule, promised: bool, day: date
) -> Window:
    """The window that counts on a day: its own, what is left of it after a rest, or the next good
    moment."""
    rests = schedule.rests
    if rests is not None and not promised and rests.opens <= day <= rests.closes:
        opens = rests.closes + _A_DAY
        best = max(window.best, opens)
        return Window(opens, best, max(window.closes, best))
    if day <= window.closes or weight.lapses or promised:
        return window
    if weight.once_past == "stays":
        return come_round(schedule.again or a_year_later(window), day)
    again = schedule.again
    while again is not None and day > window.closes:
        # Late for a season at the most, then it waits for the next good moment.
        if day < again.opens and day <= window.closes + SEASON:
            break
        window, again = again, a_year_later(again)
    return window


def late_until(closes: date, schedule: Schedule) -> date:
    """The last day on which what grows is late: a season at the most, and not where what made it
    pressing is over; of what comes again each year, that year's."""
    season, over = closes + SEASON, schedule.over
    if over is None:
        return season
    if schedule.again is not None and over <= closes:
        over += -((over - closes - _A_DAY) // _YEAR) * _YEAR
    return min(season, over - _A_DAY)


def stands(now: Window, weight: Weight, schedule: Schedule, promised: bool, day: date) -> Stands:
    """How an open work stands on a day; `now`: the window that counts then."""
    if day < now.opens:
        return "coming"
    if day <= now.closes:
        return "now"
    if promised:
        return "overdue" if day <= now.closes + SEASON else "promised"
    if weight.once_past == "grows" and day <= late_until(now.closes, schedule):
        return "overdue"
    return "lapsed"


def said_on(window: Window, now: Window, schedule: Schedule, state: str, day: date) -> str:
    """What its rule says of a work on a day, as it stands then; `now`: the window that counts."""
    if state == "overdue" or (now != window and state in ("now", "coming")):
        return schedule.after
    if state == "now":
        ends = day > window.closes - _ENDS
        return schedule.at_the_end if ends and schedule.at_the_end else schedule.in_time
    return ""
