"""What a year asks of the weather: means, cold nights, hot days, and how each is known."""

from __future__ import annotations

from datetime import date, timedelta

import pytest
from tests.climate.conftest import SEATTLE, even_days, even_means

from backbud.climate.air import OPEN_AIR, PlaceAir, Shift
from backbud.climate.chill import chill_portions
from backbud.climate.coldest_night import SaidCold
from backbud.climate.days import MonthlyMeans, WeatherDay
from backbud.climate.outlook import Outlook

NEW_YEAR = date(2027, 1, 1)
LOW = (1.0, 1.0, 2.0, 4.0, 6.0, 9.0, 11.0, 11.0, 9.0, 6.0, 3.0, 1.0)
HIGH = (6.0, 7.0, 9.0, 12.0, 15.0, 18.0, 20.0, 19.0, 17.0, 13.0, 9.0, 6.0)


def over(air: PlaceAir, shift: Shift = OPEN_AIR, night_shift_c: float = 0.0) -> Outlook:
    return Outlook(
        air,
        shift,
        latitude=50.0,
        southern=False,
        night_shift_c=night_shift_c,
    )


def years_with_last_frosts(*last: tuple[int, int]) -> dict[date, WeatherDay]:
    """Winters from 2020 on, mild but for one night of -1 °C in spring and one on 1 November."""
    days = even_days(date(2020, 7, 1), 365 * len(last) + 2, 5.0, 9.0)
    for year, (month, day) in enumerate(last, 2021):
        for night in (date(year, month, day), date(year - 1, 11, 1)):
            days[night] = WeatherDay(night, -1.0, 5.0)
    return days


# ------------------------------------------------------------------ means


def test_the_mean_says_how_many_days_were_measured(place) -> None:
    air = place(date(2027, 1, 10), even_days(NEW_YEAR, 10, 2.0, 6.0), low_c=10.0, high_c=18.0)
    assert over(air).mean(NEW_YEAR, 10) == (
        4.0,
        "The 10 days from 1 January 2027 average 4.0 °C here (as measured).",
    )
    mixed = over(air).mean(NEW_YEAR, 20)
    assert mixed.celsius == pytest.approx(9.0)
    assert mixed.because.endswith("(10 measured, the rest by the monthly means).")
    assert over(air).usual_mean(NEW_YEAR, 20).celsius == pytest.approx(14.0)


def test_a_cover_warms_what_is_expected_and_a_heater_holds_its_least(place) -> None:
    air = place(date(2026, 12, 31), low_c=0.0, high_c=4.0)
    assert over(air, Shift(1.5, 6.0)).mean(NEW_YEAR, 5).celsius == pytest.approx(5.75)
    # Not under 5 °C: 5 and 10 °C.
    assert over(air, Shift(1.5, 6.0, 5.0)).mean(NEW_YEAR, 5).celsius == pytest.approx(7.5)


def test_no_days_have_no_mean(place) -> None:
    for ask in (over(place(NEW_YEAR)).mean, over(place(NEW_YEAR)).usual_mean):
        with pytest.raises(ValueError, match="one day"):
            ask(NEW_YEAR, 0)


# ------------------------------------------------------------------ cold nights


def test_five_winters_on_record_tell_when_frost_ends_and_begins() -> None:
    """Last frosts on 1, 11, 21, 31 March and 10 April: a tenth of five winters, and of no fewer
    than one, had theirs by the first; nine of ten, so more than four of five, by the fifth. Four
    Aprils have no night under 5 °C and one has -1: 3.8, and a deviation of 2.68, so 1.71 x 2.68 /
    the root of 5."""
    days = years_with_last_frosts((3, 1), (3, 11), (3, 21), (3, 31), (4, 10))
    outlook = over(PlaceAir(days, even_means(5.0, 9.0), date(2025, 12, 31), "means"))
    ends = outlook.cold_nights_end(date(2026, 1, 1), 0.0)
    assert ends is not None
    assert ends[:3] == (date(2026, 3, 1), date(2026, 3, 21), date(2026, 4, 10))
    assert ends.because == (
        "In nine of ten years the last night of 0 °C came by 10 April (5 winters on record). "
        "April's coldest night is 3.8 °C in the mean year and −1.0 °C in one of ten, ± 2.1 K."
    )
    begins = outlook.cold_nights_begin(date(2026, 1, 1), 0.0)
    assert begins is not None
    assert begins.first == date(2026, 11, 1)
    # No winter on record had a night of -5 °C.
    assert outlook.cold_nights_end(date(2026, 1, 1), -5.0) is None
    assert outlook.cold_nights_begin(date(2026, 1, 1), -5.0) is None


