"""The sun's sums against FAO-56's worked examples, `pyet`, `refet` and `astral`.

Worked examples are those of FAO Irrigation and Drainage Paper 56 (Allen et al. 1998). Where their
figures were not seen in the paper itself, the tests or manual of a library that quotes them by
number are named.
"""

from __future__ import annotations

from datetime import UTC, date, datetime, timedelta
from math import cos, degrees, nan, pi, radians, sin

import numpy as np
import pandas as pd
import pyet
import pytest
import refet
from astral import Observer, SunDirection
from astral.julian import julianday, julianday_to_juliancentury
from astral.sun import daylight, elevation, sun_declination, time_of_transit

from backbud.climate.radiation import (
    clear_sky_radiation_mj_per_m2,
    daylight_hours,
    declination_radians,
    extraterrestrial_radiation_mj_per_m2,
    inverse_relative_distance,
    is_elevation,
    net_long_wave_mj_per_m2,
    net_radiation_mj_per_m2,
    net_short_wave_mj_per_m2,
    solar_radiation_from_range_mj_per_m2,
    solar_radiation_from_sunshine_mj_per_m2,
    sunset_hour_angle_radians,
)

LATITUDES = (-66, -55, -40, -20, 0, 20, 40, 51.5, 60, 66)
LEAP_YEAR = pd.date_range("2024-01-01", "2024-12-31")
YEAR = [date(2025, 1, 1) + timedelta(days=n) for n in range(365)]
THIRD_OF_SEPTEMBER = date(2025, 9, 3)  # the 246th day, as in FAO-56's example 8
MIDSUMMER, MIDWINTER = date(2025, 6, 21), date(2025, 12, 21)


# FAO-56's worked examples.


def test_example_8_twenty_degrees_south_on_the_third_of_september() -> None:
    # The parts are as PyETo's tests quote them; the sum is in the design.
    assert inverse_relative_distance(THIRD_OF_SEPTEMBER) == pytest.approx(0.985, abs=0.0005)
    assert declination_radians(THIRD_OF_SEPTEMBER) == pytest.approx(0.120, abs=0.0005)
    assert sunset_hour_angle_radians(-20, THIRD_OF_SEPTEMBER) == pytest.approx(1.527, abs=0.0005)
    radiation = extraterrestrial_radiation_mj_per_m2(-20, THIRD_OF_SEPTEMBER)
    assert radiation == pytest.approx(32.2, abs=0.05)


def test_example_9_the_daylight_of_that_day() -> None:
    assert daylight_hours(-20, THIRD_OF_SEPTEMBER) == pytest.approx(11.7, abs=0.05)


def test_example_10_sunshine_at_22_54_south_in_may() -> None:
    # Radiation above the air, hours and result as PyETo's tests and NCL's manual quote them.
    middle = date(2025, 5, 15)
    assert extraterrestrial_radiation_mj_per_m2(-22.9, middle) == pytest.approx(25.1, abs=0.05)
    assert daylight_hours(-22.9, middle) == pytest.approx(10.9, abs=0.05)
    solar = solar_radiation_from_sunshine_mj_per_m2(-22.9, middle, 7.1)
    assert solar == pytest.approx(14.45, abs=0.05)
    assert clear_sky_radiation_mj_per_m2(-22.9, middle, 0) == pytest.approx(18.8, abs=0.05)


def test_example_11_the_net_long_wave_of_that_month() -> None:
    # As PyETo's tests and the R package FAO56 quote it.
    loss = net_long_wave_mj_per_m2(14.5, 18.8, 19.1, 25.1, 2.1)
    assert loss == pytest.approx(3.5, abs=0.05)


def test_example_12_the_net_radiation_of_that_month() -> None:
    # 11.1 as NCL's manual quotes it; 7.6 is from memory of FAO-56, and 11.1 less 3.5.
    assert net_short_wave_mj_per_m2(14.4561) == pytest.approx(11.13, abs=0.005)
    assert net_radiation_mj_per_m2(14.5, 18.8, 19.1, 25.1, 2.1) == pytest.approx(7.6, abs=0.05)


def test_example_15_lyon_in_july_by_its_low_and_high() -> None:
    # As PyETo's tests quote it; 16.55 mm of water are the design's, at 0.408 mm to the MJ.
    middle, lyon = date(2025, 7, 15), 45 + 43 / 60
    above = extraterrestrial_radiation_mj_per_m2(lyon, middle)
    assert above * 0.408 == pytest.approx(16.55, abs=0.005)
    solar = solar_radiation_from_range_mj_per_m2(lyon, middle, 200, 14.8, 26.6)
    assert solar == pytest.approx(22.3, abs=0.05)


