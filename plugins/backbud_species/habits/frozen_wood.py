"""Work on bare wood keeps out of the weeks in which it is frozen."""

from __future__ import annotations

from datetime import timedelta

from backbud.species import Window, Year, is_frozen

_A_WEEK = timedelta(weeks=1)


def thawed(window: Window, year: Year) -> Window:
    """The window, its best day in the nearest week that is usually not frozen.

    As it is where nothing is known of the weather, or where all of it is frozen.
    """
    if not is_frozen(window.best, year):
        return window
    weeks = max((window.closes - window.opens) // _A_WEEK, 1)
    for n in range(1, weeks + 1):
        for day in (window.best - n * _A_WEEK, window.best + n * _A_WEEK):
            if window.opens <= day <= window.closes and not is_frozen(day, year):
                return Window(window.opens, day, window.closes)
    return window
