"""A day and a year go in; whether it lies in growth, and the spring to come, come out.

By months until the weather of the place decides. Common practice, no source.
"""

from __future__ import annotations

from datetime import date

from backbud.species import Window, Year

MonthDay = tuple[int, int]


def in_growth(day: date, year: Year) -> bool:
    """Whether wood thickens then: maples, pines and junipers do so until mid-October."""
    return year.on((3, 15)) <= day <= year.on((10, 15))


def coming(year: Year, day: date, opens: MonthDay, best: MonthDay, closes: MonthDay) -> Window:
    """The window by northern months, the first that is not over on a day; it opens after it."""
    window = year.months(opens, best, closes)
    if window.closes <= day:
        window = a_year_later(window)
    first = max(window.opens, day)
    return Window(first, max(window.best, first), window.closes)


def a_year_later(window: Window) -> Window:
    return Window(*(_next_year(day) for day in (window.opens, window.best, window.closes)))


def _next_year(day: date) -> date:
    # There is no 29 February in most years.
    return day.replace(year=day.year + 1, day=min(day.day, 28) if day.month == 2 else day.day)
