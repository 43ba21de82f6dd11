"""A plain table of days: every way a header may be written, and every slip in a row."""

from __future__ import annotations

from datetime import date

import pytest

from backbud.climate.days import WeatherDay

MARCH_6, MARCH_7 = date(2027, 3, 6), date(2027, 3, 7)


def test_the_four_columns(tell_file) -> None:
    told = tell_file("date, low, high, rain\n2027-03-06, 1, 9, 4\n2027-03-07, -2.5, 11, 0\n")
    assert told.problems == []
    assert dict(told["yard"].days) == {
        MARCH_6: WeatherDay(MARCH_6, 1.0, 9.0, 4.0),
        MARCH_7: WeatherDay(MARCH_7, -2.5, 11.0, 0.0),
    }
    (source,) = told["yard"].sources
    assert (source.file, source.form, source.days) == ("station.csv", "plain CSV", 2)
    assert (source.first, source.last) == (MARCH_6, MARCH_7)


@pytest.mark.parametrize(
    "text",
    [
        "DATE,LOW,HIGH,RAIN\n2027-03-06,1,9,4\n",
        "Rain,High,Date,Low\n4,9,2027-03-06,1\n",
        "date;low;high;rain\n2027-03-06;1,0;9,0;4,0\n",
        "date\tlow\thigh\train\n2027-03-06\t1,0\t9.0\t4\n",
        '"date","low","high","rain"\n"2027-03-06","1","9","4"\n',
        "\ufeffdate,low,high,rain\r\n2027-03-06,1,9,4\r\n",
        "date,low,high,rain\n2027-03-06,1,9,4",
        "# my own thermometer\n\ndate,low,high,rain\n# a cold night\n\n2027-03-06,1,9,4\n",
        "date,low C,high °C,rain mm\n2027-03-06,1,9,4\n",
        "date,low_c,high (°C),rain_mm\n2027-03-06,1,9,4\n",
        # 33.8 °F, 48.2 °F and 4/25.4 inch, by NIST SP 811: (t - 32)/1.8 and 25.4 mm exactly.
        "date,low F,high (°F),rain inch\n2027-03-06,33.8,48.2,0.15748031496063\n",
        "date,low,high,rain [in]\n2027-03-06,1,9,0.15748031496063\n",
        "date,temp_min,temp_max,precipitation\n2027/03/06,1,9,4\n",
        "date,tmin,tmax,precip cm\n20270306,1,9,0.4\n",
        "date,low,high,rain\n2027-03-06 00:00,1,9,4\n",
        "date,low,high,rain\n2027-03-06T00:00:00Z,1,9,4\n",
        "date,low,high,rain,\n2027-03-06,1,9,4,\n",
    ],
)
def test_each_way_to_write_it(tell_file, text) -> None:
    told = tell_file(text)
    assert told.problems == []
    (day,) = told["yard"].days.values()
    assert day.day == MARCH_6
    assert (day.low_c, day.high_c, day.rain_mm) == pytest.approx((1, 9, 4), abs=1e-9)


def test_wind_sun_and_humidity(tell_file) -> None:
    # Knot, mile and kilometre an hour: NIST SP 811, B.8.
    for unit, wind in (("m/s", 5), ("km/h", 18), ("kn", 9.719222462), ("mph", 11.184681460)):
        told = tell_file(f"date,humidity %,wind {unit},sun min\n2027-03-06,71,{wind},90\n")
        assert told.problems == []
        day = told["yard"].days[MARCH_6]
        assert (day.humidity_percent, day.sun_hours) == (71, 1.5)
        assert day.wind_m_per_s == pytest.approx(5, abs=1e-8)


def test_columns_and_cells_may_be_missing(tell_file) -> None:
    told = tell_file("date,low,rain\n2027-03-06,,T\n2027-03-07,NA,-\n2027-03-08,3,--\n")
    days = told["yard"].days
    assert days == {
        MARCH_6: WeatherDay(MARCH_6, rain_mm=0.0),
        date(2027, 3, 8): WeatherDay(date(2027, 3, 8), low_c=3.0),
    }
    # The 7th has a row, and nothing in it.
    assert told.only().code == "missing-days"


SOUND = "2027-03-01,2,8,0\n"


