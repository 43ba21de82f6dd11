"""How much water the weather of a day draws from a sward: reference evapotranspiration, ET0.

Everything is after FAO Irrigation and Drainage Paper 56 (Allen, Pereira, Raes & Smith 1998),
"FAO-56" below: the water that a well watered, short and even grass sward would give to the air. A
tree in a pot is no sward, so this is a measure to compare days and places by.
"""

from __future__ import annotations

from math import exp, log, sqrt
from typing import Literal, NamedTuple

from backbud.climate.days import WeatherDay
from backbud.climate.radiation import (
    check_air,
    check_elevation,
    check_latitude,
    clear_sky_radiation_mj_per_m2,
    extraterrestrial_radiation_mj_per_m2,
    net_radiation_mj_per_m2,
    solar_radiation_from_sunshine_mj_per_m2,
)

# Water that a MJ evaporates from a square metre, at 20 °C: FAO-56 eq. 20.
MM_PER_MJ = 0.408
# Wide of the strongest day that was measured: common practice, no source.
FASTEST_WIND_M_PER_S = 100

Method = Literal["Penman-Monteith", "Hargreaves"]


class ReferenceEvapotranspiration(NamedTuple):
    """Reference evapotranspiration of one day in mm, never negative, and how it was reckoned."""

    et0_mm: float
    method: Method


def reference_evapotranspiration(
    weather: WeatherDay, latitude_degrees: float, elevation_m: float
) -> ReferenceEvapotranspiration | None:
    """Return the day's reference evapotranspiration (mm); None unless low and high are known.

    By Penman-Monteith (FAO-56 eq. 6) where humidity, wind and sunshine were all written down, else
    by Hargreaves (eq. 52), which asks for low and high alone. ValueError for a latitude outside
    -90 to 90, or for an elevation or weather that makes no sense.
    """
    check_latitude(latitude_degrees)
    check_elevation(elevation_m)
    low_c, high_c = weather.low_c, weather.high_c
    if low_c is None or high_c is None:
        return None
    humidity, wind, sun = weather.humidity_percent, weather.wind_m_per_s, weather.sun_hours
    if humidity is None or wind is None or sun is None:
        extraterrestrial = extraterrestrial_radiation_mj_per_m2(latitude_degrees, weather.day)
        return ReferenceEvapotranspiration(
            hargreaves_mm(low_c, high_c, extraterrestrial), "Hargreaves"
        )
    vapour_pressure = actual_vapour_pressure_kpa(low_c, high_c, humidity)
    net_radiation = net_radiation_mj_per_m2(
        solar_radiation_from_sunshine_mj_per_m2(latitude_degrees, weather.day, sun),
        clear_sky_radiation_mj_per_m2(latitude_degrees, weather.day, elevation_m),
        low_c,
        high_c,
        vapour_pressure,
    )
    return ReferenceEvapotranspiration(
        penman_monteith_mm(low_c, high_c, net_radiation, wind, vapour_pressure, elevation_m),
        "Penman-Monteith",
    )


def hargreaves_mm(low_c: float, high_c: float, extraterrestrial_mj_per_m2: float) -> float:
    """Return the day's reference evapotranspiration in mm, from low and high in °C: FAO-56 eq. 52.

    Never below 0. It knows no wind and no damp: it reads high in damp air and low in strong wind
    (from memory of FAO-56). ValueError for air that makes no sense.
    """
    check_air(low_c, high_c)
    mean_c = (low_c + high_c) / 2
    extraterrestrial_mm = MM_PER_MJ * extraterrestrial_mj_per_m2
    return max(0.0, 0.0023 * (mean_c + 17.8) * sqrt(high_c - low_c) * extraterrestrial_mm)


