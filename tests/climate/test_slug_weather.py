"""Damp mild nights, counted by hand on both sides; the figures are ours, no source."""

from __future__ import annotations

from datetime import date, timedelta

import pytest

from backbud.climate.days import WeatherDay
from backbud.climate.slug_weather import slug_nights

LAST = date(2027, 4, 10)


@pytest.mark.parametrize(
    ("rain_mm", "lows_c", "found"),
    [
        # Ten millimetres in the seven days up to the 10th, and its last three nights of 4 °C.
        ({0: 10.0}, {}, True),
        ({0: 9.9}, {}, False),
        ({6: 10.0}, {}, True),
        ({7: 10.0}, {}, False),
        ({0: 10.0}, {0: 3.9}, False),
        ({0: 10.0}, {2: 3.9}, False),
        ({0: 10.0}, {3: 3.9}, True),
    ],
)
def test_slugs_are_about_after_a_damp_week_and_three_mild_nights(rain_mm, lows_c, found) -> None:
    """By how many days before the 10th: the rain, and the lows that are not 4 °C."""
    days = {
        (day := LAST - timedelta(days=n)): WeatherDay(
            day, lows_c.get(n, 4.0), 12.0, rain_mm.get(n, 0.0)
        )
        for n in range(12)
    }
    told = slug_nights(days, LAST, LAST)
    assert (told is not None) is found
    assert told is None or (told.day == LAST and told.rain_mm == 10.0)
