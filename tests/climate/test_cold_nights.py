"""Late and early frost against daily series: the coldest night of a month, the last and first."""

from __future__ import annotations

from datetime import date
from statistics import mean

import pytest
from tests.climate.stations import daily, monthly, stations

from backbud.climate.cold_nights import MONTH_ERROR_K, drop_on, month_drop
from backbud.climate.frost import (
    expected_frosts,
    first_autumn_frost,
    frost_record,
    last_spring_frost,
)

WINTER = date(2023, 1, 15)


def winter_drop_k(name: str) -> float:
    return float(next(row for row in stations() if row["station"] == name)["drop_k"])


def minima_of(name: str, month: int) -> list[float]:
    """The lowest night of a month in each year on record."""
    lows: dict[int, list[float]] = {}
    for day, low, _ in daily(name):
        if day.month == month:
            lows.setdefault(day.year, []).append(low)
    return [min(found) for found in lows.values()]


def test_at_the_mean_winter_of_the_stations_it_is_as_they_have_it() -> None:
    """8.6 K: April 6.5 and May 5.9 average 6.2 K, September 6.0 and October 6.7 do 6.35 K; one
    year in ten 9.1 and 8.3, 8.6 and 9.4, so 8.7 and 9.0 K (shared figures of 18 stations)."""
    fitted = [float(row["drop_k"]) for row in stations()[:18]]
    assert mean(fitted) == pytest.approx(8.6, abs=0.05)
    late, early = (month_drop(8.6, month, southern=False) for month in (4, 10))
    assert late.mean_k == pytest.approx(6.2, abs=0.05)
    assert late.one_in_ten_k == pytest.approx(8.7, abs=0.05)
    assert early.mean_k == pytest.approx(6.35, abs=0.05)
    assert early.one_in_ten_k == pytest.approx(9.0, abs=0.15)
    # The mild tenth lies as far on the other side.
    assert late.mild_k == pytest.approx(2 * late.mean_k - late.one_in_ten_k)
    assert month_drop(8.6, 10, southern=True) == late


@pytest.mark.parametrize("name", ["Brussels", "Champion", "Tunis", "Seattle"])
@pytest.mark.parametrize("month", [4, 5, 9, 10])
def test_the_coldest_night_of_a_month(name: str, month: int) -> None:
    lows, _ = monthly(daily(name))
    """Never a kelvin too mild, and too cold by no more than the ±; but for one month in Seattle,
    of which there are four years."""
    drop = month_drop(winter_drop_k(name), month, southern=False).mean_k
    too_cold_k = mean(minima_of(name, month)) - (lows[month - 1] - drop)
    most = 2.8 if (name, month) == ("Seattle", 4) else MONTH_ERROR_K
    assert -1.0 < too_cold_k < most


@pytest.mark.parametrize(
    ("name", "limit_c", "most_days"),
    [
        ("Brussels", 0.0, 10),
        ("Brussels", -2.0, 22),
        ("Champion", 0.0, 10),
        ("Champion", -2.0, 10),
        ("Tunis", 4.0, 21),
    ],
)
def test_the_last_and_the_first_frost_by_monthly_means_alone(
    name: str, limit_c: float, most_days: int
) -> None:
    """Those of five and of nine in ten winters, against the record of 22 to 36 of them: to the
    mild side never more than ten days off."""
    series = daily(name)
    lows, _ = monthly(series)
    record = frost_record([(day, low) for day, low, _ in series], limit_c, southern=False)
    for place, last_share, first_share in ((1, 0.5, 0.5), (2, 0.9, 0.1)):
        said = expected_frosts(
            lows,
            limit_c,
            WINTER,
            drop_k_on=lambda night, place=place: drop_on(
                winter_drop_k(name), night, southern=False
            )[place],
            southern=False,
        )
        last = last_spring_frost(record, last_share, WINTER)
        first = first_autumn_frost(record, first_share, WINTER)
        assert None not in (last, first, said.last_frost, said.first_frost)
        assert -10 <= (said.last_frost - last).days <= most_days, (place, said.last_frost, last)
        assert -10 <= (first - said.first_frost).days <= most_days, (place, said.first_frost)


def test_between_the_seasons_the_figure_goes_straight_from_one_to_the_other() -> None:
    """A winter of 10 K: in mid-January the winter's own, 13.9 K in one year of ten; in mid-April
    0.75 x 1.4 x (3.4 + 3.3) = 7.04 K; on 1 March half way between, 10.47 K."""
    at = [
        drop_on(10.0, date(2027, month, day), southern=False).one_in_ten_k
        for month, day in ((1, 16), (3, 1), (4, 16), (6, 1))
    ]
    assert at == pytest.approx([13.9, 10.47, 7.04, 7.04], abs=0.1)
    # 0.75 x 1.4 x (3.5 + 3.3) = 7.14 K until mid-October.
    assert drop_on(10.0, date(2027, 9, 1), southern=False).one_in_ten_k == pytest.approx(7.14)
    assert drop_on(10.0, date(2027, 12, 31), southern=False).one_in_ten_k == pytest.approx(
        drop_on(10.0, date(2028, 1, 1), southern=False).one_in_ten_k, abs=0.1
    )
    assert drop_on(10.0, date(2027, 7, 16), southern=True) == drop_on(
        10.0, date(2027, 1, 16), southern=False
    )
