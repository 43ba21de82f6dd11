"""Twelve monthly means go in; the mean expected over some days comes out."""

from __future__ import annotations

import calendar
from collections.abc import Sequence
from datetime import date, timedelta


def mean_of_days_c(monthly_means_c: Sequence[float], day: date, days: int) -> float:
    """Return the mean temperature (°C) expected over `days` days from `day`.

    `monthly_means_c`: twelve means, January first. Between the middles of months the mean is
    taken to change evenly. ValueError where there are not twelve, or no day.
    """
    if len(monthly_means_c) != 12:
        raise ValueError(f"twelve monthly means are needed, not {len(monthly_means_c)}")
    if days < 1:
        raise ValueError("at least one day is needed")
    total = sum(
        _mean_of_day_c(monthly_means_c, day + timedelta(days=offset)) for offset in range(days)
    )
    return total / days


def _mean_of_day_c(means: Sequence[float], day: date) -> float:
    length = calendar.monthrange(day.year, day.month)[1]
    # How far the day is from the middle of its month, as a share of a month.
    distance = (day.day - 0.5) / length - 0.5
    here = means[day.month - 1]
    neighbour = means[(day.month - 1 + (1 if distance > 0 else -1)) % 12]
    return here + (neighbour - here) * abs(distance)
