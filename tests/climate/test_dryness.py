"""How dry a time of the year is, against the classes of the United Nations' atlas.

World Atlas of Desertification, 2nd ed. 1997, from memory: arid 0.05 to 0.2, semi-arid 0.2 to 0.5,
humid over 0.65. Its map has Phoenix arid, Denver semi-arid, Dublin and Taipei humid. Monthly means
of 1991 to 2020, from memory.
"""

from __future__ import annotations

from datetime import date

import pytest

from backbud.climate.days import MonthlyMeans
from backbud.climate.dryness import ARID_UNDER, aridity

PHOENIX = MonthlyMeans(
    (8.2, 9.6, 12.6, 16.0, 20.9, 25.4, 29.2, 29.0, 25.6, 18.7, 12.1, 7.6),
    (20.0, 21.9, 26.0, 30.3, 35.6, 41.0, 41.5, 40.8, 37.8, 31.5, 24.7, 19.2),
    (22, 22, 21, 6, 3, 1, 23, 24, 15, 14, 14, 19),
)
DENVER = MonthlyMeans(
    (-8.0, -7.3, -2.9, 0.8, 6.4, 11.9, 15.4, 14.5, 9.4, 2.1, -3.9, -8.0),
    (7.1, 7.9, 13.1, 16.4, 21.8, 28.2, 32.3, 31.2, 26.6, 18.6, 11.8, 6.9),
    (10, 11, 22, 43, 55, 50, 54, 46, 34, 26, 16, 9),
)
DUBLIN = MonthlyMeans(
    (2.7, 2.6, 3.3, 4.6, 7.1, 9.8, 11.8, 11.6, 9.8, 7.4, 4.7, 3.0),
    (8.2, 8.6, 10.2, 12.2, 14.9, 17.6, 19.4, 19.1, 17.1, 13.8, 10.6, 8.6),
    (63, 49, 53, 52, 60, 62, 57, 72, 60, 76, 79, 73),
)
YEAR = date(2027, 1, 1), date(2027, 12, 31)


@pytest.mark.parametrize(
    ("means", "latitude", "least", "most"),
    [(PHOENIX, 33.4, 0.05, 0.2), (DENVER, 39.7, 0.2, 0.5), (DUBLIN, 53.4, 0.65, 9.0)],
)
def test_a_place_is_of_the_class_of_the_atlas(means, latitude, least, most) -> None:
    found = aridity(means, latitude, *YEAR)
    assert found is not None and least < found < most


def test_of_the_months_that_are_asked_about_alone() -> None:
    """Lyon, July: 5.0 mm a day by Hargreaves (FAO-56, example 20), so 150 mm in 30 days: 30 mm of
    rain are 0.2 of it. May to July has more rain here; July alone is at the limit."""
    lows, highs = [5.0] * 12, [15.0] * 12
    lows[6], highs[6] = 14.8, 26.6
    means = MonthlyMeans(tuple(lows), tuple(highs), (90.0,) * 6 + (30.0,) + (90.0,) * 5)
    july = aridity(means, 45.72, date(2027, 7, 1), date(2027, 7, 31))
    assert july == pytest.approx(0.2, abs=0.005) and ARID_UNDER == 0.2
    spring = aridity(means, 45.72, date(2027, 5, 20), date(2027, 7, 3))
    assert spring is not None and spring > 0.4


def test_december_goes_on_in_january_and_without_rain_nothing_is_known() -> None:
    turn = aridity(PHOENIX, 33.4, date(2027, 12, 20), date(2028, 1, 3))
    december = aridity(PHOENIX, 33.4, date(2027, 12, 1), date(2027, 12, 31))
    january = aridity(PHOENIX, 33.4, date(2028, 1, 1), date(2028, 1, 31))
    assert turn is not None and december is not None and january is not None
    assert min(december, january) < turn < max(december, january)
    assert aridity(MonthlyMeans(PHOENIX.low_c, PHOENIX.high_c), 33.4, *YEAR) is None


def test_december_counts_where_a_time_crosses_new_year() -> None:
    """All the rain of November to January falls in December: 60 mm in three months alike."""
    rain = (0.0,) * 11 + (60.0,)
    means = MonthlyMeans((5.0,) * 12, (15.0,) * 12, rain)
    alone = aridity(means, 0.0, date(2026, 12, 1), date(2026, 12, 31))
    three = aridity(means, 0.0, date(2026, 11, 1), date(2027, 1, 31))
    assert alone is not None and three is not None
    # At the equator a month evaporates as much as the next, within a twentieth.
    assert three == pytest.approx(alone / 3, rel=0.05)
