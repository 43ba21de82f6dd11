"""Hot times of a year, parted by a cooler time or by the rains; days are counted by hand.

Monthly means of Delhi and Taipei, 1991 to 2020, from memory. India's monsoon reaches Delhi about 27
June and leaves it in the last days of September (India Meteorological Department, from memory); so
the rains cool July and August. Taipei's hottest month is July, with 214 mm: no rain cools it.
"""

from __future__ import annotations

from datetime import date, timedelta

import pytest

from backbud.climate.air import OPEN_AIR, PlaceAir
from backbud.climate.days import MonthlyMeans
from backbud.climate.hot_spells import hot_spells, rainy_months
from backbud.climate.outlook import Outlook

DELHI = MonthlyMeans(
    (7.5, 10.3, 15.0, 20.4, 25.0, 27.6, 27.4, 26.7, 24.7, 19.0, 12.9, 8.4),
    (20.1, 24.2, 29.9, 36.7, 40.1, 39.5, 35.4, 34.0, 34.0, 33.0, 28.0, 22.8),
    (20, 22, 16, 16, 31, 82, 210, 247, 130, 15, 6, 8),
)
TAIPEI = MonthlyMeans(
    (13.9, 14.2, 15.8, 19.0, 22.2, 24.6, 26.3, 26.1, 24.8, 22.3, 19.3, 15.6),
    (19.6, 20.4, 23.3, 26.2, 29.9, 32.9, 35.0, 34.0, 31.5, 28.0, 24.6, 21.0),
    (94, 130, 158, 151, 246, 355, 214, 336, 337, 162, 90, 97),
)
NONE = frozenset[int]()


def days(first: date, last: date) -> list[date]:
    return [first + timedelta(days=n) for n in range((last - first).days + 1)]


def test_rains_break_the_heat_where_their_days_are_cooler_than_the_hottest_month() -> None:
    assert rainy_months(DELHI) == {7, 8}
    assert rainy_months(TAIPEI) == {3, 4, 5, 9, 10}
    assert rainy_months(MonthlyMeans(DELHI.low_c, DELHI.high_c)) == NONE


@pytest.mark.parametrize(
    ("rain_mm", "high_c", "breaks"), [(150, 37.0, True), (149, 37.0, False), (150, 37.1, False)]
)
def test_how_much_rain_and_how_much_cooler(rain_mm, high_c, breaks) -> None:
    """150 mm and more, and 3 K under a hottest month of 40 °C."""
    highs = (20.0,) * 5 + (40.0, high_c) + (20.0,) * 5
    means = MonthlyMeans((10.0,) * 12, highs, (0.0,) * 6 + (rain_mm,) + (0.0,) * 5)
    assert rainy_months(means) == ({7} if breaks else NONE)


def test_rains_part_the_heat_only_between_hot_times() -> None:
    hot = days(date(2027, 4, 1), date(2027, 10, 12))
    parted = ((date(2027, 4, 1), date(2027, 6, 30)), (date(2027, 9, 1), date(2027, 10, 12)))
    assert hot_spells(hot, frozenset({7, 8})) == parted
    # Rain at the end of it ends nothing, and where it rains all the time nothing is parted.
    assert hot_spells(hot, frozenset({9, 10})) == ((hot[0], hot[-1]),)
    assert hot_spells(hot, frozenset(range(1, 13))) == ((hot[0], hot[-1]),)
    assert hot_spells([], NONE) == ()


@pytest.mark.parametrize(("again", "spells"), [(date(2027, 6, 28), 1), (date(2027, 6, 29), 2)])
def test_a_cooler_time_parts_it_from_four_weeks_on(again, spells) -> None:
    """Hot until 31 May and again on 28 June, 27 cooler days between; or on the 29th, 28 days."""
    hot = days(date(2027, 4, 1), date(2027, 5, 31)) + days(again, date(2027, 8, 31))
    assert len(hot_spells(hot, NONE)) == spells


@pytest.mark.parametrize(("first", "spells"), [(date(2027, 5, 11), 1), (date(2027, 5, 10), 2)])
def test_three_weeks_of_heat_are_a_season_of_their_own(first, spells) -> None:
    """From 11 to 31 May it is 20 days, from the 10th 21."""
    second = days(date(2027, 8, 1), date(2027, 8, 31))
    assert len(hot_spells(days(first, date(2027, 5, 31)) + second, NONE)) == spells


@pytest.mark.parametrize(
    ("means", "latitude", "high_c", "said"),
    [
        # April to June, and again once the rains are over: not through July and August.
        (DELHI, 28.6, 28.0, ["2027-03", "2027-06-30", "2027-09-01", "2027-11"]),
        # The great heat is over before the rains.
        (DELHI, 28.6, 38.0, ["2027-04", "2027-06"]),
        # June is 2.1 K under July: one summer, but for the plum rains of May.
        (TAIPEI, 25.0, 30.0, ["2027-05", "2027-09"]),
    ],
)
def test_the_heat_of_a_place(means, latitude, high_c, said) -> None:
    air = PlaceAir({}, means, date(2026, 12, 31), "the card")
    outlook = Outlook(air, OPEN_AIR, latitude=latitude, southern=False)
    spells = outlook.hot_spells(date(2027, 1, 1), high_c)
    found = [day.isoformat() for one in spells for day in (one.first, one.last)]
    assert len(found) == len(said)
    assert all(day.startswith(month) for day, month in zip(found, said, strict=True)), found
    parted = "in two hot seasons with a cooler one between"
    assert [parted in one.because for one in spells] == [len(spells) > 1] * len(spells)
