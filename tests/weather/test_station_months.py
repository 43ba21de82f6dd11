"""A met office's monthly text: the published shape, an invented station."""

from __future__ import annotations

from datetime import date

import pytest

from backbud.journal.weather.series import MonthWeather

HEAD = """\
Nether Sallow
Location: 277300E 274900N, Lat 52.358 Lon -3.802, 301 metres amsl
Estimated data is marked with a * after the value.
Missing data (more than 2 days missing in month) is marked by  ---.
Sunshine data taken from an automatic sensor marked with a #, otherwise from a recorder.
   yyyy  mm   tmax    tmin      af    rain     sun
              degC    degC    days      mm   hours
"""
YEAR = """\
   2025   1    4.5    -1.9      20    ---     57.2
   2025   2    7.3     0.9      15    60.1    87.2#
   2025   3    8.4*    3.1*      3    80.4   ---
   2025   4   10.8     3.7       1    ---    107.4
   2025   5   15.8     5.8       1    54.0   213.5
   2025   6   16.9     8.2       0    70.2   209.4
   2025   7   18.5     9.5       0    88.0   167.8
   2025   8   19.0    10.5       0    91.5   164.8
   2025   9   18.3     5.9       0    40.0   196.5
   2025  10   14.8     7.9       1    99.9   101.1
   2025  11    8.8     3.9       3   120.0    38.9
   2025  12    7.0     2.2       9   140.1    20.5#  Provisional
"""
CARDS = "place yard\n  weather {}\n"


def test_the_months(tell) -> None:
    told = tell(CARDS.format("nether.txt"), files={"nether.txt": HEAD + YEAR})
    assert told.problems == []
    record = told["yard"]
    assert len(record.months) == 12
    assert record.months[2025, 1] == MonthWeather(2025, 1, -1.9, 4.5, None, 57.2)
    assert record.months[2025, 2] == MonthWeather(2025, 2, 0.9, 7.3, 60.1, 87.2)
    assert record.months[2025, 3] == MonthWeather(2025, 3, 3.1, 8.4, 80.4, None)
    assert record.months[2025, 12] == MonthWeather(2025, 12, 2.2, 7.0, 140.1, 20.5)
    assert record.days == {}
    (source,) = record.sources
    assert (source.form, source.station) == ("monthly station text", "Nether Sallow")
    assert (source.first, source.last) == (date(2025, 1, 1), date(2025, 12, 1))
    assert (source.months, source.estimated_values) == (12, 2)
    position = record.position
    assert (position.latitude, position.longitude, position.elevation_m) == (52.358, -3.802, 301)


def test_a_station_that_moved_stands_where_it_stands_now(tell) -> None:
    moved = HEAD.replace(
        "Location: 277300E 274900N, Lat 52.358 Lon -3.802, 301 metres amsl",
        "Location 4489E 5101N, Lat 54.1 Lon -0.6, 41m amsl (until 2000) & \n"
        "          4890E 5114N, Lat 54.5 Lon -0.7, 60m amsl (from 2000)",
    )
    told = tell(CARDS.format("a.txt"), files={"a.txt": moved + YEAR})
    assert told["yard"].latitude == 54.5
    assert told["yard"].elevation_m == 60


def test_means_over_the_years(tell) -> None:
    other = "".join(
        f"   2026  {month:2}   {10 + month:4}.0    {month:4}.0   0   {month * 10}.0   ---\n"
        for month in range(1, 13)
    )
    told = tell(CARDS.format("a.txt"), files={"a.txt": HEAD + YEAR + other})
    record = told["yard"]
    assert record.means is not None
    assert (record.means_from, record.means_place) == ("station months", "yard")
    # By hand: (-1.9 + 1) / 2, (4.5 + 11) / 2; rain of January is known in one year only.
    assert record.means.low_c[0] == pytest.approx(-0.45)
    assert record.means.high_c[0] == pytest.approx(7.75)
    assert record.means.rain_mm[:2] == pytest.approx((10.0, (60.1 + 20) / 2))


def test_means_are_of_the_last_thirty_years(tell) -> None:
    rows = "".join(
        f"   {year}  {month}   20.0   {5.0 if year >= 1990 else -40.0}  0  10.0  ---\n"
        for year in range(1960, 2020)
        for month in range(1, 13)
    )
    means = tell(CARDS.format("a.txt"), files={"a.txt": HEAD + rows})["yard"].means
    assert means is not None
    assert means.low_c == (5.0,) * 12


def test_means_need_every_month(tell) -> None:
    eleven = "\n".join(YEAR.splitlines()[:11])
    assert tell(CARDS.format("a.txt"), files={"a.txt": HEAD + eleven})["yard"].means is None


@pytest.mark.parametrize(
    ("row", "code", "over"),
    [
        ("   2026   1    4.5     9.9      20    10.0    57.2", "contradiction", "9.9"),
        ("   2026   1   61.0     0.9      20    10.0    57.2", "impossible-value", "61.0"),
        ("   2026   1    4.5     0.9      20   -10.0    57.2", "impossible-value", "-10.0"),
        ("   2026   1    4.5     O.9      20    10.0    57.2", "bad-number", "O.9"),
        ("   2026  13    4.5     0.9      20    10.0    57.2", "no-such-date", "13"),
        ("   2025   3    4.5     0.9      20    10.0    57.2", "repeated-month", "2025"),
        ("   2027   7    4.5     0.9      20    10.0    57.2", "future-date", "2027"),
        ("   202x   1    4.5     0.9      20    10.0    57.2", "bad-date", "202x"),
        ("   2026   4    4.5     0.9      20    10.0    57.2", "missing-months", " "),
    ],
)
def test_a_slip(tell, mark, row, code, over) -> None:
    told = tell(CARDS.format("a.txt"), files={"a.txt": f"{HEAD}{YEAR}{row}\n"})
    problem = told.only()
    assert (problem.code, problem.file, problem.line, problem.source) == (code, "a.txt", 20, row)
    assert mark(problem) == over
    assert problem.hint
    assert told["yard"].months[2025, 12].low_c == 2.2
    if code == "repeated-month":
        assert "line 10 and again in line 20" in problem.message
    if code == "missing-months":
        assert "3 months missing between 2025-01 and 2026-04" in problem.message
        assert "the longest gap 3 months from 2026-01" in problem.message


def test_a_closed_station_and_later_months_with_as_of(tell) -> None:
    told = tell(
        CARDS.format("a.txt"),
        files={"a.txt": f"{HEAD}{YEAR}Site closed\n"},
        on="2025-11-30",
        as_of=True,
    )
    assert told.problems == []
    assert max(told["yard"].months) == (2025, 11)
