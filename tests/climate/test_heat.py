"""Heat sums of measured and of expected days."""

from __future__ import annotations

import random
from datetime import date, timedelta
from statistics import mean

import pytest
from tests.climate.conftest import SEATTLE, even_days

from backbud.climate.air import OPEN_AIR, PlaceAir, Shift
from backbud.climate.heat import cold_sums, expected_degree_days, heat_trace

NEW_YEAR = date(2027, 1, 1)


@pytest.mark.parametrize(("mean_c", "stray_c", "base_c"), [(5, 3, 5), (2, 3.5, 5), (14, 2, 5)])
def test_expected_degree_days_are_those_of_many_random_days(mean_c, stray_c, base_c) -> None:
    """By drawing 200,000 days from the normal distribution that Thom (1954) assumes."""
    draw = random.Random(1)
    days = (max(draw.gauss(mean_c, stray_c) - base_c, 0.0) for _ in range(200_000))
    assert expected_degree_days(mean_c, stray_c, base_c) == pytest.approx(mean(days), abs=0.02)


def test_at_the_base_the_half_normal_mean_is_expected() -> None:
    # The mean of the upper half of a normal curve: stray / sqrt(2 pi) = 0.39894 of it.
    assert expected_degree_days(5.0, 1.0, 5.0) == pytest.approx(0.398942, abs=1e-6)


def test_days_must_stray() -> None:
    with pytest.raises(ValueError, match="more than 0"):
        expected_degree_days(5.0, 0.0, 5.0)


def test_measured_days_add_up(place) -> None:
    # 30 days of 15 °C throughout: ten degree-days over 5 °C each.
    air = place(date(2027, 1, 30), even_days(NEW_YEAR, 30, 15.0, 15.0), low_c=-60.0, high_c=-60.0)
    trace = heat_trace(air, OPEN_AIR, NEW_YEAR, 5.0)
    assert trace.at(date(2026, 12, 31)) == 0
    assert trace.at(NEW_YEAR) == pytest.approx(10)
    assert trace.at(date(2027, 1, 30)) == pytest.approx(300)
    # Then the climate's -60 °C: nothing more.
    assert trace.at(date(2027, 12, 31)) == pytest.approx(300, abs=1e-6)
    assert trace.reaches(200) == date(2027, 1, 20)
    assert trace.reaches(100, start=100) == date(2027, 1, 20)
    assert trace.reaches(301) is None


def test_what_is_measured_after_today_is_not_known_yet(place) -> None:
    air = place(date(2027, 1, 10), even_days(NEW_YEAR, 30, 15.0, 15.0), low_c=-60.0, high_c=-60.0)
    assert heat_trace(air, OPEN_AIR, NEW_YEAR, 5.0).at(date(2027, 1, 30)) == pytest.approx(100)


def test_cold_counts_the_other_way(place) -> None:
    air = place(date(2027, 1, 30), even_days(NEW_YEAR, 30, 12.0, 12.0))
    assert cold_sums(air, OPEN_AIR, 20.0).trace(NEW_YEAR).at(date(2027, 1, 10)) == pytest.approx(80)


def test_a_cover_adds_to_the_day_and_a_thermometer_under_it_does_not(place) -> None:
    days = even_days(NEW_YEAR, 10, 10.0, 10.0)
    warm = Shift(2.0, 6.0)
    under = heat_trace(place(date(2027, 1, 10), days), warm, NEW_YEAR, 5.0)
    # 12 to 16 °C: 14 - 5 = 9 a day.
    assert under.at(date(2027, 1, 10)) == pytest.approx(90)
    air = place(date(2027, 1, 10), days)
    felt = PlaceAir(days, air.means, air.today, "means", frozenset(days))
    assert heat_trace(felt, warm, NEW_YEAR, 5.0).at(date(2027, 1, 10)) == pytest.approx(50)


def test_an_earlier_year_stands_in_for_the_days_to_come(place) -> None:
    days = {
        **even_days(date(2026, 1, 1), 365, 25.0, 25.0),
        **even_days(NEW_YEAR, 10, 15.0, 15.0),
    }
    air = place(date(2027, 1, 10), days)
    trace = heat_trace(air, OPEN_AIR, NEW_YEAR, 5.0, as_in=date(2026, 1, 1))
    assert trace.at(date(2027, 1, 10)) == pytest.approx(100)
    assert trace.at(date(2027, 1, 11)) == pytest.approx(120)


@pytest.mark.parametrize("base_c", [0.0, 5.0, 10.0])
@pytest.mark.parametrize("month", [5, 7, 9])
def test_the_expected_sum_of_seattle_is_that_of_its_years(seattle, base_c, month) -> None:
    """The climate's sum from twelve means against the mean of four measured years: within 12 %."""
    year_ends = date(2015, 12, 31)
    measured = PlaceAir(seattle, SEATTLE, year_ends, "means")
    sums = [
        heat_trace(measured, OPEN_AIR, date(year, 1, 1), base_c).at(date(year, month, 1))
        for year in range(2012, 2016)
    ]
    climate = PlaceAir({}, SEATTLE, year_ends - timedelta(days=3650), "means")
    expected = heat_trace(climate, OPEN_AIR, date(2013, 1, 1), base_c).at(date(2013, month, 1))
    assert expected == pytest.approx(mean(sums), rel=0.2 if base_c == 10 and month == 5 else 0.12)
