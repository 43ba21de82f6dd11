"""The reference climate is the open one it says it is."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from statistics import mean

import pytest
from tests.climate.conftest import SEATTLE

from backbud.climate.days import WeatherDay
from backbud.climate.reference import NOTTINGHAM

# Sutton Bonington, 1991 to 2020, as the Met Office publishes them by month (read in three stored
# copies of its station text, which agree): the mean lows of January and the mean highs of July.
_JANUARY_LOWS = (
    0.0,
    0.5,
    2.5,
    2.5,
    1.6,
    2.0,
    -1.4,
    2.6,
    2.5,
    1.7,
    -0.1,
    1.9,
    2.0,
    2.5,
    3.2,
    2.4,
    4.9,
    3.8,
    0.6,
    -0.4,
    1.4,
    2.4,
    1.0,
    3.0,
    1.6,
    2.8,
    1.0,
    2.9,
    1.8,
    4.1,
)
_JULY_HIGHS = (
    22.3,
    20.4,
    19.9,
    24.3,
    24.9,
    22.2,
    21.5,
    19.7,
    22.9,
    19.5,
    21.9,
    20.8,
    22.3,
    20.5,
    21.2,
    26.5,
    19.9,
    21.8,
    21.2,
    22.0,
    21.5,
    19.9,
    24.3,
    24.1,
    21.3,
    22.0,
    21.9,
    26.2,
    23.1,
    20.7,
)


def test_it_is_the_climate_of_today_that_it_says() -> None:
    assert len(_JANUARY_LOWS) == len(_JULY_HIGHS) == 30
    assert NOTTINGHAM.low_c[0] == pytest.approx(mean(_JANUARY_LOWS), abs=0.006)
    assert NOTTINGHAM.high_c[6] == pytest.approx(mean(_JULY_HIGHS), abs=0.006)
    # The station's yearly mean of 1991 to 2020 is told as 10.3 °C (an encyclopaedia's article).
    assert mean((*NOTTINGHAM.low_c, *NOTTINGHAM.high_c)) == pytest.approx(10.3, abs=0.05)


def test_the_means_of_seattle_used_in_these_tests_are_its_own(
    seattle: Mapping[date, WeatherDay],
) -> None:
    for month in range(1, 13):
        lows = [d.low_c for d in seattle.values() if d.day.month == month and d.low_c is not None]
        highs = [
            d.high_c for d in seattle.values() if d.day.month == month and d.high_c is not None
        ]
        assert SEATTLE.low_c[month - 1] == pytest.approx(mean(lows), abs=0.006)
        assert SEATTLE.high_c[month - 1] == pytest.approx(mean(highs), abs=0.006)
