"""How much heat a day adds above a base, or how much cold below a threshold.

All temperatures are in °C, so all degree-days are in °C·d.
"""

from __future__ import annotations

import math


def degree_days_by_mean(
    low_c: float, high_c: float, base_c: float, upper_c: float | None = None
) -> float:
    """Return the day's growing degree-days, its mean held between `base_c` and `upper_c`.

    Method 1 of McMaster & Wilhelm 1997 (Agric. For. Meteorol. 87: 291-300): the mean of low and
    high is compared with the base. `upper_c`, where given, holds the mean from above in the same
    way (from memory of the paper). A cold night takes away from a warm day, so early spring counts
    for little.
    ValueError where the low is above the high, or the base not under the upper threshold.
    """
    _check(low_c, high_c, base_c, upper_c)
    return _held((low_c + high_c) / 2, base_c, upper_c) - base_c


def degree_days_by_limits(
    low_c: float, high_c: float, base_c: float, upper_c: float | None = None
) -> float:
    """Return the day's growing degree-days, low and high each held before their mean is taken.

    Method 2 of McMaster & Wilhelm 1997: low and high are each compared with the base, and with
    `upper_c` (from memory of the paper) where given. Never less than method 1 where there is no
    upper threshold.
    ValueError where the low is above the high, or the base not under the upper threshold.
    """
    _check(low_c, high_c, base_c, upper_c)
    return (_held(low_c, base_c, upper_c) + _held(high_c, base_c, upper_c)) / 2 - base_c


def degree_days_by_sine(
    low_c: float, high_c: float, base_c: float, upper_c: float | None = None
) -> float:
    """Return the day's growing degree-days under one sine wave through its low and high.

    Baskerville & Emin 1969 (Ecology 50: 514-517). `upper_c`, where given, is a horizontal cut-off:
    what lies above it counts as if it were at it.
    ValueError where the low is above the high, or the base not under the upper threshold.
    """
    _check(low_c, high_c, base_c, upper_c)
    above_base = _sine_above(low_c, high_c, base_c)
    return above_base if upper_c is None else above_base - _sine_above(low_c, high_c, upper_c)


def cold_degree_days(low_c: float, high_c: float, threshold_c: float) -> float:
    """Return the day's degree-days under `threshold_c`, as autumn counts them towards leaf fall.

    The same sine wave as in `degree_days_by_sine` (Baskerville & Emin 1969), upside down.
    ValueError where the low is above the high.
    """
    _check(low_c, high_c, threshold_c, None)
    return _sine_above(-high_c, -low_c, -threshold_c)


def _check(low_c: float, high_c: float, base_c: float, upper_c: float | None) -> None:
    # Written so that a NaN, which compares as False with everything, is refused as well.
    if not low_c <= high_c:
        raise ValueError(f"a day's low ({low_c} °C) cannot be above its high ({high_c} °C)")
    if math.isnan(base_c):
        raise ValueError("the base must be a number of °C")
    if upper_c is not None and not base_c < upper_c:
        raise ValueError(f"the base ({base_c} °C) must be under the upper threshold ({upper_c} °C)")


def _held(temperature_c: float, base_c: float, upper_c: float | None) -> float:
    held_c = max(temperature_c, base_c)
    return held_c if upper_c is None else min(held_c, upper_c)


def _sine_above(low_c: float, high_c: float, level_c: float) -> float:
    """Return the area between the day's sine wave and the level under it."""
    mean_c = (low_c + high_c) / 2
    if high_c <= level_c:
        return 0.0
    if low_c >= level_c:
        return mean_c - level_c
    amplitude_c = (high_c - low_c) / 2
    rises_through = math.asin((level_c - mean_c) / amplitude_c)
    return (
        amplitude_c * math.cos(rises_through) - (level_c - mean_c) * (math.pi / 2 - rises_through)
    ) / math.pi
