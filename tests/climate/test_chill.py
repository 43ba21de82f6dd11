"""Winter chill: against xclim, the published equations written again, and the Utah table."""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from vega_datasets import data

from backbud.climate.chill import (
    DYNAMIC_START,
    DynamicState,
    chill_hours,
    chill_portions,
    utah_units,
    utah_units_of_hour,
)
from backbud.climate.hourly import DayRange, hours_of_days_c


def portions(hourly_c: Sequence[float]) -> float:
    return chill_portions(hourly_c).portions


def portions_written_again(hourly_c: Sequence[float]) -> float:
    """The Dynamic model as Luedeling et al. 2009 set it down, in whole columns, without memory."""
    kelvin = np.array(hourly_c) + 273.0
    sr = np.exp(1.6 * 277.0 * (kelvin - 277.0) / kelvin)
    xi = sr / (1.0 + sr)
    xs = 139500.0 / 2.567e18 * np.exp((12888.8 - 4153.5) / kelvin)
    ak1 = 2.567e18 * np.exp(-12888.8 / kelvin)
    inter_e = np.zeros(len(kelvin))
    for hour in range(len(kelvin)):
        inter_s = 0.0
        if hour > 0:
            last = inter_e[hour - 1]
            inter_s = last if last < 1 else last - last * xi[hour - 1]
        inter_e[hour] = xs[hour] - (xs[hour] - inter_s) * np.exp(-ak1[hour])
    return float(np.sum(np.where(inter_e >= 1, inter_e * xi, 0.0)))


def winter_of_seattle(year: int) -> list[float]:
    """Hourly °C from 1 October of `year` to 31 March (NOAA's daily lows and highs), 12 h daylight.

    From the first sunrise on, and to the sunrise after the last day, as xclim counts them.
    """
    frame = data.seattle_weather()
    frame = frame[(frame.date >= f"{year}-10-01") & (frame.date <= f"{year + 1}-03-31")]
    days = [
        DayRange(float(low_c), float(high_c), 12.0)
        for low_c, high_c in zip(frame.temp_min, frame.temp_max, strict=True)
    ]
    return list(hours_of_days_c([*days, days[-1]]))[6 : 6 + 24 * len(days)]


def random_winter(seed: int) -> list[float]:
    rng = np.random.default_rng(seed)
    hours = np.arange(2900)
    weather = np.repeat(rng.normal(0, 4, 121), 24)[:2900]
    return (6 + 5 * np.sin(hours * 2 * np.pi / 24) + weather).tolist()


# xclim 0.62.0, indices.chill_portions and chill_units, on its own make_hourly_temperature with
# 12 hours of daylight, fed with °C + 273 as kelvin. xclim leaves the first hour out.
@pytest.mark.parametrize(
    ("year", "xclim_portions", "xclim_units"),
    [(2012, 125.834668, 2909.5), (2013, 131.845842, 2901.5), (2014, 112.617187, 2246.0)],
)
def test_winters_of_seattle_are_as_xclim_has_them(
    year: int, xclim_portions: float, xclim_units: float
) -> None:
    hourly_c = winter_of_seattle(year)
    assert len(hourly_c) == 4368
    assert portions(hourly_c[1:]) == pytest.approx(xclim_portions, abs=1e-5)
    # xclim ends the step of minus a half at 17.9 °C, chillR and we at 18.0 °C.
    between = sum(17.9 < hour_c <= 18.0 for hour_c in hourly_c)
    assert sum(map(utah_units_of_hour, hourly_c)) == xclim_units + 0.5 * between


# xclim 0.62.0, the Dynamic model alone, at one temperature for so many hours after its first.
@pytest.mark.parametrize(
    ("temperature_c", "hours", "xclim_portions"),
    [
        (-3.0, 720, 0.032073),
        (0.0, 720, 3.332755),
        (4.0, 720, 21.245762),
        (6.0, 240, 7.820746),
        (6.0, 720, 24.432564),
        (8.0, 720, 24.401032),
        (10.0, 720, 23.313028),
        (12.0, 720, 18.001112),
        (13.5, 2900, 0.0),
        (14.0, 2900, 0.0),
    ],
)
def test_steady_cold_is_as_xclim_has_it(
    temperature_c: float, hours: int, xclim_portions: float
) -> None:
    assert portions([temperature_c] * hours) == pytest.approx(xclim_portions, abs=1e-5)


@pytest.mark.parametrize("seed", range(4))
def test_the_dynamic_model_is_its_published_equations(seed: int) -> None:
    hourly_c = random_winter(seed)
    assert portions(hourly_c) > 50
    assert portions(hourly_c) == pytest.approx(portions_written_again(hourly_c), abs=1e-9)


def test_a_season_can_be_carried_on_from_hour_to_hour() -> None:
    hourly_c = random_winter(9)
    state = DYNAMIC_START
    for hour_c in hourly_c:
        state = chill_portions([hour_c], state)
    assert state == chill_portions(hourly_c)
    assert chill_portions([], state) == state


