"""Reference evapotranspiration against FAO-56's worked examples, `pyet` and `refet`.

Worked examples are those of FAO Irrigation and Drainage Paper 56 (Allen et al. 1998). Where their
figures were not seen in the paper itself, the library is named whose tests quote them by number.
"""

from __future__ import annotations

from datetime import date
from math import nan, radians

import numpy as np
import pandas as pd
import pyet
import pytest
import refet

from backbud.climate.days import WeatherDay
from backbud.climate.evapotranspiration import (
    actual_vapour_pressure_kpa,
    air_pressure_kpa,
    hargreaves_mm,
    mean_saturation_vapour_pressure_kpa,
    penman_monteith_mm,
    psychrometric_constant_kpa_per_c,
    reference_evapotranspiration,
    saturation_vapour_pressure_kpa,
    slope_of_vapour_pressure_kpa_per_c,
    wind_at_two_metres_m_per_s,
)

LATITUDES = (-66, -55, -40, -20, 0, 20, 40, 51.5, 60, 66)
DAYS = pd.date_range("2024-01-01", "2024-12-31")
ELEVATION_M = 350
JULY = date(2025, 7, 15)


# FAO-56's worked examples.


def test_example_2_air_at_1800_m() -> None:
    # As PyETo's tests quote it.
    assert air_pressure_kpa(1800) == pytest.approx(81.8, abs=0.05)
    assert psychrometric_constant_kpa_per_c(1800) == pytest.approx(0.054, abs=0.0005)


def test_example_3_vapour_that_the_air_can_hold() -> None:
    # As PyETo's tests quote it.
    assert mean_saturation_vapour_pressure_kpa(15, 24.5) == pytest.approx(2.39, abs=0.005)


def test_example_5_vapour_by_mean_humidity() -> None:
    # 18 and 25 °C hold 2.064 and 3.168 kPa; 68 % of their mean is 1.78. As PyETo's tests quote it.
    assert saturation_vapour_pressure_kpa(18) == pytest.approx(2.064, abs=0.0005)
    assert saturation_vapour_pressure_kpa(25) == pytest.approx(3.168, abs=0.0005)
    assert actual_vapour_pressure_kpa(18, 25, 68) == pytest.approx(1.78, abs=0.005)


def test_example_14_wind_from_10_m() -> None:
    # As PyETo's tests quote it.
    assert wind_at_two_metres_m_per_s(3.2, 10) == pytest.approx(2.4, abs=0.05)


def test_example_17_bangkok_in_april() -> None:
    # The parts as PyETo's tests quote them; 25.6 and 34.8 °C are from memory of FAO-56, and give
    # the 4.42 kPa that are quoted. FAO-56 rounds on the way, hence the second decimal.
    assert slope_of_vapour_pressure_kpa_per_c(30.2) == pytest.approx(0.246, abs=0.0005)
    assert psychrometric_constant_kpa_per_c(2) == pytest.approx(0.0674, abs=0.0001)
    assert mean_saturation_vapour_pressure_kpa(25.6, 34.8) == pytest.approx(4.42, abs=0.005)
    et0 = penman_monteith_mm(25.6, 34.8, 14.33, 2.0, 2.85, 2, soil_heat_mj_per_m2=0.14)
    assert et0 == pytest.approx(5.72, abs=0.02)


def test_example_18_uccle_on_the_sixth_of_july() -> None:
    # The parts as PyETo's tests quote them, low, high and wind at 10 m as the R package CSLSevap.
    wind = wind_at_two_metres_m_per_s(2.78, 10)
    assert wind == pytest.approx(2.078, abs=0.002)
    assert mean_saturation_vapour_pressure_kpa(12.3, 21.5) == pytest.approx(1.997, abs=0.0005)
    assert slope_of_vapour_pressure_kpa_per_c(16.9) == pytest.approx(0.122, abs=0.0005)
    assert psychrometric_constant_kpa_per_c(100) == pytest.approx(0.0666, abs=0.00005)
    assert penman_monteith_mm(12.3, 21.5, 13.28, wind, 1.409, 100) == pytest.approx(3.9, abs=0.05)


def test_example_20_lyon_in_july_by_hargreaves() -> None:
    # 16.55 mm of water above the air, at 0.408 mm to the MJ.
    assert hargreaves_mm(14.8, 26.6, 16.55 / 0.408) == pytest.approx(5.0, abs=0.05)
    found = reference_evapotranspiration(
        WeatherDay(JULY, low_c=14.8, high_c=26.6), 45 + 43 / 60, 200
    )
    assert found is not None
    assert found.et0_mm == pytest.approx(5.0, abs=0.05)
    assert found.method == "Hargreaves"


# Libraries, over every day of a leap year of made-up weather.


