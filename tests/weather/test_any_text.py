"""Whatever bytes a weather file holds: nothing raises, and every flaw has its place in the file."""

from __future__ import annotations

from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from backbud.climate.days import WeatherDay
from backbud.journal.read import Loaded
from backbud.journal.weather.files import read_file
from backbud.journal.weather.flaws import MOST_FLAWS
from backbud.journal.weather.limits import OF_A_DAY
from backbud.journal.weather.series import Until

HEADS = [
    "date,low,high,rain,humidity,wind km/h,sun min",
    "Date;Low F;High F",
    '"STATION","DATE","LATITUDE","NAME","PRCP","PRCP_ATTRIBUTES","TMAX","TMIN"',
    "USW00099999,20270306,TMAX,106,,,W,",
    "Lat 1.2.3 Lon 7\n yyyy mm tmax tmin af rain sun",
    "",
]
CELLS = st.one_of(
    st.sampled_from(
        ["2027-03-06", "20270307", "2027", "13", "1", "-4.5", "-9999", "---", "T", "1_0", "nan",
         "1e999", "USW00099999", "TMIN", "PRCP", '"', '""', '"a,b"', ",,X,", "9" * 5000, "\u0664",
         "2027-02-30", "*", "5.5*", "#", "Provisional"]
    ),
    st.text(max_size=6),
)  # fmt: skip
ROWS = st.lists(st.tuples(st.lists(CELLS, max_size=9), st.sampled_from(",;\t ")), max_size=12)


@given(st.sampled_from(HEADS), ROWS)
def test_any_rows_below_any_header(head: str, rows: list[tuple[list[str], str]]) -> None:
    text = "\n".join([head, *(part.join(cells).replace("\n", " ") for cells, part in rows)])
    data = text.encode(errors="replace")
    series = read_file(Loaded(data), Until(date(2027, 6, 1)))
    lines = data.decode().split("\n")
    assert len(series.flaws) <= MOST_FLAWS + 1
    for flaw in series.flaws:
        assert 0 <= flaw.line < len(lines)
        assert 1 <= flaw.column <= len(lines[flaw.line]) + 1
        assert flaw.message
        assert flaw.hint
    for day, found in series.days.items():
        assert found.day == day <= date(2027, 6, 1)
        for field, (lowest, highest, _) in OF_A_DAY.items():
            value = getattr(found, field)
            assert value is None or lowest <= value <= highest
        assert found != WeatherDay(day)
        assert found.low_c is None or found.high_c is None or found.low_c <= found.high_c


@pytest.mark.parametrize("head", HEADS)
def test_one_endless_cell(head: str) -> None:
    data = f'{head}\n"{"x" * 200_000}'.encode()
    series = read_file(Loaded(data), Until(date(2027, 6, 1)))
    # In a monthly text it is a remark below the table.
    assert series.flaws or "yyyy" in head
    assert series.days == {} or head.startswith("USW")