def hours_to_first_portion(temperature_c: float, state: DynamicState) -> int:
    hours = 0
    while state.portions == 0.0:
        state, hours = chill_portions([temperature_c], state), hours + 1
    return hours


def test_the_first_portion_takes_29_hours_at_6_degrees() -> None:
    # xclim 0.62.0: 28 hours give none, 29 give 0.980512.
    assert portions([6.0] * 28) == 0.0
    assert portions([6.0] * 29) == pytest.approx(0.980512, abs=1e-5)
    assert hours_to_first_portion(6.0, DYNAMIC_START) == 29


def test_a_warm_spell_undoes_what_is_not_yet_a_portion() -> None:
    # Eight hours at 24 °C throw sixteen at 6 °C back to what stands at 24 °C by itself: the first
    # portion then needs 21 hours more instead of 13, and a portion is missing in the end (xclim
    # 0.62.0: 232 hours of 6 °C give 7.820746, with the spell in between 6.837189).
    cold, spell = [6.0] * 16, [24.0] * 8
    assert chill_portions(cold).intermediate == pytest.approx(0.643, abs=1e-3)
    assert chill_portions(cold + spell).intermediate == pytest.approx(0.340, abs=1e-3)
    assert hours_to_first_portion(6.0, chill_portions(cold)) == 13
    assert hours_to_first_portion(6.0, chill_portions(cold + spell)) == 21
    assert portions(cold + [6.0] * 216) == pytest.approx(7.820746, abs=1e-5)
    assert portions(cold + spell + [6.0] * 216) == pytest.approx(6.837189, abs=1e-5)


def test_a_warm_spell_undoes_no_portion() -> None:
    cold = chill_portions([6.0] * 240)
    assert chill_portions([24.0] * 240, cold).portions == cold.portions
    assert cold.portions == pytest.approx(7.820746, abs=1e-5)


def test_warm_afternoons_every_day_leave_no_chill_and_mild_ones_do_little_harm() -> None:
    # Thirty days of 16 h at 6 °C and 8 h warmer (xclim 0.62.0).
    assert portions(([6.0] * 16 + [24.0] * 8) * 30) == 0.0
    assert portions(([6.0] * 16 + [15.0] * 8) * 30) == pytest.approx(21.397671, abs=1e-5)
    assert portions(([6.0] * 16 + [12.0] * 8) * 30) == pytest.approx(23.439556, abs=1e-5)


@given(st.lists(st.floats(-40, 45), max_size=60), st.floats(-40, 45))
def test_portions_never_shrink_and_the_intermediate_stays_within_bounds(
    hourly_c: list[float], next_c: float
) -> None:
    state = chill_portions(hourly_c)
    after = chill_portions([next_c], state)
    assert after.portions >= state.portions >= 0.0
    assert after.intermediate >= 0.0


def test_a_state_is_a_frozen_value() -> None:
    with pytest.raises(AttributeError):
        DynamicState().portions = 1.0  # type: ignore[misc]


# Richardson, Seeley & Walker 1974 in °C as the library chillR has it: under 1.5 none,
# 1.5-2.4 half, 2.5-9.1 one, 9.2-12.4 half, 12.5-15.9 none, 16.0-18.0 minus half, above it minus one
@pytest.mark.parametrize(
    ("hour_c", "units"),
    [
        (-15.0, 0.0),
        (1.4, 0.0),
        (1.5, 0.5),
        (2.4, 0.5),
        (2.5, 1.0),
        (9.1, 1.0),
        (9.2, 0.5),
        (12.4, 0.5),
        (12.5, 0.0),
        (15.9, 0.0),
        (16.0, -0.5),
        (18.0, -0.5),
        (18.1, -1.0),
        (35.0, -1.0),
    ],
)
def test_the_utah_table_at_its_edges(hour_c: float, units: float) -> None:
    assert utah_units_of_hour(hour_c) == units


def test_utah_units_are_counted_from_where_their_sum_is_lowest() -> None:
    # 20 warm hours take 20 away, 30 cold ones give 30, 4 at 17 °C take 2: 28 since the lowest.
    assert utah_units([20.0] * 20 + [5.0] * 30 + [17.0] * 4) == 28.0
    # A warm spell that takes more than winter gave begins the count anew.
    assert utah_units([5.0] * 30 + [20.0] * 50) == 0.0
    assert utah_units([5.0] * 30) == 30.0
    assert utah_units([]) == 0.0


def test_chill_hours_count_both_ends() -> None:
    assert chill_hours([-0.1, 0.0, 3.0, 7.2, 7.3, 12.0]) == 3
    assert chill_hours([]) == 0


@pytest.mark.parametrize("hour_c", [-300.0, -90.1, 70.1, math.nan, math.inf])
def test_no_air_is_so_cold_or_so_hot(hour_c: float) -> None:
    with pytest.raises(ValueError, match="air"):
        chill_portions([5.0, hour_c])
    with pytest.raises(ValueError, match="air"):
        chill_hours([hour_c])
    with pytest.raises(ValueError, match="air"):
        utah_units([hour_c])