@pytest.mark.parametrize(
    ("row", "code", "over", "message"),
    [
        ("2027-03-02,9,1,0", "contradiction", "1", "low of 2027-03-02, 9 °C, is above the"),
        ("2027-03-02,1,61,0", "impossible-value", "61", "high of 61 °C cannot be"),
        ("2027-03-02,-90.5,6,0", "impossible-value", "-90.5", "expected -90 to 57 °C"),
        ("2027-03-02,1,6,-1", "impossible-value", "-1", "rain of -1 mm cannot be"),
        ("2027-03-02,1,6,2001", "impossible-value", "2001", "expected 0 to 2000 mm"),
        ("2027-02-30,1,6,0", "no-such-date", "2027-02-30", "there is no 2027-02-30"),
        ("6.3.2027,1,6,0", "bad-date", "6.3.2027", "“6.3.2027” is no date"),
        ("03/06/2027,1,6,0", "bad-date", "03/06/2027", "“03/06/2027” is no date"),
        (",1,6,0", "bad-date", ",", "there is no date here"),
        ("2027-03-01,1,6,0", "repeated-day", "2027-03-01",
         "2027-03-01 stands in line 2 and again in line 3"),
        ("2027-03-02,l2,6,0", "bad-number", "l2", "“l2” is no number"),
        ("2027-03-02,1_0,16,0", "bad-number", "1_0", "“1_0” is no number"),
        ("2027-03-02,1,inf,0", "bad-number", "inf", "“inf” is no number"),
        ("2027-06-02,1,9,0", "future-date", "2027-06-02", "2027-06-02 has not come yet"),
        ("2027-03-02,1,5,9,0,0", "wrong-row", "2027-03-02,1,5,9,0,0", "6 cells"),
        ("2027-03-02,1", "wrong-row", "2027-03-02,1", "this row has 2 cells"),
    ],
)  # fmt: skip
def test_a_slip_in_a_row(tell_file, mark, row, code, over, message) -> None:
    told = tell_file(f"date,low,high,rain\n{SOUND}{row}\n2027-03-03,3,9,1\n", on="2027-06-01")
    found = [problem for problem in told.problems if problem.code != "missing-days"]
    assert [(p.code, p.file, p.line, p.source) for p in found] == [(code, "station.csv", 3, row)]
    assert message in found[0].message
    assert found[0].hint
    if over != ",":
        assert mark(found[0]) == over
    days = told["yard"].days
    # The rest is used.
    assert days[date(2027, 3, 1)] == WeatherDay(date(2027, 3, 1), 2.0, 8.0, 0.0)
    assert days[date(2027, 3, 3)] == WeatherDay(date(2027, 3, 3), 3.0, 9.0, 1.0)
    if code == "contradiction":
        assert days[date(2027, 3, 2)] == WeatherDay(date(2027, 3, 2), rain_mm=0.0)
    if over == "61":
        assert days[date(2027, 3, 2)] == WeatherDay(date(2027, 3, 2), 1.0, None, 0.0)


def test_humidity_over_a_hundred(tell_file, mark) -> None:
    told = tell_file("date,humidity\n2027-03-06,101\n2027-03-07,100\n")
    assert (told.only().code, mark(told.only())) == ("impossible-value", "101")
    assert list(told["yard"].days) == [MARCH_7]


def test_a_decimal_comma_between_commas_is_told(tell_file) -> None:
    told = tell_file("date,low,high\n2027-03-06,1,5,9,0\n")
    assert told.only().hint == ("If commas are decimal commas, put semicolons between the cells.")


def test_later_rows_are_left_out_with_as_of(tell_file) -> None:
    text = "date,low,high\n2027-03-06,1,9\n2027-03-07,2,9\n"
    told = tell_file(text, on="2027-03-06", as_of=True)
    assert told.problems == []
    assert list(told["yard"].days) == [MARCH_6]
    told = tell_file(text, on="2027-03-06")
    assert told.only().code == "future-date"
    assert list(told["yard"].days) == [MARCH_6]


def test_gaps_are_one_warning(tell_file) -> None:
    days = (1, 2, 4, 9, 10)
    told = tell_file("date,low\n" + "".join(f"2027-03-{day:02},1\n" for day in days))
    problem = told.only()
    assert (problem.code, problem.severity, problem.line) == ("missing-days", "warning", 5)
    assert problem.source == "2027-03-09,1"
    assert problem.message == (
        "5 days missing between 2027-03-01 and 2027-03-10, the longest gap 4 days from 2027-03-05"
    )


def test_rows_may_stand_in_any_order(tell_file) -> None:
    told = tell_file("date,low\n2027-03-07,2\n2027-03-06,1\n")
    assert told.problems == []
    assert list(told["yard"].days) == [MARCH_6, MARCH_7]


@pytest.mark.parametrize(
    ("header", "code", "severity", "over", "hint"),
    [
        ("date,low,hihg", "unknown-column", "warning", "hihg", "Did you mean “high”?"),
        ("date,low,low C", "repeated-column", "warning", "low C", "The first was taken."),
        ("date,low,high K", "unknown-unit", "warning", "high K", "Known: c, celsius"),
        ("date,low,wind,wind direction", "unknown-unit", "warning", "wind direction", "km/h"),
        ("low,high,rain", "missing-column", "error", "low,high,rain", "date, low, high, rain"),
        ("date,kites,hares", "missing-column", "error", "date,kites,hares", "date, low"),
    ],
)
def test_a_slip_in_the_header(tell_file, mark, header, code, severity, over, hint) -> None:
    row = "2027-03-06,1,,9" if "wind" in header else "2027-03-06,1,9"
    told = tell_file(f"{header}\n{row}\n")
    found = next(problem for problem in told.problems if problem.code == code)
    assert (found.severity, found.line, found.source) == (severity, 1, header)
    assert mark(found) == over
    assert hint in found.hint
    days = told["yard"].days
    assert days == ({} if code == "missing-column" else {MARCH_6: WeatherDay(MARCH_6, 1.0)})


def test_twenty_problems_in_full_and_the_rest_counted(tell_file) -> None:
    rows = "".join(f"2026-{month:02}-{day:02},99\n" for month in (1, 3) for day in range(1, 31))
    told = tell_file(f"date,low\n{rows}2026-05-01,4\n")
    assert told.codes == ["impossible-value"] * 20 + ["many-problems"]
    # 60 rows, of which 20 are shown.
    assert told.problems[-1].message == "40 more problems in this file"
    assert list(told["yard"].days) == [date(2026, 5, 1)]
