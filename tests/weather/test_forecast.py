"""A forecast in its file, by hand or as it was fetched: what is read of it, and what it is for."""

from __future__ import annotations

import os
from datetime import date

import pytest

from backbud.climate.forecast import ForecastDay, low_error_k

NAME = "weather/yard-forecast.csv"
BY_HAND = """date, low, high, rain, gust
2027-06-02, -1.5, 12, 0, 9
2027-06-03, 4, 15, 11.5, 21
"""
FETCHED = """# Weather data by a met service.
date,low C,high C,rain mm,wind m/s,gust m/s,made,source
2027-06-02,3.1,14.2,0.0,6.1,,2027-06-01T04:12:26Z,a met service
2027-06-03,2.5,13.0,2.4,5.0,,,
"""


def forecast_of(tell, text: str, **more):
    return tell(files={NAME: text}, **more)


def test_one_written_by_hand_counts_as_made_on_its_first_day(tell):
    told = forecast_of(tell, BY_HAND)
    forecast = told["yard"].forecast
    assert told.codes == []
    assert forecast.made == date(2027, 6, 2)
    assert (forecast.made_at, forecast.source) == ("", "")
    assert forecast.days == {
        date(2027, 6, 2): ForecastDay(date(2027, 6, 2), -1.5, 12.0, 0.0, None, 9.0),
        date(2027, 6, 3): ForecastDay(date(2027, 6, 3), 4.0, 15.0, 11.5, None, 21.0),
    }


def test_one_that_was_fetched_says_when_and_whose_it_is(tell):
    forecast = forecast_of(tell, FETCHED)["yard"].forecast
    assert forecast.made == date(2027, 6, 1)
    assert forecast.made_at == "2027-06-01 04:12 UTC"
    assert forecast.source == "a met service"
    assert forecast.days[date(2027, 6, 3)].wind_m_per_s == 5.0


def test_a_time_with_an_offset_is_told_in_utc(tell):
    text = BY_HAND.replace("gust\n", "gust, made\n", 1).replace(
        "9\n", "9, 2027-06-01 01:30 +02:00\n"
    )
    forecast = forecast_of(tell, text.replace("21\n", "21,\n"))["yard"].forecast
    assert (forecast.made_at, forecast.made) == ("2027-05-31 23:30 UTC", date(2027, 5, 31))


def test_it_is_no_measured_day(tell):
    record = forecast_of(tell, BY_HAND)["yard"]
    assert record.days == {}
    assert record.sources == ()


def test_it_is_used_for_three_days_and_for_days_to_come_alone(tell):
    forecast = forecast_of(tell, FETCHED)["yard"].forecast
    first, second = date(2027, 6, 2), date(2027, 6, 3)
    assert list(forecast.ahead(date(2027, 6, 1))) == [first, second]
    assert list(forecast.ahead(first)) == [second]
    assert list(forecast.ahead(second)) == []
    far = forecast_of(tell, FETCHED + "2027-06-05,1,9,0,,,,\n2027-06-12,1,9,0,,,,\n")
    days = far["yard"].forecast
    assert list(days.ahead(date(2027, 6, 4))) == [date(2027, 6, 5), date(2027, 6, 12)]
    assert days.ahead(date(2027, 6, 5)) == {}
    # The eleventh day ahead.
    assert list(days.ahead(date(2027, 6, 1)))[-1] == date(2027, 6, 5)


def test_before_it_was_made_nobody_knew_it(tell):
    forecast = forecast_of(tell, FETCHED)["yard"].forecast
    assert forecast.ahead(date(2027, 5, 20)) == {}


def test_a_bench_has_the_forecast_of_the_place_around_it(tell):
    cards = "place yard\n  latitude 52 N\n\nplace bench\n  within yard\n\nplace shelf\n"
    told = tell(cards, files={NAME: BY_HAND})
    assert told["bench"].forecast.place == "yard"
    assert told["shelf"].forecast.place == "yard"


