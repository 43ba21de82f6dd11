"""GHCN-Daily in both published shapes; the station is made up, the shape is NOAA's own."""

from __future__ import annotations

from datetime import date

import pytest
from refet import calcs
from vega_datasets import data

from backbud.climate.days import WeatherDay

MARCH_6, MARCH_7 = date(2027, 3, 6), date(2027, 3, 7)

WIDE = (
    '"STATION","DATE","LATITUDE","LONGITUDE","ELEVATION","NAME","PRCP","PRCP_ATTRIBUTES","SNOW",'
    '"SNOW_ATTRIBUTES","TMAX","TMAX_ATTRIBUTES","TMIN","TMIN_ATTRIBUTES","AWND","AWND_ATTRIBUTES"\n'
    '"USW00099999","2027-03-06","47.45","-122.31","112.5","NETHER SALLOW, WA US","  109",'
    '"T,,W,2400",,,"  106",",,W","   28",",,W","   45",",,W"\n'
    '"USW00099999","2027-03-07","47.45","-122.31","112.5","NETHER SALLOW, WA US","    0",'
    '",,W,2400","    0",",,W","  -11",",,W","  -50",",I,W",,\n'
)

LONG = """\
USW00099999,20270306,TMAX,106,,,W,
USW00099999,20270306,TMIN,28,,,W,
USW00099999,20270306,PRCP,109,,,W,2400
USW00099999,20270306,SNWD,0,,,W,
USW00099999,20270307,TMAX,-11,,,W,
USW00099999,20270307,TMIN,-50,,I,W,
USW00099999,20270307,PRCP,0,T,,W,2400
USW00099999,20270308,TMIN,-9999,,,W,
"""


def test_a_row_a_day(tell_file) -> None:
    told = tell_file(WIDE)
    assert told.problems == []
    first, second = told["yard"].days.values()
    assert (first.day, first.low_c, first.high_c, first.rain_mm) == (MARCH_6, 2.8, 10.6, 10.9)
    # The wind at 10 m brought down to 2 m by another implementation of FAO-56 eq. 47.
    assert first.wind_m_per_s == pytest.approx(float(calcs._wind_height_adjust(4.5, 10.0)))
    # TMIN has a quality flag.
    assert second == WeatherDay(MARCH_7, None, -1.1, 0.0)
    (source,) = told["yard"].sources
    assert source.form == "GHCN-Daily, a row a day"
    assert (source.station, source.flagged_values) == ("NETHER SALLOW, WA US", 1)


@pytest.mark.parametrize(
    "text",
    [
        LONG,
        "ID,DATE,ELEMENT,DATA_VALUE,M_FLAG,Q_FLAG,S_FLAG,OBS_TIME\n" + LONG,
        LONG.replace("202703", "2027-03-").replace("-03-0", "-03-0"),
        LONG.replace("\n", "\r\n"),
    ],
)
def test_a_row_an_element(tell_file, text) -> None:
    told = tell_file(text, "2027.csv")
    assert told.problems == []
    assert dict(told["yard"].days) == {
        MARCH_6: WeatherDay(MARCH_6, 2.8, 10.6, 10.9),
        MARCH_7: WeatherDay(MARCH_7, None, -1.1, 0.0),
    }
    (source,) = told["yard"].sources
    assert source.form == "GHCN-Daily, a row an element"
    assert (source.station, source.flagged_values) == ("USW00099999", 1)


def test_the_station_tells_where_a_place_is_that_says_nothing_else(tell) -> None:
    told = tell("place yard\n  weather a.csv\n", files={"a.csv": WIDE})
    position = told["yard"].position
    assert (position.latitude, position.longitude, position.elevation_m) == (47.45, -122.31, 112.5)
    assert (position.known_from, position.place) == ("weather file", "yard")


@pytest.mark.parametrize(
    ("row", "code", "over"),
    [
        ("USW00099999,20270306,TMIN,30,,,W,", "repeated-day", "20270306"),
        ("USW00099999,20270308,TMAX,601,,,W,", "impossible-value", "601"),
        ("USW00099999,20270231,TMAX,60,,,W,", "no-such-date", "20270231"),
        ("USW00099999,20270308,PRCP,x,,,W,", "bad-number", "x"),
        ("USW00099999,20270308", "wrong-row", "USW00099999,20270308"),
        ("USW00099999,20270602,TMAX,60,,,W,", "future-date", "20270602"),
        ("USW00099998,20270308,TMAX,60,,,W,", "several-stations", "USW00099998"),
    ],
)
def test_a_slip_in_a_row_an_element(tell_file, mark, row, code, over) -> None:
    told = tell_file(f"{LONG}{row}\n")
    problem = told.only()
    assert (problem.code, problem.line, problem.source) == (code, 9, row)
    assert mark(problem) == over
    assert told["yard"].days[MARCH_6] == WeatherDay(MARCH_6, 2.8, 10.6, 10.9)
    if code == "repeated-day":
        assert "line 2 and again in line 9" in problem.message