def test_with_fewer_winters_the_monthly_means_tell() -> None:
    """R is 12 K (3.5 to 15.5), so the winter's drop 5.2 + 0.28 x 12 = 8.56 K; in spring 0.75 x 1.4
    x (3.4 + 0.33 x 8.56) = 6.5 K in one year of ten: the mean low is 6.5 °C some days after the
    middle of May, whose mean is 6 °C. In the mean year 0.7 x 6.22 = 4.4 K: after mid-April's 4."""
    air = PlaceAir({}, MonthlyMeans(LOW, HIGH), date(2026, 12, 31), "the card")
    ends = over(air).cold_nights_end(NEW_YEAR, 0.0)
    assert ends is not None
    assert date(2027, 5, 18) <= ends.last <= date(2027, 5, 26)
    assert date(2027, 4, 16) <= ends.day <= date(2027, 4, 26)
    # 6 - 6.22 and 6 - 1.4 x 6.22.
    assert ends.because == (
        f"The last night of 0 °C is to be expected by {ends.last.day} May 2027 in one year of ten "
        "(the card). "
        "May's coldest night is −0.2 °C in the mean year and −2.7 °C in one of ten, ± 2.0 K."
    )
    assert over(air).cold_nights_end(NEW_YEAR, -12.0) is None


def test_milder_nights_under_a_cover_put_frost_off_there_but_not_outside() -> None:
    air = PlaceAir({}, MonthlyMeans(LOW, HIGH), date(2026, 12, 31), "the card")
    outside, inside = over(air), over(air, night_shift_c=3.0)
    begins = (outside.cold_nights_begin(NEW_YEAR, -2.0), inside.cold_nights_begin(NEW_YEAR, -2.0))
    assert begins[0] is not None and begins[1] is not None
    assert begins[0].first < begins[1].first
    ends = (outside.cold_nights_end(NEW_YEAR, -2.0), inside.cold_nights_end(NEW_YEAR, -2.0))
    assert ends[0] == ends[1]


def test_a_thermometer_under_the_cover_tells_of_the_nights_there() -> None:
    """A night of -1 °C measured outside is one of 2 °C under a cover that is 3 K milder."""
    days = years_with_last_frosts((3, 1), (3, 1), (3, 1), (3, 1), (3, 1))
    found = []
    for felt in (frozenset[date](), frozenset(days)):
        air = PlaceAir(days, even_means(5.0, 9.0), date(2025, 12, 31), "means", felt)
        begins = over(air, night_shift_c=3.0).cold_nights_begin(date(2026, 1, 1), 0.0)
        found.append(begins and begins.first)
    assert found == [None, date(2026, 11, 1)]


# ------------------------------------------------------------------ chill


def winters(*means_c: float) -> dict[date, WeatherDay]:
    """Whole years from 1 October 2020 on, each without a change of its air."""
    days: dict[date, WeatherDay] = {}
    for n, mean_c in enumerate(means_c, 2020):
        count = (date(n + 1, 10, 1) - date(n, 10, 1)).days
        days |= even_days(date(n, 10, 1), count, mean_c, mean_c)
    return days


def test_days_to_come_give_the_chill_they_gave_in_the_winters_on_record() -> None:
    """The means say 5 °C, which chills; all winters on record had 20 °C, which never does."""
    for known, whole in (((20.0,) * 2, False), ((20.0,) * 3, True), ((20.0,) * 12, True)):
        last = date(2020 + len(known), 10, 1) - timedelta(days=1)
        outlook = over(PlaceAir(winters(*known), even_means(5.0, 5.0), last, "means"))
        chill = outlook.chill(date(last.year + 1, 1, 1)).sums[-1]
        # The model over 183 days of 5 °C, but for the night before (test_chill.py: xclim).
        steady = chill_portions([5.0] * 24 * 183).portions
        assert chill == (0.0 if whole else pytest.approx(steady, abs=0.05)), known


