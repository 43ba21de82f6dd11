"""When a growth stage is expected: by hand, and as the diary corrects it."""

from __future__ import annotations

from datetime import date, timedelta

import pytest
from tests.climate.conftest import even_days

from backbud.climate.air import OPEN_AIR, PlaceAir
from backbud.climate.days import MonthlyMeans, WeatherDay
from backbud.climate.outlook import Outlook, Wants, need_of
from backbud.climate.reference import LATITUDE, NOTTINGHAM, cold_by, heat_by
from backbud.climate.stages import Need, Own, Traces, expected_stage, own_sum

NEW_YEAR, YEAR_END = date(2027, 1, 1), date(2027, 12, 31)
TWO_HUNDRED = Need("heat", 5.0, 200.0)


class Even(Traces):
    """Sums in which every day counts alike, so that they can be reckoned by hand."""

    def __init__(self, air: PlaceAir) -> None:
        super().__init__(air, OPEN_AIR, 0.0)

    def _of_heat(self, day: date) -> float:
        return 1.0


def test_it_is_reached_when_the_sum_is(place) -> None:
    air = place(YEAR_END, even_days(NEW_YEAR, 365, 15.0, 15.0))
    found = expected_stage(Even(air), NEW_YEAR, NEW_YEAR, TWO_HUNDRED, Own(), YEAR_END)
    assert found == (
        date(2027, 1, 20),
        date(2027, 1, 20),
        date(2027, 1, 20),
        "It comes at 200 degree-days over 5 °C, weighed by the length of the day; reached by the "
        "weather of this year.",
    )


def test_it_counts_from_the_day_the_chill_is_met(place) -> None:
    air = place(YEAR_END, even_days(NEW_YEAR, 365, 15.0, 15.0))
    counted_from = date(2027, 2, 1)
    found = expected_stage(Even(air), NEW_YEAR, counted_from, TWO_HUNDRED, Own(), YEAR_END)
    assert found is not None and found.day == date(2027, 2, 20)


def test_a_tree_of_its_own_has_its_own_sum(place) -> None:
    air = place(YEAR_END, even_days(NEW_YEAR, 365, 15.0, 15.0))
    own = Own(1.5, 2)
    found = expected_stage(Even(air), NEW_YEAR, NEW_YEAR, TWO_HUNDRED, own, YEAR_END)
    assert found is not None and found.day == date(2027, 1, 30)
    assert "300 degree-days over 5 °C, weighed by" in found.because
    assert "(this tree's own sum, from 2 observations)" in found.because


def test_what_is_not_reached_in_the_year_is_not_promised(place) -> None:
    air = place(YEAR_END, even_days(NEW_YEAR, 365, 5.0, 5.0))
    traces = Even(air)
    assert expected_stage(traces, NEW_YEAR, NEW_YEAR, TWO_HUNDRED, Own(), YEAR_END) is None


def test_with_no_years_on_record_the_range_shrinks_as_the_sum_fills_up(place) -> None:
    """Twelve days either side at the start (ours), six when half of the sum is there."""
    far = place(date(2026, 12, 31), low_c=15.0, high_c=15.0)
    found = expected_stage(Even(far), NEW_YEAR, NEW_YEAR, TWO_HUNDRED, Own(), YEAR_END)
    assert found is not None
    assert found.last - found.day == timedelta(days=12)
    half = place(date(2027, 1, 10), even_days(NEW_YEAR, 10, 15.0, 15.0))
    near = expected_stage(Even(half), NEW_YEAR, NEW_YEAR, TWO_HUNDRED, Own(), YEAR_END)
    assert near is not None
    assert near.last - near.day == timedelta(days=6)
    assert "; 100 by 10 January 2027; the rest by the monthly means." in near.because


def test_five_years_on_record_give_the_range(place) -> None:
    """Years of 10, 11 … 14 degree-days a day reach 200 after 20, 19, 17, 16 and 15 days.

    Of 15, 16, 17, 19, 20 the tenth is 15.4 and nine tenths are 19.6 (Hyndman & Fan 1996, type 7).
    """
    days: dict[date, WeatherDay] = {}
    for year, celsius in zip(range(2022, 2027), (15.0, 16.0, 17.0, 18.0, 19.0), strict=True):
        days |= even_days(date(year, 1, 1), 365 + (year == 2024), celsius, celsius)
    air = place(date(2026, 12, 31), days)
    assert len(air.complete_years(NEW_YEAR)) == 5
    found = expected_stage(Even(air), NEW_YEAR, NEW_YEAR, TWO_HUNDRED, Own(), YEAR_END)
    assert found is not None
    assert found[:3] == (date(2027, 1, 15), date(2027, 1, 17), date(2027, 1, 20))
    assert found.because.endswith("; the rest as in 5 years on record.")


