"""The coldest night that may still come of a winter: worked out by hand."""

from __future__ import annotations

from datetime import date, timedelta

import pytest

from backbud.climate.cold_to_come import cold_to_come
from backbud.climate.coldest_night import ColdestNight
from backbud.climate.frost import nights_by_season

# Means that never change: what is told hangs on the drop alone.
EVEN = (0.0,) * 12
COLDEST = ColdestNight(-9.0, -12.5, 4.0, 9.0, "by hand")


@pytest.mark.parametrize(
    ("day", "one_in_ten_c", "give_or_take_k"),
    [
        # Mid-April: 1.4 x (3.4 + 0.33 x 9) = 8.918 K.
        (date(2027, 4, 17), -8.918, 2.0),
        (date(2027, 6, 1), -8.918, 2.0),
        # 4 March is 3 + 3/31 = 3.097: 0.468 of the way from there to 1.39 x 9 = 12.51 K.
        (date(2027, 3, 4), -8.918 - 0.4677 * (12.51 - 8.918), 2 + 0.4677 * 2),
    ],
)
def test_by_means_it_falls_from_the_winters_to_a_late_frosts(
    day: date, one_in_ten_c: float, give_or_take_k: float
) -> None:
    found = cold_to_come(COLDEST, (), EVEN, day, southern=False)
    assert found.one_in_ten_c == pytest.approx(one_in_ten_c, abs=0.01)
    assert found.give_or_take_k == pytest.approx(give_or_take_k, abs=0.01)
    assert found.since == day


@pytest.mark.parametrize("day", [date(2026, 9, 1), date(2026, 12, 24), date(2027, 1, 15)])
def test_before_mid_january_it_is_the_whole_winters(day: date) -> None:
    assert cold_to_come(COLDEST, (), EVEN, day, southern=False) == COLDEST


def test_of_enough_winters_on_record_it_is_what_they_had_from_that_day_on() -> None:
    """Ten winters with -20 °C on 10 January and, on 20 April, -1 to -10 °C: the coldest of ten is
    -10 °C and their mean -5.5; from 21 April on none has less than 5 °C."""

    def low(night: date) -> float:
        if (night.month, night.day) == (1, 10):
            return -20.0
        return float(2016 - night.year) if (night.month, night.day) == (4, 20) else 5.0

    nights = [date(2016, 7, 1) + timedelta(days=n) for n in range(3652)]
    seasons = nights_by_season(((night, low(night)) for night in nights), southern=False)
    april = cold_to_come(COLDEST, seasons, EVEN, date(2027, 4, 20), southern=False)
    assert (april.mean_annual_minimum_c, april.one_in_ten_c) == (-5.5, -10.0)
    after = cold_to_come(COLDEST, seasons, EVEN, date(2027, 4, 21), southern=False)
    assert after.one_in_ten_c == 5.0
    # The winter's coldest, of the record, is what COLDEST stands for.
    assert cold_to_come(COLDEST, seasons, EVEN, date(2027, 1, 10), southern=False) == COLDEST