def _weather(latitude: float) -> pd.DataFrame:
    """Weather with a season, from thick cloud to all-day sun, calm to wind, dry to near damp."""
    number = np.arange(len(DAYS))
    season = np.cos(2 * np.pi * (number - 200) / 366) * (1 if latitude >= 0 else -1)
    low = 4 + 14 * season + 3 * np.sin(number)
    return pd.DataFrame(
        {
            "low": low,
            "high": low + 7.5 + 5 * np.sin(2.3 * number),
            "humidity": 60 + 35 * np.sin(1.7 * number),
            "wind": 2.6 + 2.4 * np.sin(0.9 * number),
            "sun": pyet.meteo_utils.daylight_hours(DAYS, radians(latitude))
            * (0.5 + 0.5 * np.sin(1.3 * number)),
        },
        index=DAYS,
    )


def _days(weather: pd.DataFrame) -> list[WeatherDay]:
    return [
        WeatherDay(at.date(), row.low, row.high, None, row.humidity, row.wind, row.sun)
        for at, row in weather.iterrows()
    ]


def _ours(days: list[WeatherDay], latitude: float, method: str) -> list[float]:
    found = [reference_evapotranspiration(day, latitude, ELEVATION_M) for day in days]
    assert {each.method for each in found if each is not None} == {method}
    return [each.et0_mm for each in found if each is not None]


@pytest.mark.parametrize("latitude", LATITUDES)
def test_penman_monteith_is_that_of_pyet(latitude: float) -> None:
    weather = _weather(latitude)
    theirs = pyet.pm_fao56(
        (weather.low + weather.high) / 2,
        weather.wind,
        tmax=weather.high,
        tmin=weather.low,
        rh=weather.humidity,
        elevation=ELEVATION_M,
        lat=radians(latitude),
        n=weather.sun,
    )
    ours = _ours(_days(weather), latitude, "Penman-Monteith")
    np.testing.assert_allclose(ours, theirs, rtol=1e-7, atol=1e-8)


@pytest.mark.parametrize("latitude", LATITUDES)
def test_penman_monteith_is_that_of_refet(latitude: float) -> None:
    # refet follows ASCE-EWRI 2005, which rounds three constants otherwise (Stefan-Boltzmann's
    # 4.901 for 4.903, 2503 for 4098 x 0.6108) and carries wind from 2 m to 2 m with a factor of
    # 1.0002: so a hundredth of a millimetre.
    weather = _weather(latitude)
    saturated = (
        0.6108 * np.exp(17.27 * weather.low / (weather.low + 237.3))
        + 0.6108 * np.exp(17.27 * weather.high / (weather.high + 237.3))
    ) / 2
    theirs = refet.Daily(
        tmin=weather.low,
        tmax=weather.high,
        ea=saturated * weather.humidity / 100,
        rs=pyet.rad_utils.calc_rad_sol_in(weather.sun, radians(latitude)),
        uz=weather.wind,
        zw=2,
        elev=ELEVATION_M,
        lat=float(latitude),
        doy=np.arange(1, 367),
        method="asce",
    ).eto()
    ours = _ours(_days(weather), latitude, "Penman-Monteith")
    np.testing.assert_allclose(ours, np.maximum(theirs, 0), atol=0.01)


@pytest.mark.parametrize("latitude", [*LATITUDES, -80, -70, 70, 80])
def test_hargreaves_is_that_of_pyet(latitude: float) -> None:
    # pyet divides by the latent heat at the day's temperature, FAO-56 by 1 / 0.408 at 20 °C.
    weather = _weather(latitude)
    mean = (weather.low + weather.high) / 2
    theirs = pyet.hargreaves(mean, weather.high, weather.low, radians(latitude))
    theirs *= (2.501 - 0.002361 * mean) * 0.408
    days = [WeatherDay(at.date(), row.low, row.high) for at, row in weather.iterrows()]
    ours = _ours(days, latitude, "Hargreaves")
    np.testing.assert_allclose(ours, theirs, rtol=1e-7, atol=1e-9)


# Which formula, and what makes none.

FULL = WeatherDay(JULY, 12.3, 21.5, 0.0, humidity_percent=73.5, wind_m_per_s=2.1, sun_hours=9.25)


def test_rain_is_not_asked_for() -> None:
    dry = WeatherDay(JULY, 12.3, 21.5, None, 73.5, 2.1, 9.25)
    assert reference_evapotranspiration(dry, 50.8, 100) == reference_evapotranspiration(
        FULL, 50.8, 100
    )


@pytest.mark.parametrize(
    "weather",
    [
        WeatherDay(JULY, 12.3, 21.5, None, None, 2.1, 9.25),
        WeatherDay(JULY, 12.3, 21.5, None, 73.5, None, 9.25),
        WeatherDay(JULY, 12.3, 21.5, None, 73.5, 2.1, None),
    ],
)
def test_hargreaves_where_one_reading_is_missing(weather: WeatherDay) -> None:
    # 0.0023 x (16.9 + 17.8) x sqrt(9.2) x 40.45 MJ x 0.408 = 4.0 mm; 40.45 MJ/m² are pyet's.
    found = reference_evapotranspiration(weather, 50.8, 100)
    assert found is not None
    assert found.method == "Hargreaves"
    assert found.et0_mm == pytest.approx(4.0, abs=0.05)


