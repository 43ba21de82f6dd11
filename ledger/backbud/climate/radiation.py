"""How long a day is at a latitude, and how much of the sun's radiation reaches the ground.

Everything is after FAO Irrigation and Drainage Paper 56 (Allen, Pereira, Raes & Smith 1998),
"FAO-56" below, which gives radiation in MJ per square metre and day on level ground.
"""

from __future__ import annotations

from datetime import date
from math import acos, cos, pi, radians, sin, sqrt, tan

SOLAR_CONSTANT_MJ_PER_M2_MINUTE = 0.0820
STEFAN_BOLTZMANN_MJ_PER_K4_M2_DAY = 4.903e-9
# The share of the radiation above the air that reaches the ground under cloud, and what full
# sunshine adds: FAO-56's figures where nobody has fitted them to the place.
OVERCAST_SHARE = 0.25
SUNSHINE_SHARE = 0.50
# FAO-56's coefficient of eq. 50: inland, and within reach of the sea's air.
INLAND_RANGE_SHARE = 0.16
COAST_RANGE_SHARE = 0.19
ALBEDO_OF_GRASS = 0.23
# ASCE-EWRI 2005 (as `refet` has it): the air under the thickest cloud lets through no less.
LEAST_SHARE_OF_CLEAR_SKY = 0.3


def inverse_relative_distance(day: date) -> float:
    """Return the inverse relative distance from earth to sun (no unit, about 1): FAO-56 eq. 23."""
    return 1 + 0.033 * cos(_angle_of_year(day))


def declination_radians(day: date) -> float:
    """Return the sun's declination in radians, positive in the northern summer: FAO-56 eq. 24.

    The formula is a plain sine; in early October it is more than a degree from the true sun.
    """
    return 0.409 * sin(_angle_of_year(day) - 1.39)


def sunset_hour_angle_radians(latitude_degrees: float, day: date) -> float:
    """Return the hour angle of sunset in radians: FAO-56 eq. 25.

    0 where the sun stays down all day, pi where it stays up. ValueError for a latitude outside
    -90 to 90.
    """
    latitude = _latitude_radians(latitude_degrees)
    cosine = -tan(latitude) * tan(declination_radians(day))
    return acos(max(-1.0, min(1.0, cosine)))


def daylight_hours(latitude_degrees: float, day: date) -> float:
    """Return the hours from sunrise to sunset, 0 to 24: FAO-56 eq. 34.

    Reckoned by the sun's centre without refraction, so shorter than the day of an almanac: by
    six or seven minutes at the equator, by a quarter of an hour and more towards the poles.
    ValueError for a latitude outside -90 to 90.
    """
    return 24 * sunset_hour_angle_radians(latitude_degrees, day) / pi


def extraterrestrial_radiation_mj_per_m2(latitude_degrees: float, day: date) -> float:
    """Return the day's radiation above the air, in MJ/m²: FAO-56 eq. 21.

    FAO-56 warns that it is less sure beyond 55 degrees in winter (as `PyETo` quotes it).
    ValueError for a latitude outside -90 to 90.
    """
    latitude = _latitude_radians(latitude_degrees)
    declination = declination_radians(day)
    sunset = sunset_hour_angle_radians(latitude_degrees, day)
    height_of_sun = sunset * sin(latitude) * sin(declination) + (
        cos(latitude) * cos(declination) * sin(sunset)
    )
    at_noon = SOLAR_CONSTANT_MJ_PER_M2_MINUTE * inverse_relative_distance(day)
    return 24 * 60 / pi * at_noon * height_of_sun


def clear_sky_radiation_mj_per_m2(latitude_degrees: float, day: date, elevation_m: float) -> float:
    """Return what reaches the ground on a cloudless day, in MJ/m²: FAO-56 eq. 37.

    ValueError for a latitude outside -90 to 90, or an elevation that no land has.
    """
    check_elevation(elevation_m)
    share = OVERCAST_SHARE + SUNSHINE_SHARE + 2e-5 * elevation_m
    return share * extraterrestrial_radiation_mj_per_m2(latitude_degrees, day)


def solar_radiation_from_sunshine_mj_per_m2(
    latitude_degrees: float, day: date, sun_hours: float
) -> float:
    """Return what reaches the ground, in MJ/m², from hours of bright sunshine: FAO-56 eq. 35.

    This is Ångström's formula. More sunshine than daylight counts as sunshine all day: a recorder
    also sees the sun that refraction lifts. ValueError for a latitude outside -90 to 90, or for
    hours outside 0 to 24.
    """
    if not 0 <= sun_hours <= 24:
        raise ValueError(f"a day has no {sun_hours} hours of sunshine")
    daylight = daylight_hours(latitude_degrees, day)
    if daylight == 0:
        return 0.0
    share = OVERCAST_SHARE + SUNSHINE_SHARE * min(1.0, sun_hours / daylight)
    return share * extraterrestrial_radiation_mj_per_m2(latitude_degrees, day)


