"""The climate that the trade's dates are meant for: what it has had of heat or cold by a day.

The trade gives its dates by the calendar of a cool temperate place. So that they can be moved to
another place, they are turned into sums by one open climate: Nottingham Castle, the monthly mean
air temperatures of 1920 to 1939 (`nottem` of the datasets that come with R). How far the low and
the high of its days lie from the mean is from memory.
"""

from __future__ import annotations

from datetime import date
from functools import lru_cache

from backbud.climate.air import OPEN_AIR, PlaceAir
from backbud.climate.days import MonthlyMeans
from backbud.climate.heat import Trace
from backbud.climate.stages import Traces
from backbud.climate.winter import chill_trace

MEANS_C = (4.28, 3.99, 5.66, 7.94, 11.42, 14.47, 16.61, 15.84, 13.6, 9.72, 5.88, 4.18)
_SWING_C = (2.7, 3.0, 3.8, 4.6, 5.2, 5.3, 5.3, 5.1, 4.6, 3.8, 3.0, 2.6)
NOTTINGHAM = MonthlyMeans(
    low_c=tuple(mean - swing for mean, swing in zip(MEANS_C, _SWING_C, strict=True)),
    high_c=tuple(mean + swing for mean, swing in zip(MEANS_C, _SWING_C, strict=True)),
)
LATITUDE = 52.95

# Any year that is no leap year and lies before every today.
YEAR = date(1999, 1, 1)
# Cold is counted from northern midsummer on.
_COLD_FROM = date(1999, 8, 1)


@lru_cache(maxsize=256)
def heat_by(month: int, day: int, base_c: float, chill_portions: float = 0.0) -> float:
    """Weighed degree-days over a base from 1 January, or from the day the chill is met, to a day.

    Never less than 1.
    """
    trace = _traces().of("heat", YEAR, base_c)
    start = 0.0
    if chill_portions:
        met = _chill().reaches(chill_portions)
        start = trace.at(met) if met is not None else 0.0
    return max(trace.at(date(YEAR.year, month, day)) - start, 1.0)


@lru_cache(maxsize=256)
def cold_by(month: int, day: int, threshold_c: float) -> float:
    """Weighed degree-days under a threshold from 1 August to a day; never less than 1."""
    trace = _traces().of("cold", _COLD_FROM, threshold_c)
    return max(trace.at(date(YEAR.year, month, day)), 1.0)


@lru_cache(maxsize=1)
def _traces() -> Traces:
    return Traces(air(), OPEN_AIR, LATITUDE)


@lru_cache(maxsize=1)
def _chill() -> Trace:
    return chill_trace(air(), OPEN_AIR, YEAR, LATITUDE)


@lru_cache(maxsize=1)
def air() -> PlaceAir:
    """The air of the reference climate."""
    return PlaceAir({}, NOTTINGHAM, YEAR, "the reference climate")