def penman_monteith_mm(
    low_c: float,
    high_c: float,
    net_mj_per_m2: float,
    wind_m_per_s: float,
    vapour_pressure_kpa: float,
    elevation_m: float,
    soil_heat_mj_per_m2: float = 0.0,
) -> float:
    """Return the day's reference evapotranspiration in mm: FAO-56 eq. 6.

    Low and high in °C, wind at 2 m, the air's actual vapour pressure, and the heat that goes into
    the ground, which is next to nothing over a day (eq. 42). Never below 0: dew is not counted.
    ValueError for air, wind or an elevation that makes no sense.
    """
    check_air(low_c, high_c)
    if not 0 <= wind_m_per_s <= FASTEST_WIND_M_PER_S:
        raise ValueError(f"no day has a mean wind of {wind_m_per_s} m/s")
    mean_c = (low_c + high_c) / 2
    slope = slope_of_vapour_pressure_kpa_per_c(mean_c)
    psychrometric = psychrometric_constant_kpa_per_c(elevation_m)
    deficit_kpa = mean_saturation_vapour_pressure_kpa(low_c, high_c) - vapour_pressure_kpa
    by_radiation = MM_PER_MJ * slope * (net_mj_per_m2 - soil_heat_mj_per_m2)
    by_wind = psychrometric * 900 / (mean_c + 273) * wind_m_per_s * deficit_kpa
    resistance = slope + psychrometric * (1 + 0.34 * wind_m_per_s)
    return max(0.0, (by_radiation + by_wind) / resistance)


def saturation_vapour_pressure_kpa(air_c: float) -> float:
    """Return the pressure of vapour that air of a temperature (°C) can hold, kPa: FAO-56 eq. 11."""
    return 0.6108 * exp(17.27 * air_c / (air_c + 237.3))


def mean_saturation_vapour_pressure_kpa(low_c: float, high_c: float) -> float:
    """Return a day's mean saturation vapour pressure in kPa, from low and high: FAO-56 eq. 12."""
    return (saturation_vapour_pressure_kpa(low_c) + saturation_vapour_pressure_kpa(high_c)) / 2


def slope_of_vapour_pressure_kpa_per_c(air_c: float) -> float:
    """Return how fast saturation pressure grows with temperature, kPa per °C: FAO-56 eq. 13."""
    return 4098 * saturation_vapour_pressure_kpa(air_c) / (air_c + 237.3) ** 2


def actual_vapour_pressure_kpa(low_c: float, high_c: float, humidity_percent: float) -> float:
    """Return the vapour pressure in kPa from the day's mean relative humidity: FAO-56 eq. 19.

    ValueError for a humidity outside 0 to 100.
    """
    if not 0 <= humidity_percent <= 100:
        raise ValueError(f"relative humidity is 0 to 100 %, not {humidity_percent} %")
    return humidity_percent / 100 * mean_saturation_vapour_pressure_kpa(low_c, high_c)


def air_pressure_kpa(elevation_m: float) -> float:
    """Return the usual air pressure at an elevation, in kPa: FAO-56 eq. 7.

    ValueError for an elevation that no land has.
    """
    check_elevation(elevation_m)
    return float(101.3 * ((293 - 0.0065 * elevation_m) / 293) ** 5.26)


def psychrometric_constant_kpa_per_c(elevation_m: float) -> float:
    """Return the psychrometric constant at an elevation, in kPa per °C: FAO-56 eq. 8.

    ValueError for an elevation that no land has.
    """
    return 0.665e-3 * air_pressure_kpa(elevation_m)


def wind_at_two_metres_m_per_s(wind_m_per_s: float, height_m: float) -> float:
    """Return the wind at 2 m from one measured at another height: FAO-56 eq. 47.

    Weather stations measure at 10 m. ValueError for a height under half a metre: the formula is
    made for open short grass and fails near the ground (the half metre is ours).
    """
    if not height_m >= 0.5:
        raise ValueError(f"the wind cannot be carried over from {height_m} m")
    return wind_m_per_s * 4.87 / log(67.8 * height_m - 5.42)