def solar_radiation_from_range_mj_per_m2(
    latitude_degrees: float,
    day: date,
    elevation_m: float,
    low_c: float,
    high_c: float,
    *,
    by_the_sea: bool = False,
) -> float:
    """Return what reaches the ground, in MJ/m², from the day's low and high in °C: FAO-56 eq. 50.

    Never more than a clear sky gives (eq. 37): a wide range alone does not make more sun.
    ValueError for a latitude outside -90 to 90, or for an elevation or air that makes no sense.
    """
    check_air(low_c, high_c)
    share = (COAST_RANGE_SHARE if by_the_sea else INLAND_RANGE_SHARE) * sqrt(high_c - low_c)
    return min(
        share * extraterrestrial_radiation_mj_per_m2(latitude_degrees, day),
        clear_sky_radiation_mj_per_m2(latitude_degrees, day, elevation_m),
    )


def net_short_wave_mj_per_m2(solar_mj_per_m2: float) -> float:
    """Return what a grass sward keeps of the day's solar radiation, in MJ/m²: FAO-56 eq. 38."""
    return (1 - ALBEDO_OF_GRASS) * solar_mj_per_m2


def net_long_wave_mj_per_m2(
    solar_mj_per_m2: float,
    clear_sky_mj_per_m2: float,
    low_c: float,
    high_c: float,
    vapour_pressure_kpa: float,
) -> float:
    """Return the day's net loss of heat to the sky, in MJ/m²: FAO-56 eq. 39.

    Where the sun stays down nothing tells the cloud, and the sky is taken to be clear, as `refet`
    does. ValueError for air that makes no sense, or a vapour pressure below 0.
    """
    check_air(low_c, high_c)
    if not vapour_pressure_kpa >= 0:
        raise ValueError(f"a vapour pressure cannot be {vapour_pressure_kpa} kPa")
    share_of_clear_sky = solar_mj_per_m2 / clear_sky_mj_per_m2 if clear_sky_mj_per_m2 > 0 else 1.0
    clearness = 1.35 * max(LEAST_SHARE_OF_CLEAR_SKY, min(1.0, share_of_clear_sky)) - 0.35
    black_body = STEFAN_BOLTZMANN_MJ_PER_K4_M2_DAY * (_kelvin(low_c) ** 4 + _kelvin(high_c) ** 4)
    return black_body / 2 * (0.34 - 0.14 * sqrt(vapour_pressure_kpa)) * clearness


def net_radiation_mj_per_m2(
    solar_mj_per_m2: float,
    clear_sky_mj_per_m2: float,
    low_c: float,
    high_c: float,
    vapour_pressure_kpa: float,
) -> float:
    """Return the day's net radiation at a grass sward, in MJ/m²: FAO-56 eq. 40.

    Below 0 on a day that loses more to the sky than the sun brings. ValueError for air that makes
    no sense, or a vapour pressure below 0.
    """
    return net_short_wave_mj_per_m2(solar_mj_per_m2) - net_long_wave_mj_per_m2(
        solar_mj_per_m2,
        clear_sky_mj_per_m2,
        low_c,
        high_c,
        vapour_pressure_kpa,
    )


def check_air(low_c: float, high_c: float) -> None:
    """Raise ValueError unless low and high (°C) are in order and within what air on earth reaches.

    The bounds are wide of every weather station's record: common practice, no source.
    """
    if not -100 <= low_c <= high_c <= 70:
        raise ValueError(f"no day has a low of {low_c} °C and a high of {high_c} °C")


def is_elevation(elevation_m: float) -> bool:
    """Whether dry land can lie at `elevation_m`: -500 to 9000 m, rounded."""
    return -500 <= elevation_m <= 9000


def check_elevation(elevation_m: float) -> None:
    """Raise ValueError unless dry land can lie at `elevation_m`."""
    if not is_elevation(elevation_m):
        raise ValueError(f"no land lies at {elevation_m} m")


def check_latitude(latitude_degrees: float) -> None:
    """Raise ValueError unless `latitude_degrees` lies within -90 (south) to 90 (north)."""
    if not -90 <= latitude_degrees <= 90:
        raise ValueError(f"a latitude lies between -90 and 90 degrees, not at {latitude_degrees}")


def _latitude_radians(latitude_degrees: float) -> float:
    check_latitude(latitude_degrees)
    return radians(latitude_degrees)


def _angle_of_year(day: date) -> float:
    # FAO-56 divides by 365 in leap years too.
    return 2 * pi * day.timetuple().tm_yday / 365


def _kelvin(celsius: float) -> float:
    # FAO-56 has 273.16 here, not 273.15.
    return celsius + 273.16
