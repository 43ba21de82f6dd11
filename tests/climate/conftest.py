"""Places with weather that can be reckoned by hand, and the open Seattle series."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from datetime import date, timedelta

import pytest

from backbud.climate.air import PlaceAir
from backbud.climate.days import MonthlyMeans, WeatherDay

Days = Mapping[date, WeatherDay]


# The means of the open Seattle series, 2012 to 2015 (tests/climate/test_reference.py).
SEATTLE = MonthlyMeans(
    low_c=(2.7, 4.05, 4.86, 6.36, 9.61, 12.24, 14.2, 14.77, 12.36, 9.35, 4.7, 3.32),
    high_c=(8.23, 9.86, 12.39, 15.02, 19.3, 22.4, 26.0, 26.11, 21.92, 16.39, 11.02, 8.19),
)


def even_means(low_c: float, high_c: float) -> MonthlyMeans:
    """A climate without seasons."""
    return MonthlyMeans((low_c,) * 12, (high_c,) * 12)


def even_days(first: date, count: int, low_c: float, high_c: float) -> dict[date, WeatherDay]:
    """So many days on end with the same low and high."""
    days = (first + timedelta(days=n) for n in range(count))
    return {day: WeatherDay(day, low_c, high_c) for day in days}


@pytest.fixture
def place() -> Callable[..., PlaceAir]:
    def make(
        today: date, measured: Days | None = None, low_c: float = 15.0, high_c: float = 15.0
    ) -> PlaceAir:
        return PlaceAir(measured or {}, even_means(low_c, high_c), today, "the monthly means")

    return make


@pytest.fixture(scope="session")
def seattle() -> Days:
    """Daily lows, highs and rain of Seattle 2012-15 (NOAA, from the vega_datasets package)."""
    from vega_datasets import data

    rows = data.seattle_weather().itertuples()
    return {
        row.date.date(): WeatherDay(
            row.date.date(), row.temp_min, row.temp_max, row.precipitation, None, row.wind
        )
        for row in rows
    }
