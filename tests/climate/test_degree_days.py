"""Degree-days of a day: against hand sums, gddpy, and the area under a sine summed by steps."""

from __future__ import annotations

import math
from collections.abc import Callable

import pytest
from gddPy import GDD
from hypothesis import given
from hypothesis import strategies as st

from backbud.climate.degree_days import (
    cold_degree_days,
    degree_days_by_limits,
    degree_days_by_mean,
    degree_days_by_sine,
)

DAYS = [
    (low, low + spread)
    for low in (-12.0, -3.5, 0.0, 4.0, 9.0, 17.5)
    for spread in (1.0, 7.0, 16.0, 25.0)
]
BASES = (0.0, 4.5, 10.0)


def area(low_c: float, high_c: float, counted: Callable[[float], float]) -> float:
    """The day's mean of `counted` along a sine through low and high, by the midpoint rule."""
    steps = 20_000
    mean_c, amplitude_c = (low_c + high_c) / 2, (high_c - low_c) / 2
    return (
        sum(
            counted(mean_c + amplitude_c * math.sin(2 * math.pi * (step + 0.5) / steps))
            for step in range(steps)
        )
        / steps
    )


# McMaster & Wilhelm 1997, abstract: the methods differ where only the low is under the base, and
# method 1 then adds less. Worked by hand.
@pytest.mark.parametrize(
    ("low_c", "high_c", "base_c", "upper_c", "by_mean", "by_limits"),
    [
        (12.0, 24.0, 10.0, None, 8.0, 8.0),
        (-2.0, 12.0, 0.0, None, 5.0, 6.0),  # (-2 + 12) / 2; (0 + 12) / 2
        (-9.0, 7.0, 0.0, None, 0.0, 3.5),
        (-9.0, -1.0, 0.0, None, 0.0, 0.0),
        (14.0, 34.0, 10.0, 30.0, 14.0, 12.0),  # 24 - 10; (14 + 30) / 2 - 10
        (26.0, 38.0, 10.0, 30.0, 20.0, 18.0),  # 30 - 10; (26 + 30) / 2 - 10
        (31.0, 38.0, 10.0, 30.0, 20.0, 20.0),
        (2.0, 36.0, 10.0, 30.0, 9.0, 10.0),  # 19 - 10; (10 + 30) / 2 - 10
    ],
)
def test_both_readings_of_the_mean(
    low_c: float,
    high_c: float,
    base_c: float,
    upper_c: float | None,
    by_mean: float,
    by_limits: float,
) -> None:
    assert degree_days_by_mean(low_c, high_c, base_c, upper_c) == pytest.approx(by_mean)
    assert degree_days_by_limits(low_c, high_c, base_c, upper_c) == pytest.approx(by_limits)


@pytest.mark.parametrize("base_c", BASES)
@pytest.mark.parametrize(("low_c", "high_c"), DAYS)
def test_method_1_is_the_daily_average_of_gddpy(low_c: float, high_c: float, base_c: float) -> None:
    reference = GDD({"min_temp": low_c, "max_temp": high_c, "threshold_low": base_c})
    assert degree_days_by_mean(low_c, high_c, base_c) == pytest.approx(reference.calcDailyAverage())


@pytest.mark.parametrize("base_c", BASES)
@pytest.mark.parametrize(("low_c", "high_c"), DAYS)
def test_method_2_is_the_daily_average_of_gddpy_with_its_cut_offs(
    low_c: float, high_c: float, base_c: float
) -> None:
    # gddpy holds the low from below and the high from above, each from one side only.
    if high_c < base_c or low_c > 28.0:
        expected = 0.0 if high_c < base_c else 28.0 - base_c
    else:
        reference = GDD(
            {
                "min_temp": low_c,
                "max_temp": high_c,
                "threshold_low": base_c,
                "min_temp_cutoff": base_c,
                "max_temp_cutoff": 28.0,
            }
        )
        expected = reference.calcDailyAverage(cutoff_min_temp=True, cutoff_max_temp=True)
    assert degree_days_by_limits(low_c, high_c, base_c, 28.0) == pytest.approx(expected)