def test_a_year_with_many_days_missing_is_no_year_on_record(place) -> None:
    days = even_days(date(2026, 1, 1), 365, 15.0, 15.0)
    for n in range(31):
        del days[date(2026, 6, 1) + timedelta(days=n)]
    assert place(date(2026, 12, 31), days).complete_years(NEW_YEAR) == ()


def test_observations_are_compared_with_the_sums(place) -> None:
    """Seen on the days that end at 300 and 100 degree-days of 200: the middle of 1.475 and 0.475
    (half of the day itself counts), each held between 0.5 and 2."""
    air = place(YEAR_END, even_days(NEW_YEAR, 365, 15.0, 15.0))
    seen = [
        (NEW_YEAR, NEW_YEAR, TWO_HUNDRED, date(2027, 1, 30)),
        (NEW_YEAR, NEW_YEAR, TWO_HUNDRED, date(2027, 1, 10)),
    ]
    found = own_sum(Even(air), seen)
    assert found.observations == 2
    assert found.ratio == pytest.approx((1.475 + 0.5) / 2)
    assert own_sum(Even(air), []) == Own(1.0, 0)


def test_the_reference_place_has_every_stage_on_its_usual_day() -> None:
    """What is turned into a sum in the reference climate comes back on the same day there."""
    air = PlaceAir({}, NOTTINGHAM, date(2026, 12, 31), "its means")
    outlook = Outlook(air, OPEN_AIR, latitude=LATITUDE, southern=False)
    for usual in ((3, 15), (5, 1), (6, 20), (8, 10), (9, 20), (11, 5)):
        for wants in (Wants(), Wants(10.0), Wants(5.0, 50.0)):
            found = outlook.stage(NEW_YEAR, usual, wants, Own(), YEAR_END)
            assert found is not None
            assert abs((found.day - date(2027, *usual)).days) <= 1, (usual, wants)


def test_a_warm_place_is_earlier_in_spring_and_later_in_autumn(place) -> None:
    warm = PlaceAir(
        {},
        MonthlyMeans(
            tuple(low + 5 for low in NOTTINGHAM.low_c),
            tuple(high + 5 for high in NOTTINGHAM.high_c),
        ),
        date(2026, 12, 31),
        "its means",
    )
    outlook = Outlook(warm, OPEN_AIR, latitude=LATITUDE, southern=False)
    burst = outlook.stage(NEW_YEAR, (4, 10), Wants(), Own(), YEAR_END)
    fall = outlook.stage(NEW_YEAR, (11, 5), Wants(), Own(), YEAR_END)
    assert burst is not None and date(2027, 3, 1) < burst.day < date(2027, 3, 31)
    # Long nights bring the leaves down in a mild autumn too: about two weeks later, no more.
    assert fall is not None and date(2027, 11, 12) < fall.day < date(2027, 11, 30)


def test_heat_counts_for_more_the_longer_the_day_and_cold_the_shorter(place) -> None:
    """At 50°N: 7.85 h of light on 21 December and 16.15 h on 21 June (FAO-56 eq. 34: 24 / pi times
    the arc whose cosine is -tan 50° tan 23.45°)."""
    air = place(YEAR_END, even_days(NEW_YEAR, 365, 15.0, 15.0))
    traces = Traces(air, OPEN_AIR, 50.0)
    heat = traces.of("heat", NEW_YEAR, 5.0)
    assert heat.at(date(2027, 1, 31)) == 0.0
    # Ten degree-days times (16.15 - 10) / 4.
    assert heat.at(date(2027, 6, 21)) - heat.at(date(2027, 6, 20)) == pytest.approx(15.4, abs=0.05)
    cold = traces.of("cold", NEW_YEAR, 20.0)
    assert cold.at(date(2027, 6, 21)) == cold.at(date(2027, 6, 20))
    # Five degree-days and eight for the long night, in full.
    assert cold.at(date(2027, 12, 21)) - cold.at(date(2027, 12, 20)) == pytest.approx(
        13.0, abs=0.05
    )


