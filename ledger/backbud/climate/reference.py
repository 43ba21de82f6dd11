"""The climate that the trade's dates are meant for: what it has had of heat or cold by a day.

The trade gives its dates by the calendar of a cool temperate place, as they are kept today. So that
they can be moved to another place, they are turned into sums by one open climate of today: Sutton
Bonington beside Nottingham, the means of the lows and the highs of 1991 to 2020, reckoned by us
from the monthly station text of the Met Office. (With the Nottingham of 1920 to 1939, 1.2 K colder,
spring was foretold 8 to 9 days early elsewhere.)
"""

from __future__ import annotations

from datetime import date
from functools import lru_cache

from backbud.climate.air import OPEN_AIR, PlaceAir
from backbud.climate.days import MonthlyMeans
from backbud.climate.heat import Trace
from backbud.climate.stages import Traces
from backbud.climate.winter import chill_trace

NOTTINGHAM = MonthlyMeans(
    low_c=(1.91, 1.88, 3.02, 4.58, 7.14, 10.14, 12.13, 12.14, 10.08, 7.53, 4.42, 2.15),
    high_c=(7.51, 8.14, 10.55, 13.56, 16.66, 19.63, 22.02, 21.75, 18.73, 14.49, 10.38, 7.76),
)
LATITUDE = 52.83

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
