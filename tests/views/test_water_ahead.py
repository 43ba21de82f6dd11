"""The water of the days ahead beside the average year, in relative terms, and rain that counts.

Hargreaves on one latitude and day: (mean + 17.8) x root of the range. A usual day of 5 to 15 °C has
27.8 x 3.162 = 87.9; one of 10 to 26 °C has 35.8 x 4 = 143.2, 163 % of it; one of 1 to 6 °C has
21.3 x 2.236 = 47.6, 54 %.
"""

from __future__ import annotations

from datetime import date, timedelta

import pytest

from backbud.climate.air import OPEN_AIR, PlaceAir
from backbud.climate.days import MonthlyMeans
from backbud.climate.forecast import Forecast, ForecastDay
from backbud.climate.outlook import Outlook
from backbud.pages.ahead import water_said
from backbud.views.ahead import water_ahead

TODAY = date(2027, 3, 10)
EVEN = MonthlyMeans((5.0,) * 12, (15.0,) * 12)


def told(low: float, high: float, rain: tuple[float, ...] = (0.0,) * 5, *, open_to_it: bool = True):
    days = [TODAY + timedelta(days=n) for n in range(1, len(rain) + 1)]
    said = {day: ForecastDay(day, low, high, mm) for day, mm in zip(days, rain, strict=True)}
    air = PlaceAir({}, EVEN, TODAY, "the means", forecast=Forecast(TODAY, said))
    outlook = Outlook(air, OPEN_AIR, latitude=0.0, southern=False)
    return water_ahead("bench", outlook, TODAY, rain_reaches=open_to_it)


@pytest.mark.parametrize(
    ("low", "high", "says", "percent"),
    [(10.0, 26.0, "more", 163), (5.0, 15.0, "as usual", 100), (1.0, 6.0, "less", 54)],
)
def test_warm_days_ask_for_more_and_cold_ones_for_less(low, high, says, percent):
    found = told(low, high)
    assert (found.says, found.percent) == (says, percent)


def test_only_rain_that_passes_the_canopy_counts_and_only_where_it_falls():
    rain = (4.9, 5.0, 0.0, 12.3, 0.0)
    found = told(5.0, 15.0, rain)
    assert (found.rain_mm, found.rain_days) == (17.3, (date(2027, 3, 12), date(2027, 3, 14)))
    assert told(5.0, 15.0, rain, open_to_it=False).rain_days == ()
    assert water_said(found) == (
        "water as usual for the next 5 days; 17 mm of rain that counts (Friday, Sunday)."
    )
    assert water_said(told(10.0, 26.0)) == (
        "more water than usual for the next 5 days, about 163 % of it; no rain that counts."
    )


def test_a_forecast_of_fewer_days_says_nothing_of_water():
    assert told(5.0, 15.0, (0.0,) * 4) is None
