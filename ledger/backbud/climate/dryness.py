"""Tells whether a place is dry in a time of the year: whether its rain is far from what evaporates.

The aridity index of the United Nations Environment Programme's World Atlas of Desertification (2nd
ed. 1997; from memory): rain over potential evapotranspiration; under 0.2 a place is arid, under 0.5
semi-arid.
"""

from __future__ import annotations

from datetime import date

from backbud.climate.days import MonthlyMeans
from backbud.climate.evapotranspiration import hargreaves_mm
from backbud.climate.radiation import extraterrestrial_radiation_mj_per_m2

ARID_UNDER, SEMI_ARID_UNDER = 0.2, 0.5
# A day in the middle of each month stands for it; 30 days are a month.
_MIDDLE, _DAYS = 15, 30


def aridity(means: MonthlyMeans, latitude: float, first: date, last: date) -> float | None:
    """Rain over evapotranspiration (Hargreaves, FAO-56 eq. 52) in the months from a day to another,
    at a latitude in degrees north; None where the rain is not known."""
    if not means.rain_mm:
        return None
    rain = evaporates = 0.0
    year, month = first.year, first.month
    while (year, month) <= (last.year, last.month):
        n, day = month - 1, date(year, month, _MIDDLE)
        sun = extraterrestrial_radiation_mj_per_m2(latitude, day)
        rain += means.rain_mm[n]
        evaporates += hargreaves_mm(means.low_c[n], means.high_c[n], sun) * _DAYS
        year, month = (year, month + 1) if month < 12 else (year + 1, 1)
    return rain / evaporates if evaporates > 0 else None