def test_example_18_uccle_on_the_sixth_of_july() -> None:
    # Radiation as PyETo's tests (clear sky), the R packages CSLSevap and ETo (ground) quote it. The
    # 9.25 hours of sunshine are from memory of FAO-56.
    day, uccle = date(2015, 7, 6), 50.8
    assert extraterrestrial_radiation_mj_per_m2(uccle, day) == pytest.approx(41.09, abs=0.005)
    assert clear_sky_radiation_mj_per_m2(uccle, day, 100) == pytest.approx(30.90, abs=0.005)
    solar = solar_radiation_from_sunshine_mj_per_m2(uccle, day, 9.25)
    assert solar == pytest.approx(22.07, abs=0.01)
    net = net_radiation_mj_per_m2(22.07, 30.90, 12.3, 21.5, 1.409)
    assert net == pytest.approx(13.28, abs=0.01)


# The same formulas in libraries, over every day of a leap year.


@pytest.mark.parametrize("latitude", [*LATITUDES, -80, -70, 70, 80])
def test_radiation_above_the_air_is_that_of_pyet(latitude: float) -> None:
    ours = [extraterrestrial_radiation_mj_per_m2(latitude, at.date()) for at in LEAP_YEAR]
    theirs = pyet.meteo_utils.extraterrestrial_r(LEAP_YEAR, radians(latitude))
    # pyet writes pi with nine decimals.
    np.testing.assert_allclose(ours, theirs, rtol=1e-8, atol=1e-9)


@pytest.mark.parametrize("latitude", [*LATITUDES, -80, -70, 70, 80])
def test_radiation_above_the_air_is_that_of_refet(latitude: float) -> None:
    ours = [extraterrestrial_radiation_mj_per_m2(latitude, at.date()) for at in LEAP_YEAR]
    theirs = refet.Daily(
        tmin=5,
        tmax=15,
        rs=np.full(366, 10.0),
        uz=2,
        zw=2,
        elev=0,
        lat=float(latitude),
        doy=np.arange(1, 367),
        ea=0.8,
    ).ra
    np.testing.assert_allclose(ours, theirs, rtol=1e-9, atol=1e-9)


@pytest.mark.parametrize("latitude", [*LATITUDES, -80, -70, 70, 80])
def test_daylight_is_that_of_pyet(latitude: float) -> None:
    ours = [daylight_hours(latitude, at.date()) for at in LEAP_YEAR]
    theirs = pyet.meteo_utils.daylight_hours(LEAP_YEAR, radians(latitude))
    np.testing.assert_allclose(ours, theirs, rtol=1e-9, atol=1e-9)


@pytest.mark.parametrize("latitude", LATITUDES)
@pytest.mark.parametrize("share_of_sunshine", [0.0, 0.4, 1.0])
def test_solar_and_net_radiation_are_those_of_pyet(
    latitude: float, share_of_sunshine: float
) -> None:
    daylight_of_pyet = pyet.meteo_utils.daylight_hours(LEAP_YEAR, radians(latitude))
    sunshine = pd.Series(daylight_of_pyet * share_of_sunshine, LEAP_YEAR)
    low, high, vapour = (pd.Series(value, LEAP_YEAR) for value in (4.5, 17.0, 0.9))
    solar = pyet.rad_utils.calc_rad_sol_in(sunshine, radians(latitude))
    net = pyet.rad_utils.calc_rad_net(
        (low + high) / 2,
        rs=solar,
        lat=radians(latitude),
        tmax=high,
        tmin=low,
        elevation=350,
        ea=vapour,
    )
    ours_solar, ours_net = [], []
    for at, hours in sunshine.items():
        ours_solar.append(solar_radiation_from_sunshine_mj_per_m2(latitude, at.date(), hours))
        clear = clear_sky_radiation_mj_per_m2(latitude, at.date(), 350)
        ours_net.append(net_radiation_mj_per_m2(ours_solar[-1], clear, 4.5, 17.0, 0.9))
    np.testing.assert_allclose(ours_solar, solar, rtol=1e-8)
    np.testing.assert_allclose(ours_net, net, rtol=1e-8, atol=1e-8)