def test_readings_of_nought_are_readings() -> None:
    dull = WeatherDay(JULY, 12.3, 21.5, 0.0, humidity_percent=0, wind_m_per_s=0, sun_hours=0)
    found = reference_evapotranspiration(dull, 50.8, 100)
    assert found is not None
    assert found.method == "Penman-Monteith"


@pytest.mark.parametrize(
    "weather", [WeatherDay(JULY), WeatherDay(JULY, low_c=12.3), WeatherDay(JULY, high_c=21.5)]
)
def test_none_where_low_or_high_is_not_known(weather: WeatherDay) -> None:
    assert reference_evapotranspiration(weather, 50.8, 100) is None


def test_never_negative() -> None:
    # By hand: under -17.8 °C eq. 52 turns negative; damp calm air that loses heat gathers dew.
    deep_frost = WeatherDay(date(2025, 1, 15), low_c=-40, high_c=-30)
    assert reference_evapotranspiration(deep_frost, 50, 300) == (0.0, "Hargreaves")
    dew = WeatherDay(date(2025, 12, 21), -2, 4, 0, 100, 0, 2)
    assert reference_evapotranspiration(dew, 60, 0) == (0.0, "Penman-Monteith")


def test_wind_dries_in_the_polar_night() -> None:
    # No sun, a mean of 2 °C, 30 % humidity (of 0.53 and 0.94 kPa), a gale: refet's figure.
    theirs = refet.Daily(
        tmin=-2, tmax=6, ea=0.3 * 0.7315, rs=0, uz=12, zw=2, elev=0, lat=80.0, doy=355
    ).eto()[0]
    gale = WeatherDay(date(2025, 12, 21), -2, 6, 0, 30, 12, 0)
    found = reference_evapotranspiration(gale, 80, 0)
    assert found is not None
    assert found.et0_mm == pytest.approx(theirs, abs=0.01)
    still = WeatherDay(date(2025, 12, 21), -12, -6, 0, 80, 0, 0)
    assert reference_evapotranspiration(still, 80, 0) == (0.0, "Penman-Monteith")


@pytest.mark.parametrize("weather", [FULL, WeatherDay(JULY, 12.3, 21.5), WeatherDay(JULY)])
@pytest.mark.parametrize("latitude", [-90.5, 91, nan])
def test_a_latitude_off_the_globe_is_refused(weather: WeatherDay, latitude: float) -> None:
    with pytest.raises(ValueError, match="latitude"):
        reference_evapotranspiration(weather, latitude, 100)


@pytest.mark.parametrize("weather", [FULL, WeatherDay(JULY, 12.3, 21.5), WeatherDay(JULY)])
@pytest.mark.parametrize("elevation_m", [-501, 9001, nan])
def test_an_elevation_that_no_land_has_is_refused(weather: WeatherDay, elevation_m: float) -> None:
    with pytest.raises(ValueError, match="land"):
        reference_evapotranspiration(weather, 50, elevation_m)
    with pytest.raises(ValueError, match="land"):
        air_pressure_kpa(elevation_m)


@pytest.mark.parametrize(
    ("weather", "words"),
    [
        (WeatherDay(JULY, 21, 12), "low of"),
        (WeatherDay(JULY, 21, 12, 0, 70, 2, 9), "low of"),
        (WeatherDay(JULY, 12, 21, 0, -1, 2, 9), "humidity"),
        (WeatherDay(JULY, 12, 21, 0, 101, 2, 9), "humidity"),
        (WeatherDay(JULY, 12, 21, 0, 70, -0.1, 9), "wind"),
        (WeatherDay(JULY, 12, 21, 0, 70, 101, 9), "wind"),
        (WeatherDay(JULY, 12, 21, 0, 70, 2, 24.5), "sunshine"),
        (WeatherDay(JULY, 12, 21, 0, 70, 2, -1), "sunshine"),
    ],
)
def test_weather_that_makes_no_sense_is_refused(weather: WeatherDay, words: str) -> None:
    with pytest.raises(ValueError, match=words):
        reference_evapotranspiration(weather, 50, 100)


@pytest.mark.parametrize("height_m", [-1, 0, 0.4, nan])
def test_wind_measured_at_the_ground_is_refused(height_m: float) -> None:
    with pytest.raises(ValueError, match="wind"):
        wind_at_two_metres_m_per_s(3, height_m)


def test_wind_is_carried_over_from_half_a_metre_on() -> None:
    """FAO-56 eq. 47 at 0.5 m: 3 x 4.87 / ln(67.8 x 0.5 - 5.42) = 14.61 / ln 28.48."""
    assert wind_at_two_metres_m_per_s(3, 0.5) == pytest.approx(4.3621, abs=0.001)