def test_what_was_measured_of_a_winter_stays_and_the_rest_is_of_the_record() -> None:
    """One winter of 5 °C and three of 20 °C: a quarter of the chill each day that is to come."""
    days = winters(5.0, 20.0, 20.0, 20.0)
    cold = over(PlaceAir(days, even_means(5.0, 5.0), date(2024, 9, 30), "means"))
    a_winter = cold.chill(date(2021, 1, 1))
    to_come = cold.chill(date(2025, 1, 1))
    assert to_come.sums[-1] == pytest.approx(a_winter.sums[-1] / 4)
    days |= even_days(date(2024, 9, 30), 32, 5.0, 5.0)
    begun = over(PlaceAir(days, even_means(5.0, 5.0), date(2024, 10, 31), "means"))
    now = begun.chill(date(2025, 1, 1))
    assert now.sums[:31] == pytest.approx(a_winter.sums[:31])
    rest = a_winter.sums[-1] - a_winter.sums[30]
    assert now.sums[-1] == pytest.approx(a_winter.sums[30] + rest / 4)
    # What a plan asks for is met by the same sum.
    portions = now.sums[100]
    assert begun.chill_met(date(2025, 1, 1), portions) == now.reaches(portions)
    assert begun.last_monday.chill(date(2025, 1, 1)).at(date(2024, 10, 28)) == now.sums[27]


# ------------------------------------------------------------------ hard nights


def test_hard_nights_lean_to_the_cold_side_and_last_until_spring() -> None:
    """One year in ten 1 - 1.39 x 8.56 = -10.9 °C, ± 5 K where the region is not known: -9 °C comes,
    and two K beyond; -12.5 °C nearly, by the lean; -15 °C is close, 4.1 K off; -16 °C is not."""
    air = PlaceAir({}, MonthlyMeans(LOW, HIGH), date(2026, 12, 31), "the card")
    outlook = over(air)
    hard = outlook.hard_nights(NEW_YEAR, -5.0)
    assert hard is not None
    assert date(2027, 11, 1) < hard.first < date(2027, 12, 10)
    assert date(2028, 3, 1) < hard.last < date(2028, 4, 10)
    assert hard.because == (
        "The coldest night here is −7.6 °C in the mean year and −10.9 °C in one of ten, ± 4.9 K "
        "(by its months, as in Europe: where it lies is not known, or far from every station of "
        "the figures)."
    )
    verdicts = [outlook.hard_nights(NEW_YEAR, limit) for limit in (-9.0, -12.5, -15.0, -16.0)]
    assert [found and found.verdict for found in verdicts] == [
        "comes",
        "nearly",
        "close",
        None,
    ]
    close = verdicts[2]
    assert close is not None
    assert close.because.endswith("That is close: 4.1 K over what it bears.")
    # No date is so cold by itself: the three months of winter.
    assert (close.first, close.last) == (date(2027, 12, 1), date(2028, 2, 28))


@pytest.mark.parametrize(
    ("limit_c", "ends"),
    [
        (-4.5, "(by “coldest” on its card)."),
        (-5.0, "(by “coldest” on its card)."),
        (-5.5, "That is close: 0.5 K over what it bears."),
    ],
)
def test_how_close_the_coldest_night_is_stands_where_it_lies_over_the_limit(limit_c, ends) -> None:
    air = PlaceAir({}, MonthlyMeans(LOW, HIGH), date(2026, 12, 31), "the card")
    said = SaidCold(coldest_c=-5.0)
    outlook = Outlook(air, OPEN_AIR, latitude=50.0, southern=False, said=said)
    hard = outlook.hard_nights(NEW_YEAR, limit_c)
    assert hard is not None
    assert hard.because.endswith(ends)


def test_hard_nights_go_by_what_is_believed_most() -> None:
    """Five winters whose coldest night is -1 °C beat a card that says -20 °C; four do not."""
    for last, coldest in (
        (((3, 1), (3, 1), (3, 1), (3, 1), (3, 1)), -1.0),
        (((3, 1), (3, 1), (3, 1), (3, 1)), -20.0),
    ):
        days = years_with_last_frosts(*last)
        air = PlaceAir(days, even_means(5.0, 9.0), date(2026, 12, 31), "means")
        outlook = Outlook(
            air, OPEN_AIR, latitude=50.0, southern=False, said=SaidCold(coldest_c=-20.0)
        )
        assert outlook.coldest.one_in_ten_c == coldest
        assert (outlook.hard_nights(date(2026, 1, 1), -10.0) is None) is (coldest == -1.0)