# The sky itself, as `astral` reckons it by NOAA's formulas, which know nothing of FAO-56.


def test_declination_is_the_suns_to_a_degree_and_a_third() -> None:
    # FAO-56's plain sine runs ahead of the sun in autumn (1.26° in early October) and is close to
    # it in May, June, July and December.
    off_by = {
        day: degrees(declination_radians(day))
        - sun_declination(julianday_to_juliancentury(julianday(day) + 0.5))
        for day in YEAR
    }
    assert max(map(abs, off_by.values())) < 4 / 3
    assert max(abs(off) for day, off in off_by.items() if day.month in (6, 12)) < 0.25


# Tolerances in hours. `geometric`: the sun's centre at the true horizon, no refraction, as FAO-56
# means it; what is left is the error of its declination, which the latitude's tangent magnifies.
# `apparent`: the almanac's day, the upper rim lifted by refraction, the centre 0.833° below the
# horizon. That adds 2 x 0.833° / 15° an hour = 0.11 h where the sun sinks straight down, and more
# where it sinks aslant; with the declination's error on top, the difference lies in this range.
@pytest.mark.parametrize(
    ("latitude", "geometric", "apparent"),
    [
        (-60, 0.25, (-0.03, 0.38)),
        (-50, 0.17, (0.00, 0.23)),
        (-40, 0.12, (0.02, 0.18)),
        (-20, 0.055, (0.06, 0.135)),
        (0, 0.005, (0.10, 0.12)),
        (20, 0.055, (0.115, 0.17)),
        (40, 0.12, (0.15, 0.26)),
        (50, 0.17, (0.19, 0.34)),
        (60, 0.25, (0.275, 0.48)),
    ],
)
def test_daylight_is_that_of_the_sky(
    latitude: float, geometric: float, apparent: tuple[float, float]
) -> None:
    observer = Observer(latitude, 0.0, 0.0)
    for day in YEAR:
        ours = daylight_hours(latitude, day)
        without_refraction = _between_transits_of_the_horizon(observer, day)
        assert without_refraction is not None
        assert ours == pytest.approx(without_refraction, abs=geometric), day
        sunrise, sunset = daylight(observer, day)
        longer = (sunset - sunrise) / timedelta(hours=1) - ours
        assert apparent[0] <= longer <= apparent[1], day


@pytest.mark.parametrize("latitude", [-66, 66])
def test_daylight_just_short_of_the_polar_circle(latitude: float) -> None:
    # No almanac day here: with refraction the midsummer sun does not set. The tolerance is the
    # declination's error again, times a tangent of 2.2.
    observer = Observer(latitude, 0.0, 0.0)
    for day in YEAR:
        geometric = _between_transits_of_the_horizon(observer, day)
        assert geometric is not None
        assert daylight_hours(latitude, day) == pytest.approx(geometric, abs=0.35), day


@pytest.mark.parametrize("latitude", [-80, -70, 70, 80])
def test_polar_day_and_night_fall_on_the_days_of_the_sky(latitude: float) -> None:
    # At the edges the declination's error shifts the first or last day by up to two: five days in
    # a year at most.
    observer = Observer(latitude, 0.0, 0.0)
    ours = {day: daylight_hours(latitude, day) for day in YEAR}
    without_transit = {
        day for day in YEAR if _between_transits_of_the_horizon(observer, day) is None
    }
    light = {day for day in without_transit if _height_at(observer, day, 12) > 3}
    dark = without_transit - light
    assert len(light) > 55
    assert len(dark) > 55
    assert len(light ^ {day for day in YEAR if ours[day] == 24.0}) <= 5
    assert len(dark ^ {day for day in YEAR if ours[day] == 0.0}) <= 5


@pytest.mark.parametrize(
    ("latitude", "day", "hours"),
    [
        (70, MIDSUMMER, 24.0),
        (70, MIDWINTER, 0.0),
        (80, MIDSUMMER, 24.0),
        (80, MIDWINTER, 0.0),
        (90, MIDSUMMER, 24.0),
        (90, MIDWINTER, 0.0),
        (-70, MIDSUMMER, 0.0),
        (-70, MIDWINTER, 24.0),
        (-80, MIDSUMMER, 0.0),
        (-80, MIDWINTER, 24.0),
        (-90, MIDSUMMER, 0.0),
        (-90, MIDWINTER, 24.0),
    ],
)
def test_the_sun_stays_up_or_down_at_high_latitudes(
    latitude: float, day: date, hours: float
) -> None:
    assert daylight_hours(latitude, day) == hours
    radiation = extraterrestrial_radiation_mj_per_m2(latitude, day)
    if hours == 0:
        assert radiation == 0
    else:
        assert radiation > 40


