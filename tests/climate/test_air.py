"""What the climate leads to expect of a day: its low is never above its high."""

from __future__ import annotations

from datetime import date, timedelta

from backbud.climate.air import PlaceAir
from backbud.climate.days import MonthlyMeans


def test_curves_that_cross_where_a_months_means_are_as_one_are_set_in_order() -> None:
    """Lows of 0 and in July 10 °C, highs of 10 °C all the year: the curve of the lows that keeps
    July's mean is above 10 °C in the middle of it, and the highs are 10 °C on every day."""
    means = MonthlyMeans((0.0,) * 6 + (10.0,) + (0.0,) * 5, (10.0,) * 12)
    air = PlaceAir({}, means, date(2027, 6, 1), "the monthly means")
    july = air.expected(date(2027, 7, 16))
    assert round(july.low_c, 6) == 10.0
    assert july.high_c > 11
    year = [air.expected(date(2027, 1, 1) + timedelta(days=n)) for n in range(365)]
    assert all(day.low_c <= day.high_c for day in year)
