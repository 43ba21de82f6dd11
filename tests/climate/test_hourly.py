"""Hours from lows and highs: against xclim's reading of Linvill 1990 and the formula by hand."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from backbud.climate.hourly import DayRange, hours_of_day_c, hours_of_days_c

# xclim 0.62.0, indices.helpers.make_hourly_temperature: three days at the equator (12.0 h of
# daylight), lows 2 5 4, highs 12 9 16 °C. xclim counts each day from sunrise; with 12 hours of
# daylight that is our 6:00. Rounded to four places.
XCLIM_FROM_SUNRISE_C = [
    [
        2.0,
        3.9509,
        5.8268,
        7.5557,
        9.0711,
        10.3147,
        11.2388,
        11.8079,
        12.0,
        11.8079,
        11.2388,
        10.3147,
    ],
    [9.0711, 7.9709, 7.3274, 6.8708, 6.5166, 6.2272, 5.9825, 5.7706, 5.5836, 5.4164, 5.2651, 5.127],
    [5.0, 5.7804, 6.5307, 7.2223, 7.8284, 8.3259, 8.6955, 8.9231, 9.0, 8.9231, 8.6955, 8.3259],
    [7.8284, 6.7938, 6.1886, 5.7593, 5.4262, 5.1541, 4.924, 4.7247, 4.5489, 4.3916, 4.2493, 4.1195],
    [
        4.0,
        6.3411,
        8.5922,
        10.6668,
        12.4853,
        13.9776,
        15.0866,
        15.7694,
        16.0,
        15.7694,
        15.0866,
        13.9776,
    ],
    [12.4853, 10.1922, 8.8509, 7.8992, 7.161, 6.5578],
]

THREE_DAYS = [DayRange(2, 12, 12), DayRange(5, 9, 12), DayRange(4, 16, 12)]

day_ranges = st.builds(
    lambda low_c, spread_c, daylight_hours: DayRange(low_c, low_c + spread_c, daylight_hours),
    st.floats(-40, 40),
    st.floats(0, 30),
    st.floats(0, 24),
)


def test_three_days_are_as_xclim_has_them() -> None:
    expected = [c for row in XCLIM_FROM_SUNRISE_C for c in row]
    assert list(hours_of_days_c(THREE_DAYS))[6:] == pytest.approx(expected, abs=6e-5)


def test_a_short_winter_day_by_the_formula() -> None:
    # 9 h of daylight: sunrise 7:30, sunset 16:30, highest at 14:00, nights of 15 h.
    hours = hours_of_day_c(
        DayRange(-2.0, 6.0, 9.0), before=DayRange(1.0, 5.0, 9.0), after=DayRange(-5.0, 3.0, 9.0)
    )
    # Evening before: 1 + 4 sin(9 pi / 13) = 4.29193 at 16:30; midnight is 7.5 h on:
    # 4.29193 - (4.29193 + 2) ln(8.5) / ln(16) = -0.56459
    assert hours[0] == pytest.approx(-0.56459, abs=1e-5)
    # 7:00, 14.5 h on: 4.29193 - 6.29193 ln(15.5) / ln(16) = -1.92795
    assert hours[7] == pytest.approx(-1.92795, abs=1e-5)
    # 12:00: -2 + 8 sin(4.5 pi / 13) = 5.08365
    assert hours[12] == pytest.approx(5.08365, abs=1e-5)
    # 13:00 and 15:00 stand alike about the highest at 14:00: -2 + 8 sin(5.5 pi / 13) = 5.76753
    assert hours[13] == pytest.approx(5.76753, abs=1e-5)
    assert hours[14] == 6.0
    assert hours[15] == pytest.approx(5.76753, abs=1e-5)
    # Sunset: -2 + 8 sin(9 pi / 13) = 4.58387; 23:00 is 6.5 h on, towards -5:
    # 4.58387 - 9.58387 ln(7.5) / ln(16) = -2.38095
    assert hours[23] == pytest.approx(-2.38095, abs=1e-5)


def test_a_day_alone_is_its_own_neighbour() -> None:
    day = DayRange(3.0, 14.0, 11.0)
    assert hours_of_day_c(day) == hours_of_day_c(day, day, day)
    assert list(hours_of_days_c([day])) == list(hours_of_day_c(day))


def test_days_on_end_know_their_neighbours() -> None:
    hours = list(hours_of_days_c(THREE_DAYS))
    assert len(hours) == 72
    assert tuple(hours[24:48]) == hours_of_day_c(THREE_DAYS[1], THREE_DAYS[0], THREE_DAYS[2])
    assert list(hours_of_days_c([])) == []


@pytest.mark.parametrize("daylight_hours", [0.0, 24.0])
def test_polar_night_and_polar_day_run_in_waves(daylight_hours: float) -> None:
    hours = hours_of_day_c(
        DayRange(-20.0, -10.0, daylight_hours),
        before=DayRange(-18.0, -4.0, daylight_hours),
        after=DayRange(-30.0, -25.0, daylight_hours),
    )
    assert hours[3] == -20.0
    assert hours[15] == pytest.approx(-10.0)
    assert hours[9] == pytest.approx(-15.0)  # half way up, at half time
    assert hours[21] == pytest.approx(-20.0)  # half way from -10 to the next low of -30
    # Midnight is three quarters along the half wave from -4 to -20: (1 - cos 135°) / 2 = 0.853553
    assert hours[0] == pytest.approx(-17.65685, abs=1e-5)


@pytest.mark.parametrize("daylight_hours", [0.0, 1.5, 4.0, 8.0, 12.0, 16.0, 20.0, 23.0, 24.0])
def test_low_and_high_are_nearly_reached(daylight_hours: float) -> None:
    hours = hours_of_day_c(DayRange(0.0, 10.0, daylight_hours))
    assert min(hours) == pytest.approx(0.0, abs=0.7)
    assert max(hours) == pytest.approx(10.0, abs=0.4)


@given(day_ranges, day_ranges, day_ranges)
def test_no_hour_leaves_the_range_of_its_days(
    before: DayRange, day: DayRange, after: DayRange
) -> None:
    days = (before, day, after)
    lowest, highest = min(each.low_c for each in days), max(each.high_c for each in days)
    hours = hours_of_day_c(day, before, after)
    assert len(hours) == 24
    assert all(lowest - 1e-9 <= hour_c <= highest + 1e-9 for hour_c in hours)


@pytest.mark.parametrize(
    "day", [DayRange(9, 3, 12), DayRange(math.nan, 3, 12), DayRange(3, math.nan, 12)]
)
def test_a_low_above_its_high_is_refused(day: DayRange) -> None:
    with pytest.raises(ValueError, match="low"):
        hours_of_day_c(day)
    with pytest.raises(ValueError, match="low"):
        hours_of_day_c(DayRange(3, 9, 12), after=day)


@pytest.mark.parametrize("daylight_hours", [-0.1, 24.1, math.nan])
def test_daylight_outside_a_day_is_refused(daylight_hours: float) -> None:
    with pytest.raises(ValueError, match="daylight"):
        hours_of_day_c(DayRange(3, 9, daylight_hours))


@pytest.mark.parametrize(
    ("daylight_hours", "at_noon_c"),
    [
        # A wave from 0 °C at 3:00 to 10 °C at 15:00: 10 (1 - cos 135°) / 2.
        (3.9, 8.53553),
        # Linvill's sine from sunrise at 10:00 on, over 4 + 4 hours: 10 sin(2 pi / 8).
        (4.0, 7.07107),
        # And from 2:00 on, over 20 + 4 hours: 10 sin(10 pi / 24).
        (20.0, 9.65926),
        (20.1, 8.53553),
    ],
)
def test_waves_run_under_four_hours_of_light_or_of_dark(
    daylight_hours: float, at_noon_c: float
) -> None:
    hours = hours_of_day_c(DayRange(0.0, 10.0, daylight_hours))
    assert hours[12] == pytest.approx(at_noon_c, abs=1e-5)
    assert len(hours) == 24