@pytest.mark.parametrize("latitude", [-80, -66, -45, -20, 0, 20, 45, 66, 80])
@pytest.mark.parametrize("day", [MIDSUMMER, MIDWINTER])
def test_radiation_above_the_air_is_the_sum_over_the_suns_heights(
    latitude: float, day: date
) -> None:
    # Every five minutes the solar constant (0.0820 MJ/m² a minute) on level ground, by astral's
    # height of the sun. At the solstices, where FAO-56's declination is good to a fifth of a
    # degree.
    observer = Observer(latitude, 0.0, 0.0)
    summed = sum(
        5 * 0.0820 * inverse_relative_distance(day) * max(0.0, sin(radians(height)))
        for height in (_height_at(observer, day, minute / 60) for minute in range(0, 1440, 5))
    )
    ours = extraterrestrial_radiation_mj_per_m2(latitude, day)
    assert ours == pytest.approx(summed, rel=0.005, abs=0.05)


def _between_transits_of_the_horizon(observer: Observer, day: date) -> float | None:
    """Hours from rise to set of the sun's centre, without refraction; None without either."""
    try:
        rise, set_ = (
            time_of_transit(observer, day, 90.0, direction, with_refraction=False)
            for direction in (SunDirection.RISING, SunDirection.SETTING)
        )
    except ValueError:
        return None
    return (set_ - rise) / timedelta(hours=1)


def _height_at(observer: Observer, day: date, hour: float) -> float:
    at = datetime(day.year, day.month, day.day, tzinfo=UTC) + timedelta(hours=hour)
    return elevation(observer, at, with_refraction=False)


# What the formulas alone do not say.


def test_the_earth_is_nearest_the_sun_at_new_year() -> None:
    # Eq. 23 has the greatest value where the 365th of a year is nought: 1.033.
    assert inverse_relative_distance(date(2025, 12, 31)) == pytest.approx(1.033)
    assert inverse_relative_distance(date(2025, 7, 2)) == pytest.approx(
        1 + 0.033 * cos(pi), abs=1e-5
    )


def test_more_sunshine_than_daylight_counts_as_sunshine_all_day() -> None:
    above = extraterrestrial_radiation_mj_per_m2(60, MIDWINTER)
    solar = solar_radiation_from_sunshine_mj_per_m2(60, MIDWINTER, 7.0)
    assert solar == pytest.approx(0.75 * above)


def test_no_sun_reaches_the_ground_in_the_polar_night() -> None:
    assert solar_radiation_from_sunshine_mj_per_m2(80, MIDWINTER, 1.0) == 0
    assert solar_radiation_from_range_mj_per_m2(80, MIDWINTER, 0, -20, -5) == 0


def test_the_sea_damps_the_range_so_the_same_range_means_more_sun() -> None:
    # FAO-56 eq. 50: 0.19 by the sea to 0.16 inland.
    inland = solar_radiation_from_range_mj_per_m2(50, MIDSUMMER, 0, 12, 20)
    by_the_sea = solar_radiation_from_range_mj_per_m2(50, MIDSUMMER, 0, 12, 20, by_the_sea=True)
    assert by_the_sea / inland == pytest.approx(0.19 / 0.16)


def test_a_wide_range_makes_no_more_sun_than_a_clear_sky() -> None:
    # 0.16 x sqrt(30) = 0.88 of what is above the air; a clear sky lets 0.77 through at 1000 m.
    above = extraterrestrial_radiation_mj_per_m2(40, MIDSUMMER)
    solar = solar_radiation_from_range_mj_per_m2(40, MIDSUMMER, 1000, 5, 35)
    assert solar == pytest.approx(0.77 * above)