def test_a_name_that_is_no_text_is_told_like_any_other(tell, tmp_path):
    tell()
    (tmp_path / "weather").mkdir()
    with open(os.fsencode(tmp_path) + b"/weather/y\xffrd-past.csv", "wb") as file:
        file.write(b"date, low\n")
    told = tell()
    assert told.only().file == "weather/y\\xffrd-past.csv"


def test_a_place_nobody_knows_is_told(tell):
    told = tell(files={"weather/jard-forecast.csv": BY_HAND})
    problem = told.only()
    assert (problem.code, problem.file) == ("unknown-place", "weather/jard-forecast.csv")
    assert told["yard"].forecast is None


@pytest.mark.parametrize(
    ("text", "codes", "days"),
    [
        ("date, low, high\n2027-06-02, 12, 4\n2027-06-03, 1, 4\n", ["contradiction"], 1),
        ("date, low, high\n2027-06-02, -273, 4\n", ["impossible-value"], 1),
        ("date, low, high\n2027-06-31, 1, 4\n2027-06-03, 1, 4\n", ["no-such-date"], 1),
        ("date, low, high\n2027-06-02, 1, 4\n2027-06-02, 2, 5\n", ["repeated-day"], 1),
        ("date, low, high\n2027-06-02, 1\n2027-06-03, 2, 5\n", ["wrong-row"], 1),
        ("date, low, hihg\n2027-06-02, 1, 4\n", ["unknown-column"], 1),
        ("date, low, high, gust furlong\n2027-06-02, 1, 4, 3\n", ["unknown-unit"], 1),
        ("date, low, made\n2027-06-02, 1, yesterday\n", ["bad-date"], 1),
        ("low, high\n1, 4\n", ["missing-column"], 0),
        ("date, low, high\n", ["empty-file"], 0),
        ("", ["empty-file"], 0),
        ("date, low\n" + "2027-06-02, 1\n" * 400, ["large-file"], 0),
        ("date, low\n" + "2" * 3000 + "\n", ["long-line"], 0),
    ],
)
def test_what_is_wrong_is_told_and_the_rest_is_used(tell, text, codes, days):
    told = forecast_of(tell, text)
    assert told.codes == codes
    forecast = told["yard"].forecast
    assert (len(forecast.days) if forecast else 0) == days


def test_past_days_that_came_fill_gaps_and_nothing_else(tell):
    past = "date, low, high, rain\n2027-05-30, 1, 11, 3\n2027-05-31, 2, 12, 4\n"
    diary = "2027-05-31  low 5 C\n"
    told = tell(diary=diary, files={"weather/yard-past.csv": past})
    days = told["yard"].days
    assert told.codes == []
    assert (days[date(2027, 5, 30)].low_c, days[date(2027, 5, 30)].high_c) == (1.0, 11.0)
    # What the keeper measured wins; the rest of the day is filled.
    assert (days[date(2027, 5, 31)].low_c, days[date(2027, 5, 31)].high_c) == (5.0, 12.0)


def test_a_forecast_is_less_sure_the_further_ahead(tell):
    # Three days: 1.6 °C, Stern 2008.
    assert [low_error_k(days) for days in (1, 3, 5, 10, 14)] == pytest.approx(
        [1.2, 1.6, 2.0, 3.0, 3.0]
    )


# Mean absolute error of temperature by days ahead at Schmittenhöhe, Austria, in the winter of
# 2011/2012, of more than 300 forecasts; MetGIS, "Forecast Quality: Temperature", read on its page.
@pytest.mark.parametrize(
    ("days_ahead", "published_k"), [(1, 1.03), (2, 1.15), (3, 1.36), (4, 1.82), (5, 2.32)]
)
def test_how_far_a_forecast_is_off_is_near_what_is_published(
    days_ahead: int, published_k: float
) -> None:
    assert low_error_k(days_ahead) == pytest.approx(published_k, abs=0.4)
