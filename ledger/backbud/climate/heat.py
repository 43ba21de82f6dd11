"""The sum of heat or of cold that a place has gathered by each day of a year.

Days that were measured or are foretold count by the single sine between their low and high. Days
that are only expected count by the climate's mean and by how far days stray about it, since a mean
under the base still has warm days in it.
"""

from __future__ import annotations

from bisect import bisect_left
from calendar import isleap
from collections.abc import Callable, Sequence
from datetime import date
from functools import lru_cache
from itertools import accumulate
from math import erf, exp, pi, sqrt
from operator import mul
from typing import NamedTuple

from backbud.climate.air import DAY, Air, PlaceAir, Shift
from backbud.climate.degree_days import cold_degree_days, degree_days_by_sine

# A growing year and the weeks after it, so that what comes late is still found.
DAYS_OF_TRACE = 366


# Every day counts alike.
EVEN = (1.0,) * DAYS_OF_TRACE


class Trace(NamedTuple):
    """A sum day by day: `sums[n]` is the sum at the end of `first` + n days."""

    first: date
    sums: tuple[float, ...]

    def at(self, day: date) -> float:
        """The sum at the end of a day; 0 before the first, the whole sum after the last."""
        at = min((day - self.first).days, len(self.sums) - 1)
        return self.sums[at] if at >= 0 else 0.0

    def reaches(self, wanted: float, start: float = 0.0) -> date | None:
        """The first day at whose end the sum is `wanted` more than `start`; None if never."""
        at = bisect_left(self.sums, wanted + start)
        return self.first + at * DAY if at < len(self.sums) else None


class DaySums:
    """What each day at a place adds to a sum, each day reckoned once."""

    def __init__(
        self,
        air: PlaceAir,
        shift: Shift,
        of_day: Callable[[Air, float], float],
        under: dict[date, Air] | None = None,
    ) -> None:
        """`under`: the air of each day under the cover, as far as another sum asked for it."""
        self.air, self.shift, self._of_day = air, shift, of_day
        self._under = {} if under is None else under
        self._known: dict[date, float] = {}
        self._years: dict[date, list[float] | None] = {}
        self._usual: dict[tuple[int, int, bool, bool], list[float]] = {}

    def of(self, day: date) -> float:
        """The degree-days of a day, as measured or foretold, or else as expected."""
        found = self._known.get(day)
        if found is None:
            seen = self._under.get(day)
            if seen is None:
                seen = self._under[day] = self.shift.under(self.air.of(day))
            found = self._known[day] = self._of_day(seen, self.air.day_to_day_c)
        return found

    def trace(
        self, first: date, as_in: date | None = None, weights: Sequence[float] = EVEN
    ) -> Trace:
        """The sums from the first day of a growing year on.

        `as_in`: the first day of an earlier year whose days stand in for those not known yet.
        `weights`: what each day's sum counts for, as many as a trace has days.
        """
        values = self._year_from(first)
        if as_in is not None:
            known = min(max((self.air.known_until - first).days + 1, 0), DAYS_OF_TRACE)
            values = values[:known] + self._year_from(as_in)[known:]
        return Trace(first, tuple(accumulate(map(mul, weights, values))))

    def _year_from(self, first: date) -> list[float]:
        found = self._years.get(first)
        if found is None:
            found = self._years[first] = self._usual_year_from(first)
        if found is None:
            found = self._years[first] = [self.of(first + n * DAY) for n in range(DAYS_OF_TRACE)]
        return found

    def _usual_year_from(self, first: date) -> list[float] | None:
        """Those of a year of which nothing is known, all of which are alike; None for any other."""
        last = first + (DAYS_OF_TRACE - 1) * DAY
        if self.air.tells_of(first, last):
            return None
        key = first.month, first.day, isleap(first.year), isleap(last.year)
        found = self._usual.get(key)
        if found is None:
            found = self._usual[key] = [self.of(first + n * DAY) for n in range(DAYS_OF_TRACE)]
        return found


def heat_sums(
    air: PlaceAir,
    shift: Shift,
    base_c: float,
    extra: float = 0.0,
    under: dict[date, Air] | None = None,
) -> DaySums:
    """Degree-days over a base, day by day; `extra`: what each day adds of itself; `under`: as for
    `DaySums`."""
    return DaySums(air, shift, lambda seen, stray: _warm(seen, stray, base_c) + extra, under)


def cold_sums(
    air: PlaceAir,
    shift: Shift,
    threshold_c: float,
    extra: float = 0.0,
    under: dict[date, Air] | None = None,
) -> DaySums:
    """Degree-days under a threshold, day by day; else as `heat_sums`."""
    return DaySums(air, shift, lambda seen, stray: _cold(seen, stray, threshold_c) + extra, under)


def heat_trace(
    air: PlaceAir, shift: Shift, first: date, base_c: float, as_in: date | None = None
) -> Trace:
    """Degree-days over a base from a day on; `as_in` as for `DaySums.trace`."""
    return heat_sums(air, shift, base_c).trace(first, as_in)


def expected_degree_days(mean_c: float, stray_c: float, base_c: float) -> float:
    """Degree-days over a base to be expected of a day whose mean strays about `mean_c`.

    Thom (1954): with z = (mean - base) / stray, stray × (density(z) + z × share(z)) of the normal
    curve. `stray_c`: the standard deviation of the day's mean, °C, more than 0.
    """
    if stray_c <= 0:
        raise ValueError("how far days stray must be more than 0 °C")
    z = (mean_c - base_c) / stray_c
    density = exp(-z * z / 2) / sqrt(2 * pi)
    share = (1 + erf(z / sqrt(2))) / 2
    return stray_c * (density + z * share)


@lru_cache(maxsize=65536)
def _expected(mean_c: float, stray_c: float, base_c: float) -> float:
    return expected_degree_days(mean_c, stray_c, base_c)


def _warm(seen: Air, stray_c: float, base_c: float) -> float:
    if seen.is_known:
        return degree_days_by_sine(seen.low_c, seen.high_c, base_c)
    # The swing of the day counts beside the straying of days: a sine's variance is swing²/2.
    swing = (seen.high_c - seen.low_c) / 2
    return _expected(seen.mean_c, round(sqrt(stray_c**2 + swing**2 / 2), 3), base_c)


def _cold(seen: Air, stray_c: float, threshold_c: float) -> float:
    if seen.is_known:
        return cold_degree_days(seen.low_c, seen.high_c, threshold_c)
    return _expected(-seen.mean_c, stray_c, -threshold_c)
