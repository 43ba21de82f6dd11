"""What is known of a place's winters goes in; the coldest night to expect comes out, with its ±.

In the order of belief: five winters or more on record; the coldest night on the place's card; its
hardiness zone; the formulas, by the spread of its winter lows or by the range of its months,
whichever is surer.

Both formulas say how far the mean annual minimum lies under the mean low of the coldest month.
They were fitted to stations of the northern and southern hemisphere (tests/climate/frost_drop.csv;
test_coldest_night.py fits them again, and leaves each station out once).
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import date
from math import hypot, sqrt
from typing import Literal

from msgspec import Struct

from backbud.climate.cold_region import Region
from backbud.climate.degrees import degrees
from backbud.climate.hardiness import usda_range_c
from backbud.climate.winter_lows import Extremes, WinterLows
from backbud.tongue import day_and_month, phrase

# One year in ten lies so many times as far under the mean low as the mean year does.
ONE_IN_TEN = 1.39
ONE_IN_TEN_ERROR_K = 0.8
# By the spread s of winter lows: 3.1 s - 3.0. The error is that of leaving one station out.
_BY_SPREAD_K, _PER_SPREAD = -3.0, 3.1
BY_SPREAD_ERROR_K = 1.2
# What one winter tells is uncertain by so much, from a maritime one (s = 3) to a continental one
# (s = 6); five winters halve that.
_ONE_WINTER_K = ((3.0, 1.4), (6.0, 3.6))
# By the annual range R of the monthly means: 5.2 + 0.28 R + k.
_BY_RANGE_K, _PER_RANGE = 5.2, 0.28
BY_REGION_K: Mapping[Region, float] = {
    "Europe": 0.0,
    "North America": 1.4,
    "East Asia": -7.3,
    "the Mediterranean and its like": -3.7,
    # Nobody says where, or no station of the fit lies near: as for Europe, and less surely.
    "": 0.0,
}
BY_RANGE_ERROR_K = 2.1
# The worst of the stations that were left out.
UNKNOWN_REGION_ERROR_K = 3.5
# Where a decision hangs on the night, so far to the cold side.
LEAN_K = 2.0
# Nights are not always quite as cold or mild as the ones before: no drop is less.
_LEAST_DROP_K = 1.0

# How a night stands to a limit; half of the lean and the whole of it part them (ours, no source).
Verdict = Literal["comes", "nearly", "close", "does not come"]


class SaidCold(Struct, frozen=True, gc=False):
    """What a place's card says of its winters: the coldest night of about ten years (°C), or its
    USDA hardiness zone; the night counts first."""

    coldest_c: float | None = None
    zone: str = ""


class ColdestNight(Struct, frozen=True, gc=False):
    """The coldest night of a winter at a place, in the open.

    `mean_annual_minimum_c`: in the mean year; `one_in_ten_c`: in one year of ten (both °C).
    `give_or_take_k`: by how many K the latter may be off. `winter_drop_k`: how far the former
    lies under the mean low of the coldest month. `known_from`: as words in a sentence. `since`:
    where only the rest of a winter is meant, its first day.
    """

    mean_annual_minimum_c: float
    one_in_ten_c: float
    give_or_take_k: float
    winter_drop_k: float
    known_from: str
    since: date | None = None

    @property
    def lean_k(self) -> float:
        """How far to the cold side to decide: 2 K, or less where the night is known better."""
        return min(LEAN_K, self.give_or_take_k)

    def against(self, limit_c: float, milder_k: float = 0.0) -> Verdict:
        """Whether a night of so many °C comes in one year of ten; `milder_k`: under a cover.

        It comes with half the lean to the cold side, nearly comes with the whole of it; it is close
        where the ± still reaches it.
        """
        over_k = self.one_in_ten_c + milder_k - limit_c
        if over_k <= self.lean_k / 2:
            return "comes"
        if over_k <= self.lean_k:
            return "nearly"
        return "close" if over_k <= self.give_or_take_k else "does not come"

    def said(self, milder_k: float = 0.0) -> str:
        """The night in words: both figures, the ±, and how they are known."""
        mean, tenth = self.mean_annual_minimum_c + milder_k, self.one_in_ten_c + milder_k
        under = phrase("under this cover") if milder_k else phrase("here")
        if self.since is not None:
            day = day_and_month(self.since)
            under = phrase("{under} from {day} on", under=under, day=day)
        usual, rare = degrees(mean, ".1f"), degrees(tenth, ".1f")
        return phrase(
            "The coldest night {under} is {usual} in the mean year and {rare} in "
            "one of ten, ± {give_or_take_k:.1f} K ({known_from}).",
            under=under,
            usual=usual,
            rare=rare,
            give_or_take_k=self.give_or_take_k,
            known_from=self.known_from,
        )


def drop_by_spread_k(spread_k: float) -> float:
    """Return how far (K) the mean annual minimum lies under the coldest month's mean low, by the
    standard deviation (K) of winter lows about the mean of their date."""
    return max(_BY_SPREAD_K + _PER_SPREAD * spread_k, _LEAST_DROP_K)


def drop_by_range_k(range_k: float, region: Region) -> float:
    """Return the same by the range (K) of the monthly mean temperatures and by the region."""
    return max(_BY_RANGE_K + _PER_RANGE * range_k + BY_REGION_K[region], _LEAST_DROP_K)


def spread_error_k(lows: WinterLows) -> float:
    """Return by how many K `drop_by_spread_k` may be off, for so many winters."""
    (maritime, least), (continental, most) = _ONE_WINTER_K
    share = min(max((lows.spread_k - maritime) / (continental - maritime), 0.0), 1.0)
    return hypot(BY_SPREAD_ERROR_K, (least + share * (most - least)) / sqrt(lows.winters))


def range_error_k(region: Region) -> float:
    """Return by how many K `drop_by_range_k` may be off."""
    return BY_RANGE_ERROR_K if region else UNKNOWN_REGION_ERROR_K


def range_k(monthly_mean_lows_c: Sequence[float], monthly_mean_highs_c: Sequence[float]) -> float:
    """Return the range (K) of the monthly mean temperatures, each between its low and its high."""
    pairs = zip(monthly_mean_lows_c, monthly_mean_highs_c, strict=True)
    means = [(low + high) / 2 for low, high in pairs]
    return max(means) - min(means)


def coldest_night(
    coldest_month_low_c: float,
    annual_range_k: float,
    region: Region,
    *,
    record: Extremes | None = None,
    said: SaidCold | None = None,
    lows: WinterLows | None = None,
) -> ColdestNight:
    """Return the coldest night to expect, by the first of the order of belief that is given.

    `record`: of enough winters, else None. `lows`: of what winters there are. ValueError for a
    zone that is none.
    """
    if record is not None:
        return ColdestNight(
            record.mean_annual_minimum_c,
            record.one_in_ten_c,
            record.give_or_take_k,
            max(coldest_month_low_c - record.mean_annual_minimum_c, _LEAST_DROP_K),
            phrase("{winters} winters on record", winters=record.winters),
        )
    if said is not None and said.coldest_c is not None:
        drop = max((coldest_month_low_c - said.coldest_c) / ONE_IN_TEN, _LEAST_DROP_K)
        return ColdestNight(
            coldest_month_low_c - drop,
            said.coldest_c,
            ONE_IN_TEN_ERROR_K,
            drop,
            phrase("by “coldest” on its card"),
        )
    if said is not None and said.zone:
        zone_c, error = zone_minimum_c(said.zone)
        drop = max(coldest_month_low_c - zone_c, _LEAST_DROP_K)
        return _by_drop(
            coldest_month_low_c, drop, error, phrase("by hardiness zone {zone}", zone=said.zone)
        )
    by_range_error = range_error_k(region)
    if lows is not None and (error := spread_error_k(lows)) < by_range_error:
        drop = drop_by_spread_k(lows.spread_k)
        known = phrase("by how its winter lows spread, {spread_k:.1f} K", spread_k=lows.spread_k)
        return _by_drop(coldest_month_low_c, drop, error, known)
    where = (
        phrase("as in {region}", region=region)
        if region
        else phrase("as in Europe: {no_region}", no_region=_NO_REGION)
    )
    return _by_drop(
        coldest_month_low_c,
        drop_by_range_k(annual_range_k, region),
        by_range_error,
        phrase("by its months, {where}", where=where),
    )


def said_alone(said: SaidCold) -> ColdestNight | None:
    """Return the coldest night where a card says it and nothing else is known of the weather.

    In a zone, one year in ten lies so far under the mean year as a drop of 9 K makes it (from
    memory of temperate stations). None where it says nothing. ValueError as `coldest_night`.
    """
    if said.coldest_c is not None:
        return coldest_night(said.coldest_c + _USUAL_DROP_K * ONE_IN_TEN, 0.0, "", said=said)
    if said.zone:
        zone_c, _ = zone_minimum_c(said.zone)
        return coldest_night(zone_c + _USUAL_DROP_K, 0.0, "", said=said)
    return None


_USUAL_DROP_K = 9.0
_NO_REGION = "where it lies is not known, or far from every station of the figures"


def zone_minimum_c(zone: str) -> tuple[float, float]:
    """Return the middle of a USDA zone (°C; its mean annual minimum) and half its width (K).

    ValueError for a zone that is none.
    """
    band = usda_range_c(zone)
    assert band.lower_c is not None and band.upper_c is not None  # every band has both sides
    return (band.lower_c + band.upper_c) / 2, (band.upper_c - band.lower_c) / 2


def _by_drop(low_c: float, drop_k: float, error_k: float, known_from: str) -> ColdestNight:
    return ColdestNight(
        low_c - drop_k,
        low_c - ONE_IN_TEN * drop_k,
        hypot(ONE_IN_TEN * error_k, ONE_IN_TEN_ERROR_K),
        drop_k,
        known_from,
    )