# Only days that cross the base: for a day wholly above it gddpy 1.0.3 raises a TypeError.
@pytest.mark.parametrize(
    ("low_c", "high_c", "base_c"),
    [(low, high, base) for low, high in DAYS for base in BASES if low < base],
)
def test_sine_is_gddpy_s(low_c: float, high_c: float, base_c: float) -> None:
    reference = GDD({"min_temp": low_c, "max_temp": high_c, "threshold_low": base_c})
    expected = float(reference.calcBaskervilleEmin())
    assert degree_days_by_sine(low_c, high_c, base_c) == pytest.approx(expected, abs=1e-9)


@pytest.mark.parametrize("base_c", BASES)
@pytest.mark.parametrize(("low_c", "high_c"), DAYS)
def test_sine_is_the_area_above_the_base(low_c: float, high_c: float, base_c: float) -> None:
    expected = area(low_c, high_c, lambda c: max(0.0, c - base_c))
    assert degree_days_by_sine(low_c, high_c, base_c) == pytest.approx(expected, abs=1e-4)


@pytest.mark.parametrize("upper_c", [11.0, 20.0, 28.0])
@pytest.mark.parametrize(("low_c", "high_c"), DAYS)
def test_a_horizontal_cut_off_counts_what_is_above_it_as_at_it(
    low_c: float, high_c: float, upper_c: float
) -> None:
    expected = area(low_c, high_c, lambda c: max(0.0, min(c, upper_c) - 10.0))
    found = degree_days_by_sine(low_c, high_c, 10.0, upper_c)
    assert found == pytest.approx(expected, abs=1e-4)


@pytest.mark.parametrize("threshold_c", [5.0, 10.0, 20.0])
@pytest.mark.parametrize(("low_c", "high_c"), DAYS)
def test_cold_is_the_area_under_the_threshold(
    low_c: float, high_c: float, threshold_c: float
) -> None:
    expected = area(low_c, high_c, lambda c: max(0.0, threshold_c - c))
    assert cold_degree_days(low_c, high_c, threshold_c) == pytest.approx(expected, abs=1e-4)


def test_a_day_across_its_base_by_hand() -> None:
    # A sine of amplitude 10 about its base has the mean 10 / pi above it, and as much below.
    assert degree_days_by_sine(0.0, 20.0, 10.0) == pytest.approx(3.183099)
    assert cold_degree_days(0.0, 20.0, 10.0) == pytest.approx(3.183099)


def test_a_day_without_range() -> None:
    assert degree_days_by_sine(12.0, 12.0, 10.0) == 2.0
    assert degree_days_by_sine(10.0, 10.0, 10.0) == 0.0
    assert cold_degree_days(7.0, 7.0, 10.0) == 3.0


@given(st.floats(-40, 45), st.floats(0, 30), st.floats(-5, 20))
def test_the_sine_lies_between_both_readings(low_c: float, spread_c: float, base_c: float) -> None:
    high_c = low_c + spread_c
    by_sine = degree_days_by_sine(low_c, high_c, base_c)
    assert degree_days_by_mean(low_c, high_c, base_c) <= by_sine + 1e-9
    assert by_sine <= degree_days_by_limits(low_c, high_c, base_c) + 1e-9


@pytest.mark.parametrize("sort", [degree_days_by_mean, degree_days_by_limits, degree_days_by_sine])
def test_what_makes_no_sense_is_refused(sort: Callable[..., float]) -> None:
    with pytest.raises(ValueError, match="low"):
        sort(9.0, 3.0, 5.0)
    with pytest.raises(ValueError, match="low"):
        sort(math.nan, 3.0, 5.0)
    with pytest.raises(ValueError, match="base"):
        sort(3.0, 9.0, math.nan)
    with pytest.raises(ValueError, match="upper"):
        sort(3.0, 9.0, 10.0, 10.0)
    with pytest.raises(ValueError, match="upper"):
        sort(3.0, 9.0, 10.0, math.nan)


def test_cold_degree_days_refuse_a_low_above_the_high() -> None:
    with pytest.raises(ValueError, match="low"):
        cold_degree_days(9.0, 3.0, 5.0)