def test_where_no_chill_comes_buds_open_late_and_it_says_so(place) -> None:
    tropics = place(date(2026, 12, 31), low_c=24.0, high_c=30.0)
    outlook = Outlook(tropics, OPEN_AIR, latitude=5.0, southern=False)
    assert outlook.chill_met(NEW_YEAR, 30.0) is None
    found = outlook.stage(NEW_YEAR, (4, 10), Wants(5.0, 30.0), Own(), YEAR_END)
    assert found is not None and found.day > date(2027, 4, 1)
    assert found.because.endswith("Its chill is not met here, so buds open late and unevenly.")


def test_needs_grow_with_the_day() -> None:
    assert 0 < heat_by(3, 1, 5.0) < heat_by(4, 1, 5.0) < heat_by(6, 1, 5.0)
    assert heat_by(6, 1, 5.0, 120.0) < heat_by(6, 1, 5.0)
    assert 0 < cold_by(9, 1, 20.0) < cold_by(11, 1, 20.0)
    assert need_of((8, 25), Wants()).counts == "heat"
    assert need_of((8, 26), Wants()).counts == "cold"


# Monthly means from memory of climate tables, °C, January first.
OSLO = MonthlyMeans(
    (-7, -7, -4, 1, 6, 10, 13, 12, 8, 4, -1, -5), (-1, 0, 4, 10, 16, 20, 22, 21, 15, 9, 3, 0)
)
MINNEAPOLIS = MonthlyMeans(
    (-13, -11, -5, 2, 9, 14, 17, 16, 11, 4, -3, -10), (-4, -2, 5, 14, 21, 26, 28, 27, 22, 14, 5, -2)
)


@pytest.mark.parametrize(("means", "latitude"), [(OSLO, 59.9), (MINNEAPOLIS, 45.0)])
def test_a_cold_winter_gives_its_chill_in_autumn(means: MonthlyMeans, latitude: float) -> None:
    """Hours under 0 °C give little in the Dynamic model; October and November give enough."""
    air = PlaceAir({}, means, date(2026, 12, 31), "its means")
    outlook = Outlook(air, OPEN_AIR, latitude=latitude, southern=False)
    assert outlook.chill_met(NEW_YEAR, 40.0) is not None
    found = outlook.stage(NEW_YEAR, (4, 10), Wants(5.0, 40.0), Own(), YEAR_END)
    assert found is not None and "chill is not met" not in found.because


@pytest.mark.parametrize(
    ("degree_days", "day", "told"),
    [
        # Ten a day since 1 January: 310 on the 31st, three weeks from today.
        (310.0, date(2027, 1, 31), True),
        (320.0, date(2027, 2, 1), False),
    ],
)
def test_what_is_over_three_weeks_off_does_not_tell_the_sum_of_today(
    place, degree_days: float, day: date, told: bool
) -> None:
    air = place(date(2027, 1, 10), even_days(NEW_YEAR, 10, 15.0, 15.0))
    need = Need("heat", 5.0, degree_days)
    found = expected_stage(Even(air), NEW_YEAR, NEW_YEAR, need, Own(), YEAR_END)
    assert found is not None and found.day == day
    assert ("100 by 10 January 2027" in found.because) is told


def test_the_sum_of_today_is_told_only_of_days_that_were_measured(place) -> None:
    air = place(date(2027, 1, 10))
    found = expected_stage(Even(air), NEW_YEAR, NEW_YEAR, TWO_HUNDRED, Own(), YEAR_END)
    assert found is not None and found.day == date(2027, 1, 20)
    assert "by 10 January 2027" not in found.because


def test_an_observation_counts_from_the_day_its_chill_was_met(place) -> None:
    """From 1 February to half of the 20th, at ten a day, are 195 degree-days of 200."""
    air = place(YEAR_END, even_days(NEW_YEAR, 365, 15.0, 15.0))
    seen = [(NEW_YEAR, date(2027, 2, 1), TWO_HUNDRED, date(2027, 2, 20))]
    assert own_sum(Even(air), seen).ratio == pytest.approx(0.975)
