"""The temperature of the air at a place on any day: as measured, as foretold, or as its climate
has it.

A day that was measured is taken as it was, a day to come as a forecast has it; every other day is
the climate's: a harmonic fit of the twelve means, or the average of the years on record where a
place has no means.
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterator, Mapping
from datetime import date, timedelta
from functools import cached_property
from statistics import stdev
from typing import NamedTuple

from msgspec import Struct

from backbud.climate.daily_from_months import daily_means
from backbud.climate.days import MonthlyMeans, WeatherDay
from backbud.climate.forecast import NO_FORECAST, Forecast
from backbud.tongue import phrase

# How the mean of one day strays about the climate's, where no years tell: from memory of
# temperate stations, between 3 and 4 °C.
USUAL_DAY_TO_DAY_C = 3.5
LEAST_DAY_TO_DAY_C = 0.5
# A year with more days missing is no year on record.
MOST_DAYS_MISSING = 30
DAY = timedelta(days=1)


class Air(NamedTuple):
    """The air of one day, °C.

    `measured`: False where it is only expected. `felt`: the thermometer hung under the cover, so
    that the cover shifts it no more. `foretold`: a forecast has it so; never with `measured`.
    """

    low_c: float
    high_c: float
    measured: bool = False
    felt: bool = False
    foretold: bool = False

    @property
    def is_known(self) -> bool:
        """Whether it is this very day's: measured, or foretold; else it is the climate's."""
        return self.measured or self.foretold

    @property
    def mean_c(self) -> float:
        return (self.low_c + self.high_c) / 2


# No air is colder or hotter, whatever a curve through monthly means swings to, or a setting adds:
# wide of every station's record (from memory of the WMO's archive: -89.2 and 56.7 °C).
COLDEST_C, HOTTEST_C = -89.5, 60.0


class Shift(Struct, frozen=True, gc=False):
    """What a cover does to the air under it.

    `low_c`, `high_c`: °C added to the day's low and high. `least_c`: what a heater keeps it at.
    """

    low_c: float = 0.0
    high_c: float = 0.0
    least_c: float | None = None

    def under(self, outside: Air) -> Air:
        """The air under the cover, on a day when it is so outside."""
        if outside.felt:
            return outside
        low, high = outside.low_c + self.low_c, outside.high_c + self.high_c
        if self.least_c is not None:
            low, high = max(low, self.least_c), max(high, self.least_c)
        low = min(max(low, COLDEST_C), HOTTEST_C)
        high = min(max(low, high), HOTTEST_C)
        return Air(low, high, outside.measured, False, outside.foretold)


OPEN_AIR = Shift()


class PlaceAir:
    """The air of a place as it is known at the end of `today`."""

    def __init__(
        self,
        measured: Mapping[date, WeatherDay],
        means: MonthlyMeans,
        today: date,
        means_from: str,
        felt: frozenset[date] = frozenset(),
        forecast: Forecast | None = None,
    ) -> None:
        """`means_from`: where the means come from, as words in a sentence. `felt`: the days that
        a thermometer under the place's cover measured. `forecast`: what is expected of the days
        after today; one that is too old counts for nothing."""
        self.felt = felt
        self.foretold = forecast.ahead(today) if forecast is not None else NO_FORECAST
        self.forecast = forecast if self.foretold else None
        self._usual: dict[int, tuple[Air, ...]] = {}
        self._years: dict[date, tuple[date, ...]] = {}
        self.measured = {day: seen for day, seen in measured.items() if day <= today}
        self.means, self.today, self.means_from = means, today, means_from

    def expected(self, day: date) -> Air:
        """What the climate leads to expect of a day, whether it was measured or not."""
        year = self._usual.get(day.year)
        if year is None:
            lows = daily_means(self.means.low_c, day.year)
            highs = daily_means(self.means.high_c, day.year)
            # Two curves that keep their own months' means may cross, where a month's are as one.
            year = self._usual[day.year] = tuple(
                Air(min(low, high), max(low, high)) for low, high in zip(lows, highs, strict=True)
            )
        return year[day.toordinal() - date(day.year, 1, 1).toordinal()]

    def of(self, day: date) -> Air:
        """The day as measured or foretold; what is not known of it is the climate's."""
        if day in self.foretold:
            return self._foretold(day)
        seen = self.measured.get(day)
        usual = self.expected(day)
        if seen is None or (seen.low_c is None and seen.high_c is None):
            return usual
        low, high = seen.low_c, seen.high_c
        if low is None:
            low = usual.low_c if high is None else min(usual.low_c, high)
        return Air(low, max(usual.high_c, low) if high is None else high, True, day in self.felt)

    def _foretold(self, day: date) -> Air:
        """A day to come; where the forecast tells one of low and high, the other is the climate's,
        on the right side of it."""
        said, usual = self.foretold[day], self.expected(day)
        low, high = said.low_c, said.high_c
        if low is None and high is None:
            return usual
        if low is None:
            low = usual.low_c if high is None else min(usual.low_c, high)
        return Air(low, max(usual.high_c, low) if high is None else high, foretold=True)

    @cached_property
    def known_until(self) -> date:
        """The last day up to which a forecast tells of each day from tomorrow on; else today."""
        day = self.today
        while (said := self.foretold.get(day + DAY)) is not None and said.low_c is not None:
            day += DAY
        return day

    def tells_of(self, first: date, last: date) -> bool:
        """Whether any day between two days was measured or is foretold."""
        at = bisect_left(self._days_told, first)
        return at < len(self._days_told) and self._days_told[at] <= last

    @cached_property
    def _days_told(self) -> list[date]:
        return sorted({*self.measured, *self.foretold})

    def complete_years(self, first: date) -> tuple[date, ...]:
        """The first days of every year on record before the one that begins on `first`.

        A year is on record when no more than 30 of its days lack a temperature.
        """
        if first not in self._years:
            self._years[first] = tuple(self._complete_before(first))
        return self._years[first]

    def _complete_before(self, first: date) -> Iterator[date]:
        oldest = min(self.measured, default=first)
        for year in range(oldest.year - 1, first.year):
            begins = first.replace(year=year)
            ends = first.replace(year=year + 1)
            days = (ends - begins).days
            known = sum(1 for n in range(days) if self._has_mean(begins + n * DAY))
            if days - known <= MOST_DAYS_MISSING:
                yield begins

    def has_days_from(self, day: date) -> bool:
        """Whether anything was measured on or after a day."""
        return self._measured_until >= day

    @cached_property
    def _measured_until(self) -> date:
        return max(self.measured, default=date.min)

    def seen_or_means(self, day: date) -> str:
        """What the sums from a day on rest on, as words in a sentence."""
        return phrase("the weather of this year") if self.has_days_from(day) else self.means_from

    @cached_property
    def day_to_day_c(self) -> float:
        """How far the mean of a day strays about the climate's (standard deviation, °C)."""
        strays = [
            seen.mean_c - self.expected(day).mean_c
            for day, seen in self.measured.items()
            if seen.mean_c is not None
        ]
        return max(stdev(strays), LEAST_DAY_TO_DAY_C) if len(strays) >= 365 else USUAL_DAY_TO_DAY_C

    def _has_mean(self, day: date) -> bool:
        seen = self.measured.get(day)
        return seen is not None and seen.mean_c is not None
