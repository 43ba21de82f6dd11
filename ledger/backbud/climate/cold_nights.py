"""How cold a winter gets goes in; how far cold nights lie under the mean low of any date comes out.

Three times of the year, each with a figure of its own: the winter's extreme, late frost in spring
and early frost in autumn. Between them the figure goes straight from one to the other.

Late and early: the coldest night of a month lies under the mean low by 3.4 (spring) or 3.5 K
(autumn) and a third of the winter's drop: so by 6.2 and 6.4 K where the winter's is 8.6, the mean
of the stations of the fit, by 5.4 in Tunis and by 8.8 in Nebraska. One year in ten by 1.4 times as
much (April 6.5 and 9.1, May 5.9 and 8.3, September 6.0 and 8.6, October 6.7 and 9.4 K).
The last frost of a year comes after the coldest night of its month, in half of the years at 0.7
and in one of ten at 0.75 of these. Fitted to the daily series of Brussels 1976-2005 and Champion,
Nebraska, 1982-2018; tried on those of Tunis and Seattle (tests/climate/test_cold_nights.py).
"""

from __future__ import annotations

from datetime import date
from functools import lru_cache
from typing import NamedTuple

from backbud.climate.coldest_night import ONE_IN_TEN

_LATE_K, _EARLY_K, _PER_WINTER = 3.4, 3.5, 0.33
_ONE_IN_TEN_OF_A_MONTH = 1.4
# From the coldest night of a month to the last or first frost by date.
_BY_DATE, _BY_DATE_ONE_IN_TEN = 0.7, 0.75
# By how many K the coldest night of a month, so reckoned, may be off: the most it was in the
# series named above, to the cold side there; only Seattle's April, of four years, was 2.8 K off.
MONTH_ERROR_K = 2.0


class Drop(NamedTuple):
    """How far (K) cold nights lie under the mean low, in nine, five and one of ten years."""

    mild_k: float
    mean_k: float
    one_in_ten_k: float


def _drop(mean_k: float, one_in_ten_k: float) -> Drop:
    """The mild tenth lies as far from the mean year as the cold one, on the other side."""
    return Drop(2 * mean_k - one_in_ten_k, mean_k, one_in_ten_k)


def month_drop(winter_drop_k: float, month: int, *, southern: bool) -> Drop:
    """Return how far the coldest night of a month lies under its mean low.

    `winter_drop_k`: how far the mean annual minimum lies under the coldest month's mean low.
    """
    base = _LATE_K if _northern(month, southern) in range(1, 8) else _EARLY_K
    mean_k = base + _PER_WINTER * winter_drop_k
    return _drop(mean_k, _ONE_IN_TEN_OF_A_MONTH * mean_k)


@lru_cache(maxsize=20_000)
def drop_on(winter_drop_k: float, day: date, *, southern: bool) -> Drop:
    """Return how far under the mean low of its date a night must lie to be the last or first one
    so cold of its winter."""
    return _drop_on(winter_drop_k, day.month, day.day, southern)


# Asked of each night of a season, for three shares of the years and every sky.
@lru_cache(maxsize=4096)
def _drop_on(winter_drop_k: float, month: int, day: int, southern: bool) -> Drop:
    winter = _drop(winter_drop_k, ONE_IN_TEN * winter_drop_k)
    late, early = (_by_date(base, winter_drop_k) for base in (_LATE_K, _EARLY_K))
    place = _northern(month, southern) + (day - 1) / 31
    # The middles of January, April, July and October are 1.5, 4.5, 7.5 and 10.5.
    if place < 1.5:
        return _between(early, winter, (place + 1.5) / 3)
    if place < 4.5:
        return _between(winter, late, (place - 1.5) / 3)
    if place < 7.5:
        return late
    return early if place < 10.5 else _between(early, winter, (place - 10.5) / 3)


def drop_to_come(winter_drop_k: float, day: date, *, southern: bool) -> Drop:
    """Return how far under the mean low of its date the coldest night still to come of a winter
    lies where it falls on a day: the winter's up to mid-January, and the coldest night's of a month
    from mid-April on."""
    late = month_drop(winter_drop_k, 1, southern=False)
    winter = _drop(winter_drop_k, ONE_IN_TEN * winter_drop_k)
    return _between(late, winter, share_of_winter(day, southern=southern))


def error_to_come_k(winter_error_k: float, day: date, *, southern: bool) -> float:
    """Return by how many K that of one year in ten may be off, from the winter's to a month's."""
    share = share_of_winter(day, southern=southern)
    return MONTH_ERROR_K + share * (winter_error_k - MONTH_ERROR_K)


def share_of_winter(day: date, *, southern: bool) -> float:
    """Return how much a night is one of winter and not of late frost: 1 from summer to
    mid-January, 0 from mid-April on."""
    place = _northern(day.month, southern) + (day.day - 1) / 31
    return 1.0 if place >= 7 else min(max((4.5 - place) / 3, 0.0), 1.0)


def _by_date(base_k: float, winter_drop_k: float) -> Drop:
    month_k = base_k + _PER_WINTER * winter_drop_k
    return _drop(_BY_DATE * month_k, _BY_DATE_ONE_IN_TEN * _ONE_IN_TEN_OF_A_MONTH * month_k)


def _between(one: Drop, other: Drop, share: float) -> Drop:
    return Drop(*(a + share * (b - a) for a, b in zip(one, other, strict=True)))


def _northern(month: int, southern: bool) -> int:
    return (month + 5) % 12 + 1 if southern else month
