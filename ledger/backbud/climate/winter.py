"""How much chill a place's winter gives, day by day."""

from __future__ import annotations

from datetime import date, timedelta

from backbud.climate.air import DAY, PlaceAir, Shift
from backbud.climate.chill import DYNAMIC_START, chill_portions
from backbud.climate.heat import Trace
from backbud.climate.hourly import DayRange, hours_of_day_c
from backbud.climate.radiation import daylight_hours

# Chill is counted from northern 1 October on, so that what a cold autumn gives is not lost; common
# practice, no source.
BEFORE_NEW_YEAR = timedelta(days=92)
# No later than this after the middle of winter growth begins, chill or not.
LATEST = timedelta(days=90)


def chill_trace(air: PlaceAir, shift: Shift, first: date, latitude: float) -> Trace:
    """Chill portions day by day of the winter round the first day of a growing year.

    From 92 days before it until 90 days after it, by the Dynamic model over hours made from each
    day's low and high. `latitude` in degrees.
    """
    begins = first - BEFORE_NEW_YEAR
    count = (LATEST + BEFORE_NEW_YEAR).days + 1
    days = [_range(air, shift, begins + n * DAY, latitude) for n in range(-1, count + 1)]
    state, sums = DYNAMIC_START, []
    for before, day, after in zip(days, days[1:], days[2:], strict=False):
        state = chill_portions(hours_of_day_c(day, before, after), state)
        sums.append(state.portions)
    return Trace(begins, tuple(sums))


def _range(air: PlaceAir, shift: Shift, day: date, latitude: float) -> DayRange:
    seen = shift.under(air.of(day))
    return DayRange(seen.low_c, seen.high_c, daylight_hours(latitude, day))
