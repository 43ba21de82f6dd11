"""How a winter's chill is summed from lows and highs: each night lies between two days."""

from __future__ import annotations

from datetime import date, timedelta

import pytest
from tests.climate.conftest import even_days, even_means

from backbud.climate.air import OPEN_AIR, PlaceAir
from backbud.climate.chill import chill_portions
from backbud.climate.days import WeatherDay
from backbud.climate.hourly import DayRange, hours_of_days_c
from backbud.climate.winter import Winters, chill_trace

# Light and dark are of twelve hours at the equator, within minutes.
EQUATOR = 0.0


def test_each_night_falls_to_the_low_of_the_next_morning() -> None:
    """Nights of 1 and 9 °C in turn, days of 12. The sum is that of the hours of all days on end,
    each of which knows its two neighbours."""
    first = date(2026, 9, 25)
    lows = [1.0 if n % 2 else 9.0 for n in range(200)]
    days = [first + timedelta(days=n) for n in range(200)]
    measured = {day: WeatherDay(day, low, 12.0) for day, low in zip(days, lows, strict=True)}
    air = PlaceAir(measured, even_means(5.0, 12.0), days[-1], "means")
    found = chill_trace(air, OPEN_AIR, date(2027, 1, 1), EQUATOR)
    # From the day before 1 October, the 92nd before New Year, on.
    begins = (date(2026, 9, 30) - first).days
    ranges = [DayRange(low, 12.0, 12.0) for low in lows[begins:]]
    hours = list(hours_of_days_c(ranges))[24:]
    for at in (date(2026, 10, 31), date(2026, 12, 31), date(2027, 3, 1)):
        so_far = hours[: 24 * ((at - date(2026, 10, 1)).days + 1)]
        assert found.at(at) == pytest.approx(chill_portions(so_far).portions, abs=0.02)


def test_winters_on_record_are_summed_where_nobody_did_before() -> None:
    """Four winters alike, at a steady 6 °C: a portion in 28 to 29 hours (test_chill.py), so about
    155 in 182 days; the winter round the year itself is not among them."""
    days = even_days(date(2022, 9, 1), 5 * 365, 6.0, 6.0)
    air = PlaceAir(days, even_means(6.0, 6.0), date(2027, 8, 1), "means")
    found = Winters(air, OPEN_AIR, EQUATOR).on_record(date(2027, 1, 1))
    assert set(found) == {date(year, 1, 1) for year in (2023, 2024, 2025, 2026)}
    for trace in found.values():
        assert 140 < trace.sums[-1] < 160