@pytest.mark.parametrize("share_of_clear_sky", [0.0, 0.1, 0.29, 0.31, 0.99, 1.2])
def test_the_loss_to_the_sky_stays_within_thick_cloud_and_clear_sky(
    share_of_clear_sky: float,
) -> None:
    # refet holds the share within 0.3 to 1 (ASCE-EWRI 2005) and has 4.901 where FAO-56 has 4.903.
    theirs = refet.Daily(
        tmin=5.0,
        tmax=15.0,
        ea=0.9,
        rs=20 * share_of_clear_sky,
        rso_type="array",
        rso=np.array([20.0]),
        uz=2,
        zw=2,
        elev=0,
        lat=50.0,
        doy=172,
    ).rnl[0]
    ours = net_long_wave_mj_per_m2(20 * share_of_clear_sky, 20, 5, 15, 0.9)
    assert ours == pytest.approx(theirs, rel=5e-4)


def test_a_day_without_a_range_has_no_sun_by_it() -> None:
    assert solar_radiation_from_range_mj_per_m2(50, MIDSUMMER, 0, 10, 10) == 0


def test_sunshine_all_round_the_clock_in_the_polar_day() -> None:
    above = extraterrestrial_radiation_mj_per_m2(80, MIDSUMMER)
    solar = solar_radiation_from_sunshine_mj_per_m2(80, MIDSUMMER, 24)
    assert solar == pytest.approx(0.75 * above)


def test_the_sky_of_the_polar_night_is_taken_to_be_clear() -> None:
    theirs = refet.Daily(
        tmin=-20, tmax=-10, ea=0.15, rs=0, uz=2, zw=2, elev=0, lat=80.0, doy=355, method="asce"
    )
    # refet has 4.901 where FAO-56 has 4.903.
    assert net_radiation_mj_per_m2(0, 0, -20, -10, 0.15) == pytest.approx(theirs.rn[0], rel=5e-4)


@pytest.mark.parametrize("latitude", [-90.01, 90.01, 180.0, nan])
def test_a_latitude_off_the_globe_is_refused(latitude: float) -> None:
    with pytest.raises(ValueError, match="latitude"):
        sunset_hour_angle_radians(latitude, MIDSUMMER)
    with pytest.raises(ValueError, match="latitude"):
        daylight_hours(latitude, MIDSUMMER)
    with pytest.raises(ValueError, match="latitude"):
        extraterrestrial_radiation_mj_per_m2(latitude, MIDSUMMER)
    with pytest.raises(ValueError, match="latitude"):
        clear_sky_radiation_mj_per_m2(latitude, MIDSUMMER, 0)
    with pytest.raises(ValueError, match="latitude"):
        solar_radiation_from_sunshine_mj_per_m2(latitude, MIDSUMMER, 5)
    with pytest.raises(ValueError, match="latitude"):
        solar_radiation_from_range_mj_per_m2(latitude, MIDSUMMER, 0, 5, 15)


@pytest.mark.parametrize("hours", [-0.1, 24.1, nan])
def test_sunshine_that_no_day_has_is_refused(hours: float) -> None:
    with pytest.raises(ValueError, match="hours of sunshine"):
        solar_radiation_from_sunshine_mj_per_m2(50, MIDSUMMER, hours)


@pytest.mark.parametrize("elevation_m", [-501, 9001, nan])
def test_an_elevation_that_no_land_has_is_refused(elevation_m: float) -> None:
    with pytest.raises(ValueError, match="land"):
        clear_sky_radiation_mj_per_m2(50, MIDSUMMER, elevation_m)


@pytest.mark.parametrize(("low", "high"), [(10, 9.9), (nan, 10), (10, nan), (-101, 0), (50, 71)])
def test_air_that_no_day_has_is_refused(low: float, high: float) -> None:
    with pytest.raises(ValueError, match="low of"):
        solar_radiation_from_range_mj_per_m2(50, MIDSUMMER, 0, low, high)
    with pytest.raises(ValueError, match="low of"):
        net_long_wave_mj_per_m2(10, 20, low, high, 1.0)


@pytest.mark.parametrize("vapour_pressure", [-0.1, nan])
def test_a_vapour_pressure_below_nothing_is_refused(vapour_pressure: float) -> None:
    with pytest.raises(ValueError, match="vapour pressure"):
        net_long_wave_mj_per_m2(10, 20, 5, 15, vapour_pressure)


@pytest.mark.parametrize(
    ("elevation_m", "is_one"), [(-500.1, False), (-500.0, True), (9000.0, True), (9000.1, False)]
)
def test_land_lies_from_500_m_under_the_sea_to_9000_over_it(
    elevation_m: float, is_one: bool
) -> None:
    assert is_elevation(elevation_m) is is_one
