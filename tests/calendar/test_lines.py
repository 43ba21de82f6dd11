"""Content lines against the icalendar library, which did not write them."""

from __future__ import annotations

from datetime import date, timedelta
from typing import Any

import icalendar
import pytest
from hypothesis import given
from hypothesis import strategies as st

from backbud.calendar.lines import content_line, day_value, hours_value, one_line, text_line

TEXT = st.text(
    st.characters(exclude_categories=["Cs"]) | st.sampled_from("\\;,:\n 🌳ש"), max_size=300
)


@given(TEXT)
def test_a_text_is_written_as_the_library_reads_it(text: str) -> None:
    plain = "\n".join(one_line(line) for line in text.split("\n"))
    event = b"BEGIN:VEVENT\r\n" + text_line("SUMMARY", plain) + b"END:VEVENT\r\n"
    assert icalendar.Event.from_ical(event)["SUMMARY"] == plain


@given(st.text("ab;,\\ é星🌳", max_size=400))
def test_a_line_is_folded_no_worse_than_by_the_library(text: str) -> None:
    ours = text_line("SUMMARY", text)
    assert ours.replace(b"\r\n ", b"") == b"SUMMARY:" + icalendar.vText(text).to_ical() + b"\r\n"
    lines = ours.removesuffix(b"\r\n").split(b"\r\n")
    assert max(map(len, lines)) <= 75  # RFC 5545 §3.1, without the line break
    for line in lines:
        line.decode()
    # no line but the last has room for another character of up to four octets
    assert all(len(line) > 71 for line in lines[:-1])


@pytest.mark.parametrize(
    ("octets", "lines"), [(74, 1), (75, 1), (76, 2), (75 + 74, 2), (75 + 74 + 1, 3)]
)
def test_where_a_line_is_folded(octets: int, lines: int) -> None:
    line = content_line("X", "x" * (octets - 2))
    assert line.count(b"\r\n") == lines


@given(st.integers(-9000, 9000))
def test_hours_are_a_duration_as_the_library_reads_it(hours: int) -> None:
    value: Any = icalendar.vDuration.from_ical(hours_value(timedelta(hours=hours)))
    assert value == timedelta(hours=hours)


@given(st.dates(date(1000, 1, 1)))
def test_a_day_is_a_date_as_the_library_reads_it(day: date) -> None:
    assert icalendar.vDate.from_ical(day_value(day)) == day