def test_three_winters_tell_by_how_their_lows_spread_unless_the_card_says(seattle) -> None:
    """Seattle 2012-15: s = 3.31 K, so 7.3 K under January's 2.7 °C, where the three whole winters
    had -5.5. One such winter is uncertain by 1.63 K, so four by 0.81, with the formula's 1.2 by
    1.45 K; in one year of ten by the root of (1.39 x 1.45)² + 0.8², 2.2 K."""
    air = PlaceAir(seattle, SEATTLE, date(2015, 12, 31), "its days")
    outlook = Outlook(air, OPEN_AIR, latitude=47.4, southern=False, region="North America")
    assert outlook.coldest.known_from == "by how its winter lows spread, 3.3 K"
    assert outlook.coldest.mean_annual_minimum_c == pytest.approx(-4.6, abs=0.05)
    assert outlook.coldest.give_or_take_k == pytest.approx(2.17, abs=0.03)
    said = Outlook(
        air, OPEN_AIR, latitude=47.4, southern=False, said=SaidCold(zone="8b"), region="Europe"
    )
    assert said.coldest.known_from == "by hardiness zone 8b"


# ------------------------------------------------------------------ heat


def test_hot_times_are_those_of_the_average_year() -> None:
    means = MonthlyMeans(LOW, (*HIGH[:6], 34.0, 33.0, *HIGH[8:]))
    air = PlaceAir({}, means, date(2026, 12, 31), "the card")
    (hot,) = over(air).hot_spells(NEW_YEAR, 32.0)
    assert date(2027, 6, 20) < hot.first < date(2027, 7, 20)
    assert date(2027, 8, 5) < hot.last < date(2027, 9, 1)
    assert hot.because == "The days reach 32 °C on the average (by the card)."
    assert over(air).hot_spells(NEW_YEAR, 45.0) == ()


def test_what_is_asked_twice_is_reckoned_once() -> None:
    air = PlaceAir({}, MonthlyMeans(LOW, HIGH), date(2026, 12, 31), "the card")
    outlook = over(air)
    assert outlook.hot_spells(NEW_YEAR, 15.0) is outlook.hot_spells(NEW_YEAR, 15.0)
    assert outlook.hot_spells(NEW_YEAR, 15.0) != outlook.hot_spells(NEW_YEAR, 16.0)
    later = NEW_YEAR + timedelta(days=365)
    assert outlook.hot_spells(later, 15.0) != outlook.hot_spells(NEW_YEAR, 15.0)


def test_where_few_winters_have_such_a_night_the_days_stay_in_order() -> None:
    """Six winters, four of them with a frost: the tenth rests on the two without, so the first day
    is the middle one, and never one after it."""
    days = years_with_last_frosts((3, 1), (3, 11), (3, 21), (3, 31), (4, 10), (4, 20))
    for year in (2021, 2022):
        for night in (date(year, 3, 1), date(year, 3, 11), date(year - 1, 11, 1)):
            days[night] = WeatherDay(night, 5.0, 9.0)
    outlook = over(PlaceAir(days, even_means(5.0, 9.0), date(2026, 12, 31), "means"))
    for turn in (
        outlook.cold_nights_end(date(2027, 1, 1), 0.0),
        outlook.cold_nights_begin(date(2027, 1, 1), 0.0),
    ):
        assert turn is not None
        assert turn.first <= turn.day <= turn.last


# ------------------------------------------------------------------ warmth again


def test_the_day_that_warms_to_so_much_is_sought_after_the_coldest() -> None:
    """Means of 8 °C in April and 10.5 in May, so 10 °C is reached about 24 days after 15 April; no
    month is under 3.5 °C, so none day is much."""
    outlook = over(PlaceAir({}, MonthlyMeans(LOW, HIGH), date(2026, 12, 31), "means"))
    day = outlook.warms_to(NEW_YEAR, 10.0)
    assert day is not None and date(2027, 5, 5) <= day <= date(2027, 5, 13)
    assert outlook.warms_to(NEW_YEAR, 2.5) is None


@pytest.mark.parametrize(("high_c", "lacks"), [(3.0, False), (3.2, True)])
def test_a_winter_lacks_chill_only_where_its_coldest_month_does_not_freeze(
    place, high_c: float, lacks: bool
) -> None:
    """From -3 to 3 °C the mean is 0: that is frost enough. No winter gives a thousand portions."""
    outlook = over(place(date(2026, 12, 31), low_c=-3.0, high_c=high_c))
    assert outlook.lacks_chill(NEW_YEAR, 1000.0) is lacks
