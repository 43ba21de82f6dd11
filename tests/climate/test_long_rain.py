"""When it has rained long, counted by hand; the figures are common practice, no source."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, timedelta

import pytest

from backbud.climate.days import WeatherDay
from backbud.climate.long_rain import wet_spells

FIRST = date(2027, 5, 1)


def spells(rain_mm: Sequence[float]) -> list[date]:
    """The days that are told of so much rain from 1 May on."""
    days = [FIRST + timedelta(days=n) for n in range(len(rain_mm))]
    seen = {day: WeatherDay(day, 5.0, 15.0, mm) for day, mm in zip(days, rain_mm, strict=True)}
    return [spell.day for spell in wet_spells(seen, days[0], days[-1])]


@pytest.mark.parametrize(
    ("rain_mm", "found"),
    [
        # 80 mm in ten days of which eight are wet, from 1 mm on.
        ([8.0] * 10, [date(2027, 5, 10)]),
        ([8.0] * 9 + [7.9], []),
        ([0.0, 0.0] + [10.0] * 8, [date(2027, 5, 10)]),
        ([0.0, 0.0] + [13.0] * 7 + [0.9], []),
        ([0.0, 0.0] + [13.0] * 7 + [1.0], [date(2027, 5, 10)]),
    ],
)
def test_it_has_rained_long_after_eight_wet_days_of_ten_and_80_mm(rain_mm, found) -> None:
    assert spells(rain_mm) == found


def test_rain_that_goes_on_is_told_again_after_a_while() -> None:
    found = spells([8.0] * 200)
    assert found[0] == date(2027, 5, 10)
    assert len(found) > 1
