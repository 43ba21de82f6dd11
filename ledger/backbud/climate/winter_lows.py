"""Daily minima go in; how they spread in winter, and the coldest night of each, come out."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from datetime import date
from math import sqrt
from typing import NamedTuple

from backbud.climate.daily_from_months import daily_means
from backbud.climate.frost import MAX_MISSING_NIGHTS, Nights, place_in_season

# December to February: 90 nights; under half of them tell nothing of a winter.
NIGHTS_OF_A_WINTER = 90
FEWEST_NIGHTS = 45
# The standard error of a sample's tenth, in standard deviations over the root of its size: the
# root of 0.1 x 0.9 over the normal density there (asymptotic variance of a sample quantile).
_ERROR_OF_A_TENTH = 1.71


class WinterLows(NamedTuple):
    """`spread_k`: the standard deviation (K) of winter lows about the mean of their date;
    `winters`: how many winters' nights that rests on."""

    spread_k: float
    winters: float


class Extremes(NamedTuple):
    """Of each winter's coldest night on record: the mean and the coldest tenth (°C), by how many
    K the tenth may be off, and how many winters there are."""

    mean_annual_minimum_c: float
    one_in_ten_c: float
    give_or_take_k: float
    winters: int


def winter_lows(
    seasons: Iterable[Nights], monthly_mean_lows_c: Sequence[float], *, southern: bool
) -> WinterLows | None:
    """Return how winter lows (December to February; June to August in the south) spread.

    Each is taken from the mean low of its date. None for fewer than 45 nights. ValueError unless
    there are twelve means.
    """
    months = (6, 7, 8) if southern else (12, 1, 2)
    strays = [
        low_c - daily_means(monthly_mean_lows_c, night.year)[_place(night)]
        for season in seasons
        for night, low_c in season.lows
        if night.month in months
    ]
    if len(strays) < FEWEST_NIGHTS:
        return None
    from statistics import stdev

    return WinterLows(stdev(strays), len(strays) / NIGHTS_OF_A_WINTER)


def extremes_of(
    seasons: Iterable[Nights], *, max_missing_nights: int = MAX_MISSING_NIGHTS
) -> Extremes | None:
    """Return the extremes of the cold seasons that are known well enough.

    The tenth is the coldest of ten winters, and of fewer the coldest one (Hyndman & Fan 1996,
    type 1, as the record of frosts has it). None for fewer than two such seasons.
    """
    return _extremes(
        min(low_c for _, low_c in season.lows)
        for season in seasons
        if season.nights - len(season.lows) <= max_missing_nights
    )


def extremes_from(
    seasons: Iterable[Nights],
    day: date,
    *,
    southern: bool,
    max_missing_nights: int = MAX_MISSING_NIGHTS,
) -> Extremes | None:
    """Return the extremes of what is left of each season from a month and day on, as `extremes_of`
    those of all of it."""
    first = place_in_season(day, southern)
    left = [
        [low_c for night, low_c in season.lows if place_in_season(night, southern) >= first]
        for season in seasons
        if season.nights - len(season.lows) <= max_missing_nights
    ]
    return _extremes(min(lows) for lows in left if lows)


def month_extremes(
    seasons: Iterable[Nights], month: int, *, max_missing_nights: int = MAX_MISSING_NIGHTS
) -> Extremes | None:
    """Return the extremes of one month's nights, as `extremes_of` those of a season."""
    by_season = [[low_c for night, low_c in one.lows if night.month == month] for one in seasons]
    least = 30 - max_missing_nights
    return _extremes(min(lows) for lows in by_season if len(lows) >= least)


def _extremes(minima: Iterable[float]) -> Extremes | None:
    known = sorted(minima)
    if len(known) < 2:
        return None
    tenth = known[max(-(-len(known) // 10) - 1, 0)]
    from statistics import mean, stdev

    error = _ERROR_OF_A_TENTH * stdev(known) / sqrt(len(known))
    return Extremes(mean(known), tenth, error, len(known))


def _place(night: date) -> int:
    return night.timetuple().tm_yday - 1
