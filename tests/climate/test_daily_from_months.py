"""Twelve monthly values come back from the daily ones, and known curves come back whole."""

from __future__ import annotations

import calendar
from datetime import date, timedelta

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from vega_datasets import data

from backbud.climate.daily_from_months import (
    daily_means,
    daily_rain_mm,
    mean_on,
    rain_on_mm,
)

COOL = (1.0, 1.0, 2.0, 4.0, 6.0, 9.0, 11.0, 11.0, 9.0, 7.0, 4.0, 2.0)
CONTINENTAL = (-24.5, -20.1, -9.7, 2.2, 9.6, 15.8, 19.1, 16.2, 9.9, 1.4, -11.8, -21.9)
TROPICAL = (26.1, 26.3, 27.0, 27.4, 27.6, 27.1, 26.8, 26.7, 26.6, 26.6, 26.3, 26.1)
SOUTHERN = (20.9, 20.8, 18.6, 15.2, 11.9, 9.2, 8.5, 10.1, 12.3, 14.7, 17.0, 19.3)
SAW = (0.0, 30.0, 0.0, 30.0, 0.0, 30.0, 0.0, 30.0, 0.0, 30.0, 0.0, 30.0)

DRY_SUMMER = (100.0, 90.0, 60.0, 30.0, 12.0, 2.0, 0.0, 0.5, 20.0, 60.0, 90.0, 110.0)
MONSOON = (0.0, 1.0, 0.0, 1.0, 12.0, 520.0, 840.0, 585.0, 340.0, 65.0, 14.0, 0.0)
EVEN = (75.0, 62.0, 70.0, 68.0, 71.0, 69.0, 73.0, 75.0, 70.0, 78.0, 80.0, 79.0)
DESERT = (0.0,) * 12

COMMON_YEAR, LEAP_YEAR = 2023, 2024


def by_month(values: tuple[float, ...], year: int) -> list[list[float]]:
    months: list[list[float]] = [[] for _ in range(12)]
    for offset, value in enumerate(values):
        months[(date(year, 1, 1) + timedelta(days=offset)).month - 1].append(value)
    return months


@pytest.mark.parametrize("year", [COMMON_YEAR, LEAP_YEAR, 1900, 2000])
@pytest.mark.parametrize("means", [COOL, CONTINENTAL, TROPICAL, SOUTHERN, SAW])
def test_the_monthly_means_come_back(means: tuple[float, ...], year: int) -> None:
    values = daily_means(means, year)
    assert len(values) == (366 if year in (2024, 2000) else 365)
    back = [float(np.mean(month)) for month in by_month(values, year)]
    assert back == pytest.approx(means, abs=1e-9)


@pytest.mark.parametrize("year", [COMMON_YEAR, LEAP_YEAR])
@pytest.mark.parametrize("totals", [DRY_SUMMER, MONSOON, EVEN, DESERT])
def test_the_rain_totals_come_back_and_no_day_is_negative(
    totals: tuple[float, ...], year: int
) -> None:
    values = daily_rain_mm(totals, year)
    assert len(values) == (366 if year == LEAP_YEAR else 365)
    assert min(values) >= 0
    assert [sum(month) for month in by_month(values, year)] == pytest.approx(totals, abs=1e-9)


@given(st.lists(st.floats(-60, 50), min_size=12, max_size=12), st.integers(1900, 2100))
def test_any_means_come_back(means: list[float], year: int) -> None:
    back = [float(np.mean(month)) for month in by_month(daily_means(means, year), year)]
    assert back == pytest.approx(means, abs=1e-9)


@given(st.lists(st.floats(0, 1500), min_size=12, max_size=12), st.integers(1900, 2100))
def test_any_rain_comes_back(totals: list[float], year: int) -> None:
    values = daily_rain_mm(totals, year)
    assert min(values) >= 0
    assert [sum(month) for month in by_month(values, year)] == pytest.approx(totals, abs=1e-9)


def test_the_plain_fit_to_a_dry_summer_would_be_negative() -> None:
    # Else the test above could not fail.
    rates = [total / calendar.monthrange(2023, n)[1] for n, total in enumerate(DRY_SUMMER, 1)]
    assert min(daily_means(rates, 2023)) < -0.01


@pytest.mark.parametrize("year", [COMMON_YEAR, LEAP_YEAR])
def test_a_year_of_five_harmonics_comes_back_day_by_day(year: int) -> None:
    # Made by numpy, averaged by month, and found again: a fit of fewer or other terms could not.
    length = 366 if year == LEAP_YEAR else 365
    angle = 2 * np.pi * (np.arange(length) + 0.5) / length
    truth = 9.5 - 8 * np.cos(angle - 0.45) + 1.2 * np.sin(2 * angle) + 0.4 * np.cos(5 * angle)
    means = [float(np.mean(month)) for month in by_month(tuple(truth), year)]
    assert daily_means(means, year) == pytest.approx(list(truth), abs=1e-9)


def test_seattles_monthly_means_come_back_from_open_data() -> None:
    # vega_datasets: Seattle 2012, a leap year.
    weather = data.seattle_weather()
    lows = weather[weather["date"].dt.year == 2012].groupby(weather["date"].dt.month)["temp_min"]
    fitted = daily_means([float(mean) for mean in lows.mean()], 2012)
    back = [float(np.mean(month)) for month in by_month(fitted, 2012)]
    assert back == pytest.approx(list(lows.mean()), abs=1e-9)


def test_the_year_closes_without_a_step() -> None:
    values = daily_means(COOL, 2023)
    assert abs(values[0] - values[-1]) < 0.1
    assert values[0] == pytest.approx(daily_means(COOL, 2024)[0], abs=0.1)


def test_one_date_is_its_day_of_the_year() -> None:
    assert mean_on(COOL, date(2024, 2, 29)) == daily_means(COOL, 2024)[59]
    assert mean_on(COOL, date(2023, 3, 1)) == daily_means(COOL, 2023)[59]
    assert rain_on_mm(EVEN, date(2024, 12, 31)) == daily_rain_mm(EVEN, 2024)[365]
    assert rain_on_mm(EVEN, date(2023, 1, 1)) == daily_rain_mm(EVEN, 2023)[0]


def test_what_is_no_twelve_numbers_is_refused() -> None:
    with pytest.raises(ValueError, match="not 11"):
        daily_means(COOL[:11], 2023)
    with pytest.raises(ValueError, match="finite"):
        daily_means((*COOL[:11], float("nan")), 2023)
    with pytest.raises(ValueError, match="negative"):
        daily_rain_mm((*EVEN[:11], -1.0), 2023)
    with pytest.raises(ValueError, match="not 13"):
        daily_rain_mm((*EVEN, 1.0), 2023)


def test_the_rain_of_a_month_after_a_dry_one_falls_at_its_end() -> None:
    """August has half a millimetre, after a July with none and before a September with 20; May has
    12, before a June of monsoon with 520."""
    august = by_month(daily_rain_mm(DRY_SUMMER, COMMON_YEAR), COMMON_YEAR)[7]
    may = by_month(daily_rain_mm(MONSOON, COMMON_YEAR), COMMON_YEAR)[4]
    assert sum(august[:15]) < sum(august[16:]) / 10
    assert sum(may[:15]) < sum(may[16:]) / 10