def test_a_slip_in_a_row_a_day(tell_file, mark) -> None:
    again = WIDE.splitlines()[1]
    told = tell_file(f"{WIDE}{again}\n")
    assert (told.only().code, mark(told.only())) == ("repeated-day", "2027-03-06")
    assert "line 2 and again in line 4" in told.only().message
    told = tell_file(f"{WIDE}{again[:50]}\n")
    assert (told.only().code, told.only().line) == ("wrong-row", 4)
    told = tell_file(WIDE.replace('"  106"', '"   10"'))
    assert (told.only().code, told.only().line) == ("contradiction", 2)
    assert told["yard"].days[MARCH_6].low_c is None


def test_numbers_with_a_point_are_no_tenths_and_nothing_is_guessed(tell_file, mark) -> None:
    # As NOAA's order form gives it in °F and inches.
    head = '"STATION","NAME","DATE","PRCP","TMAX","TMIN"'
    told = tell_file(f'{head}\n"USW00099999","X","2027-03-06","0.43","51","37"\n')
    problem = told.only()
    assert (problem.code, mark(problem)) == ("not-tenths", "0.43")
    assert "rain inch" in problem.hint
    assert told["yard"].days == {}


# ------------------------------------------------------------------ Seattle, an open series


def seattle() -> dict[date, tuple[float, float, float]]:
    """Low and high in °C and rain in mm: NOAA's Seattle 2012-2015, as vega_datasets has it."""
    frame = data.seattle_weather()
    return {
        day.date(): (low, high, rain)
        for day, low, high, rain in zip(
            frame["date"], frame["temp_min"], frame["temp_max"], frame["precipitation"], strict=True
        )
    }


def in_tenths(value: float) -> int:
    return round(value * 10)


def as_published() -> str:
    with open(data.seattle_weather.filepath) as file:
        return file.read()


def as_rows_a_day() -> str:
    elements = (f'"{name}","{name}_ATTRIBUTES"' for name in ("PRCP", "TMAX", "TMIN"))
    head = ",".join(('"STATION","DATE"', *elements))
    return "\n".join(
        [
            head,
            *(
                f'"USW00024233","{day}","{in_tenths(rain):5}",",,W,2400",'
                f'"{in_tenths(high):5}",",,W","{in_tenths(low):5}",",,W"'
                for day, (low, high, rain) in seattle().items()
            ),
        ]
    )


def as_rows_an_element() -> str:
    return "\n".join(
        f"USW00024233,{day:%Y%m%d},{element},{in_tenths(value)},,,W,"
        for day, (low, high, rain) in seattle().items()
        for element, value in (("TMIN", low), ("TMAX", high), ("PRCP", rain))
    )


def as_plain() -> str:
    return "\n".join(
        [
            "date;low;high;rain",
            *(
                f"{day};{low};{high};{rain}".replace(".", ",")
                for day, (low, high, rain) in seattle().items()
            ),
        ]
    )


@pytest.mark.parametrize("text", [as_published, as_rows_a_day, as_rows_an_element, as_plain])
def test_seattle_comes_back_day_by_day(tell_file, text) -> None:
    told = tell_file(text())
    read = {
        day: (found.low_c, found.high_c, found.rain_mm) for day, found in told["yard"].days.items()
    }
    assert len(read) == 1461
    assert read == seattle()
    # The published table has a column in words.
    assert told.codes == (["unknown-column"] if text is as_published else [])


def test_means_of_seattle_are_those_of_pandas(tell_file) -> None:
    told = tell_file(as_plain())
    record = told["yard"]
    frame = data.seattle_weather().set_index("date")
    monthly = frame.resample("MS").agg(
        {"temp_min": "mean", "temp_max": "mean", "precipitation": "sum"}
    )
    means = monthly.groupby(monthly.index.month).mean()
    assert record.means is not None
    assert record.means_from == "daily series"
    assert record.means.low_c == pytest.approx(list(means["temp_min"]))
    assert record.means.high_c == pytest.approx(list(means["temp_max"]))
    assert record.means.rain_mm == pytest.approx(list(means["precipitation"]))
