"""Days of a forecast take the climate's place, for ten days, and far-off days keep still."""

from __future__ import annotations

from datetime import date, timedelta

from backbud.climate.ahead import DaysAhead, SkyAhead, days_over
from backbud.climate.air import OPEN_AIR, Air, PlaceAir, Shift
from backbud.climate.days import MonthlyMeans, WeatherDay
from backbud.climate.forecast import Forecast, ForecastDay
from backbud.climate.outlook import Outlook
from backbud.climate.stages import Need, Own, Traces, expected_stage

# Every day of the average year is alike: 5 to 15 °C, five degree-days over 5 °C.
EVEN = MonthlyMeans((5.0,) * 12, (15.0,) * 12)
TODAY = date(2027, 3, 10)  # a Wednesday


def forecast(*days: tuple[float | None, float | None], made: date = TODAY) -> Forecast:
    first = made + timedelta(days=1)
    return Forecast(
        made,
        {
            day: ForecastDay(day, low, high)
            for n, (low, high) in enumerate(days)
            for day in (first + timedelta(days=n),)
        },
        source="a met service",
    )


def air(said: Forecast | None, today: date = TODAY) -> PlaceAir:
    measured = {TODAY: WeatherDay(TODAY, 4.0, 12.0)}
    return PlaceAir(measured, EVEN, today, "the means", forecast=said)


def test_a_day_to_come_is_as_foretold_and_what_is_not_told_of_it_is_the_climates():
    known = air(forecast((-3.0, 9.0), (2.0, None), (None, 30.0)))
    day = TODAY + timedelta(days=1)
    assert known.of(day) == Air(-3.0, 9.0, foretold=True)
    assert not known.of(day).measured
    two, three = known.of(day + timedelta(days=1)), known.of(day + timedelta(days=2))
    assert (two.low_c, round(two.high_c, 6)) == (2.0, 15.0)
    assert (round(three.low_c, 6), three.high_c) == (5.0, 30.0)
    assert known.of(TODAY) == Air(4.0, 12.0, True)
    # The third day has no low, so the forecast is known until the second.
    assert known.known_until == TODAY + timedelta(days=2)


def test_one_too_old_is_as_good_as_none():
    said = forecast(*[(9.0, 20.0)] * 9, made=TODAY - timedelta(days=4))
    assert air(said).forecast is None
    assert air(said).known_until == TODAY


def test_a_cover_shifts_what_is_foretold():
    assert Shift(1.0, 3.0).under(Air(-3.0, 9.0, foretold=True)) == Air(-2.0, 12.0, foretold=True)


def test_a_stage_of_the_next_days_comes_by_the_forecast():
    """50 degree-days from today on: by the climate ten days, by 15 to 35 °C (20 a day) three."""

    def found(said: Forecast | None):
        traces = Traces(PlaceAir({}, EVEN, TODAY, "the means", forecast=said), OPEN_AIR, 0.0)
        # At the equator each day has twelve hours, which count half: 25 of the sum.
        need = Need("heat", 5.0, 25.0)
        return expected_stage(
            traces, TODAY, TODAY + timedelta(days=1), need, Own(), date(2027, 12, 31)
        )

    warm = found(forecast(*[(15.0, 35.0)] * 9))
    assert warm.day == TODAY + timedelta(days=3)
    assert (warm.first, warm.last) == (TODAY + timedelta(days=1), TODAY + timedelta(days=5))
    assert "reached by the forecast of 10 March 2027 by a met service." in warm.because
    assert warm.because.expected
    assert found(None).day > TODAY + timedelta(days=7)


def test_what_is_far_off_goes_without_the_forecast_on_mondays_too():
    said = forecast(*[(15.0, 35.0)] * 9, made=date(2027, 3, 8))
    for today in (date(2027, 3, 8), TODAY):
        outlook = Outlook(air(said, today), OPEN_AIR, latitude=50.0, southern=False)
        assert outlook.air.forecast is not None
        assert outlook.last_monday.air.forecast is None
        assert outlook.last_monday.air.today == date(2027, 3, 8)


def test_nights_under_a_cover_and_the_first_days_over_a_figure():
    said = forecast((-8.0, 30.0), (-9.0, 36.0), (2.0, 34.0), (3.0, 20.0), (3.0, 20.0), (0.0, 40.0))
    sky = SkyAhead(said, TODAY, Shift(1.5, 6.0, 5.0), 0.0)
    assert {night.low_c for night in sky.nights} == {5.0}
    milder = SkyAhead(said, TODAY, Shift(1.5, 6.0), 2.0)
    assert [night.low_c for night in milder.nights][:2] == [-6.0, -7.0]
    spell = milder.frost(-6.0)
    assert (spell.first.day.day, spell.last.day.day, spell.coldest.low_c) == (11, 12, -7.0)
    assert days_over(milder.days, 33.0, lambda day: day.high_c) == DaysAhead(
        date(2027, 3, 12), date(2027, 3, 13), date(2027, 3, 12), 36.0
    )
