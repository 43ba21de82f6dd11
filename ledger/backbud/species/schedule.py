"""How a work goes on as its days pass: what is said of it then, and when it comes again."""

from __future__ import annotations

from datetime import date, timedelta

from msgspec import Struct

from backbud.species.windows import Window

_YEAR = timedelta(days=365)
_NO_TIME = timedelta(0)


class Schedule(Struct, frozen=True, kw_only=True, gc=False):
    """What a rule says of its work on days to come, each in one sentence, or "".

    `in_time`: while it can be done. `at_the_end`: in the last week of its window. `after`: once its
    window has passed and it is late: what will happen. `again`: of what stays or grows the next
    good moment after its window, and the same days of each year from then on. `over`: of what is
    late and grows the first day on which nothing is at stake any more, in each year where it comes
    again; a season later without it.
    `rests`: of what may be done the days in its window on which it cannot be done.
    """

    in_time: str = ""
    at_the_end: str = ""
    after: str = ""
    again: Window | None = None
    over: date | None = None
    rests: Window | None = None


NOTHING_SAID = Schedule()


def a_year_later(window: Window, years: int = 1) -> Window:
    """The same days a year later, or so many."""
    later = _YEAR * years
    return Window(window.opens + later, window.best + later, window.closes + later)


def come_round(window: Window, day: date) -> Window:
    """The first of a window and its like in later years that is not over before a day."""
    past = day - window.closes
    return window if past <= _NO_TIME else a_year_later(window, -(-past // _YEAR))


def next_after(day: date, window: Window) -> Window:
    """The first of a window and its like in later years that is not over on a day."""
    while window.closes <= day:
        window = a_year_later(window)
    return window
