"""The day to cut a pine's candles, so that its second flush still ripens.

The shorter the warm season that is left, the earlier they are cut, and the longer the needles of
the second flush grow. Common practice; the figures are ours, no source.
"""

from __future__ import annotations

from datetime import date, timedelta
from typing import NamedTuple

from backbud.species import Datum, Stage, Window, Year, phrase
from backbud_species.habits.figures import SECOND_FLUSH_DAYS, SECOND_FLUSH_OVER

# Candles are cut no sooner than a week after their needles part, and no later than this northern
# day, however long the autumn.
_A_WEEK = timedelta(days=7)
_LATEST = (7, 25)
_BEFORE, _AFTER = timedelta(days=10), timedelta(days=12)


# Heat of a second flush counts over this mean of the day.
FLUSHES_OVER_C = 10.0


def heat_left(year: Year, day: date) -> float | None:
    """The heat above 10 °C (K·day) that is left of a growing year from a day on; None where nothing
    is known of the weather."""
    if year.outlook is None:
        return None
    trace = year.outlook.heat(year.first, FLUSHES_OVER_C)
    return trace.sums[-1] - trace.at(day)


class Cut(NamedTuple):
    """When candles are cut, and the figure that decided."""

    window: Window
    datum: Datum


def candle_cut(parted: Stage, year: Year, more_days: int = 0) -> Cut | None:
    """The days for cutting candles, from the stage at which their needles part from them.

    `more_days`: how many more a species needs for its second flush than a black pine. None where
    nothing is known of the weather, or where no day is warm enough.
    """
    cools = year.stays_over(SECOND_FLUSH_OVER.of(year))
    if cools is None:
        return None
    days = round(SECOND_FLUSH_DAYS.of(year)) + more_days
    earliest, latest = parted.day + _A_WEEK, year.on(_LATEST)
    best = max(min(cools - timedelta(days=days), latest), earliest)
    opens = max(best - _BEFORE, parted.first)
    return Cut(
        year.rounded(Window(opens, max(best, opens), best + _AFTER)),
        Datum(
            phrase(
                "Days average {of:g} °C and more until {cools}; the second flush needs "
                "about {days} days before that ({name}, {name_2}, settings of ours).",
                of=SECOND_FLUSH_OVER.of(year),
                cools=cools,
                days=days,
                name=SECOND_FLUSH_OVER.name,
                name_2=SECOND_FLUSH_DAYS.name,
            ),
            expected=True,
        ),
    )
