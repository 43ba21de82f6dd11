"""How much chill a place's winter gives, day by day."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from datetime import date, timedelta
from itertools import accumulate, pairwise

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
# With fewer years or winters on record than this, what they have in common says nothing.
FEWEST_ON_RECORD = 3
# So many of the latest winters are summed hour by hour; more would take long and show no more.
MOST_WINTERS = 10


class Winters:
    """The chill of the winters at one place and under one cover, each reckoned once.

    `latitude` in degrees. `past`: the sums of winters on record, where they were reckoned before.
    """

    def __init__(
        self, air: PlaceAir, shift: Shift, latitude: float, past: dict[date, Trace] | None = None
    ) -> None:
        self.air, self.shift, self.latitude = air, shift, latitude
        self.past: dict[date, Trace] = {} if past is None else past
        self._chill: dict[date, Trace] = {}

    def chill(self, year: date) -> Trace:
        """Chill portions, day by day, of the winter round the first day of a growing year.

        A day neither measured nor foretold gives what it gave on the average of the winters on
        record; with too few of them, what the model makes of the climate's mean air.
        """
        if year not in self._chill:
            self._chill[year] = self._reckoned(year)
        return self._chill[year]

    def on_record(self, year: date) -> Mapping[date, Trace]:
        """The latest ten winters on record but for the one round the first day of a growing year.

        Chill portions day by day, by the first day of the growing year that each is round.
        """
        next_one = year.replace(year=self.air.today.year + 1) - BEFORE_NEW_YEAR
        found = (first + BEFORE_NEW_YEAR for first in self.air.complete_years(next_one))
        latest = [one for one in found if one != year][-MOST_WINTERS:]
        for one in latest:
            if one not in self.past:
                self.past[one] = self._modelled(one)
        return {one: self.past[one] for one in latest}

    def _reckoned(self, year: date) -> Trace:
        trace = self._modelled(year)
        days = [trace.first + n * DAY for n in range(len(trace.sums))]
        known = {day for day in days if self.air.of(day).is_known}
        if len(known) == len(days):
            return trace
        winters = self.on_record(year)
        enough = len(winters) >= FEWEST_ON_RECORD
        return with_record(trace, known, tuple(winters.values())) if enough else trace

    def _modelled(self, year: date) -> Trace:
        return chill_trace(self.air, self.shift, year, self.latitude)


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


def with_record(trace: Trace, known: Collection[date], winters: Sequence[Trace]) -> Trace:
    """The chill of a winter whose days that are not known give what others gave then.

    `trace`: as the model has it, with the climate's mean air on each day that is not `known`:
    too even a winter, which chills more than real ones do. `winters`: the sums of others on
    record, as long as this one. ValueError for none.
    """
    if not winters:
        raise ValueError("no winter is on record")
    gained = [_gains(trace), *map(_gains, winters)]
    days = (
        own if trace.first + n * DAY in known else sum(others) / len(winters)
        for n, (own, *others) in enumerate(zip(*gained, strict=True))
    )
    return Trace(trace.first, tuple(accumulate(days)))


def _gains(trace: Trace) -> list[float]:
    """What each day adds."""
    return [after - before for before, after in pairwise((0.0, *trace.sums))]


def _range(air: PlaceAir, shift: Shift, day: date, latitude: float) -> DayRange:
    seen = shift.under(air.of(day))
    return DayRange(seen.low_c, seen.high_c, daylight_hours(latitude, day))
