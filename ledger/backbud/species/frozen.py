"""Tells in which weeks wood is frozen at a place: cut or bent then, it splits.

Common practice; the figure is ours.
"""

from __future__ import annotations

from datetime import date, timedelta

from backbud.species.windows import Window
from backbud.species.year import Year

# The mean of a usual week in °C, under the cover, under which wood stays frozen all day.
_FROZEN_C = 0.0
_A_WEEK = timedelta(weeks=1)
_A_DAY = timedelta(days=1)
_HALF_A_YEAR = timedelta(days=182)


def is_frozen(day: date, year: Year) -> bool:
    """Whether wood is usually frozen in the week from a day on; not where nothing is known."""
    return _mean_of(day, year) < _FROZEN_C


def frozen_weeks(window: Window, year: Year) -> Window | None:
    """From the first to the last frozen week of a window, reckoned from its first day, its best day
    the first; None where none is frozen."""
    frozen = [day for day in _weeks_of(window) if is_frozen(day, year)]
    if not frozen:
        return None
    last = min(frozen[-1] + _A_WEEK - _A_DAY, window.closes)
    return Window(frozen[0], frozen[0], last)


def frozen_around(day: date, year: Year) -> Window | None:
    """The time round a day in which wood is usually frozen, day by day; None where it is not."""
    if not is_frozen(day, year):
        return None
    opens = closes = day
    while day - opens < _HALF_A_YEAR and is_frozen(opens - _A_DAY, year):
        opens -= _A_DAY
    while closes - day < _HALF_A_YEAR and is_frozen(closes + _A_DAY, year):
        closes += _A_DAY
    return Window(opens, opens, closes)


def mildest_week(window: Window, year: Year) -> date:
    """The first day of the usually mildest week of a window, reckoned from its first day; that day
    where nothing is known."""
    return max(_weeks_of(window), key=lambda day: _mean_of(day, year))


def _mean_of(day: date, year: Year) -> float:
    """The usual mean of the week from a day on; as if it just froze where nothing is known."""
    usual = year.usual_mean(day, _A_WEEK.days)
    return usual.celsius if usual is not None else _FROZEN_C


def _weeks_of(window: Window) -> list[date]:
    weeks = (window.closes - window.opens) // _A_WEEK + 1
    return [window.opens + n * _A_WEEK for n in range(weeks)]
