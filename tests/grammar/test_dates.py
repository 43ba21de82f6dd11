"""Dates as written, against the published examples of their standards and against the calendar.

EDTF: the examples of levels 0 and 1 in the Extended Date/Time Format specification, Library of
Congress, 4 February 2019 (https://www.loc.gov/standards/datetime/), each under its heading there.
ISO 8601 week dates: the examples round New Year in the encyclopedia's article “ISO week date”.
The days themselves were worked out by hand from the calendar.
"""

from __future__ import annotations

import subprocess
import sys
from datetime import date, timedelta
from itertools import pairwise

import msgspec
import pytest
from hypothesis import given
from hypothesis import strategies as st

from backbud_grammar.dates import (
    WrittenDate,
    growing_year,
    growing_year_days,
    in_extended_format,
    read_date,
    read_span,
)
from backbud_grammar.problems import Misread

ALWAYS = "0001-01-01"
FOR_EVER = "9999-12-31"


def days(written: WrittenDate) -> tuple[str, str]:
    return written.first.isoformat(), written.last.isoformat()


def flags(written: WrittenDate) -> tuple[bool, bool, bool]:
    return written.exact, written.approximate, written.uncertain


def misread(text: str, southern: bool = False, span: bool = False) -> Misread:
    with pytest.raises(Misread) as caught:
        (read_span if span else read_date)(text, southern)
    return caught.value


EDTF_DATES = [
    # Level 0: Date
    ("1985-04-12", "1985-04-12", "1985-04-12", True, False, False),
    ("1985-04", "1985-04-01", "1985-04-30", False, False, False),
    ("1985", "1985-01-01", "1985-12-31", False, False, False),
    # Level 1: Seasons
    ("2001-21", "2001-03-01", "2001-05-31", False, False, False),
    # Level 1: Qualification of a date (complete)
    ("1984?", "1984-01-01", "1984-12-31", False, False, True),
    ("2004-06~", "2004-06-01", "2004-06-30", False, True, False),
    ("2004-06-11%", "2004-06-11", "2004-06-11", False, True, True),
    # Level 1: Unspecified digit(s) from the right
    ("201X", "2010-01-01", "2019-12-31", False, False, False),
    ("20XX", "2000-01-01", "2099-12-31", False, False, False),
    ("2004-XX", "2004-01-01", "2004-12-31", False, False, False),
    ("1985-04-XX", "1985-04-01", "1985-04-30", False, False, False),
    ("1985-XX-XX", "1985-01-01", "1985-12-31", False, False, False),
]

EDTF_INTERVALS = [
    # Level 0: Time Interval
    ("1964/2008", "1964-01-01", "2008-12-31"),
    ("2004-06/2006-08", "2004-06-01", "2006-08-31"),
    ("2004-02-01/2005-02-08", "2004-02-01", "2005-02-08"),
    ("2004-02-01/2005-02", "2004-02-01", "2005-02-28"),
    ("2004-02-01/2005", "2004-02-01", "2005-12-31"),
    ("2005/2006-02", "2005-01-01", "2006-02-28"),
    # Level 1: Extended Interval, open end
    ("1985-04-12/..", "1985-04-12", FOR_EVER),
    ("1985-04/..", "1985-04-01", FOR_EVER),
    ("1985/..", "1985-01-01", FOR_EVER),
    # open start
    ("../1985-04-12", ALWAYS, "1985-04-12"),
    ("../1985-04", ALWAYS, "1985-04-30"),
    ("../1985", ALWAYS, "1985-12-31"),
    # unknown end
    ("1985-04-12/", "1985-04-12", FOR_EVER),
    ("1985-04/", "1985-04-01", FOR_EVER),
    ("1985/", "1985-01-01", FOR_EVER),
    # unknown start
    ("/1985-04-12", ALWAYS, "1985-04-12"),
    ("/1985-04", ALWAYS, "1985-04-30"),
    ("/1985", ALWAYS, "1985-12-31"),
]


@pytest.mark.parametrize(("text", "first", "last", "exact", "approximate", "uncertain"), EDTF_DATES)
def test_edtf_dates_of_levels_0_and_1(
    text: str, first: str, last: str, exact: bool, approximate: bool, uncertain: bool
) -> None:
    written = read_date(text)
    assert days(written) == (first, last)
    assert flags(written) == (exact, approximate, uncertain)
    assert written.text == text
    assert read_span(text) == written


@pytest.mark.parametrize(("text", "first", "last"), EDTF_INTERVALS)
def test_edtf_intervals_of_levels_0_and_1(text: str, first: str, last: str) -> None:
    written = read_span(text)
    assert days(written) == (first, last)
    assert flags(written) == (False, False, False)
    assert written.text == text


@pytest.mark.parametrize(
    "text",
    [
        # Level 0: Date and Time. A page is a day, so these are turned away.
        "1985-04-12T23:20:30",
        "1985-04-12T23:20:30Z",
        "1985-04-12T23:20:30-04",
        "1985-04-12T23:20:30+04:30",
        # and as people write it
        "1985-04-12 23:20",
        "1985-04-12T2320",
        "19850412T23:20",
    ],
)
def test_time_of_day_is_turned_away(text: str) -> None:
    problem = misread(text)
    assert problem.code == "bad-date"
    assert problem.message == f"“{text}” names a time of day, and a page is a day"
    assert problem.hint in ("Write 1985-04-12.", "Write 19850412.")


@pytest.mark.parametrize(
    "text",
    [
        # Level 1: Letter-prefixed calendar year; Negative calendar year
        "Y170000002",
        "Y-170000002",
        "-1985",
        # and other forms of them
        "-1985-04-12",
        "−1985",
        "0000",
        "0000-05",
        "0000-05-12",
        "0000-W05",
        "000X",
        "00XX",
    ],
)
def test_years_outside_the_calendar(text: str) -> None:
    problem = misread(text)
    assert problem.code == "bad-date"
    assert problem.message == f"“{text}” is not in the years 0001 to 9999"
    assert problem.hint == "Write a year of four digits, as 2027."


@pytest.mark.parametrize(
    ("text", "day"),
    [
        ("2004-W53-6", "2005-01-01"),
        ("2004-W53-7", "2005-01-02"),
        ("2005-W52-6", "2005-12-31"),
        ("2005-W52-7", "2006-01-01"),
        ("2006-W01-1", "2006-01-02"),
        ("2006-W52-7", "2006-12-31"),
        ("2007-W01-1", "2007-01-01"),
        ("2007-W52-7", "2007-12-30"),
        ("2008-W01-1", "2007-12-31"),
        ("2008-W01-2", "2008-01-01"),
        ("2008-W52-7", "2008-12-28"),
        ("2009-W01-1", "2008-12-29"),
        ("2009-W01-2", "2008-12-30"),
        ("2009-W01-3", "2008-12-31"),
        ("2009-W01-4", "2009-01-01"),
        ("2009-W53-4", "2009-12-31"),
        ("2009-W53-5", "2010-01-01"),
        ("2009-W53-6", "2010-01-02"),
        ("2009-W53-7", "2010-01-03"),
        # without hyphens
        ("2009W537", "2010-01-03"),
        ("2027W106", "2027-03-13"),
    ],
)
def test_week_date_is_a_day(text: str, day: str) -> None:
    written = read_date(text)
    assert days(written) == (day, day)
    assert flags(written) == (True, False, False)


@pytest.mark.parametrize(
    ("text", "first", "last"),
    [
        ("2027-W10", "2027-03-08", "2027-03-14"),
        ("2027W10", "2027-03-08", "2027-03-14"),
        ("2009-W01", "2008-12-29", "2009-01-04"),
        ("2009-W53", "2009-12-28", "2010-01-03"),
        ("9999-W52", "9999-12-27", FOR_EVER),
    ],
)
def test_week_is_rough(text: str, first: str, last: str) -> None:
    written = read_date(text)
    assert days(written) == (first, last)
    assert flags(written) == (False, False, False)


@pytest.mark.parametrize(
    ("text", "southern", "first", "last"),
    [
        ("2027-21", False, "2027-03-01", "2027-05-31"),
        ("2027-22", False, "2027-06-01", "2027-08-31"),
        ("2027-23", False, "2027-09-01", "2027-11-30"),
        # A winter begins in December of the year it is named for, here with a leap day at its end.
        ("2027-24", False, "2027-12-01", "2028-02-29"),
        ("2028-24", False, "2028-12-01", "2029-02-28"),
        ("2027-21", True, "2027-09-01", "2027-11-30"),
        ("2027-22", True, "2027-12-01", "2028-02-29"),
        ("2027-23", True, "2027-03-01", "2027-05-31"),
        ("2027-24", True, "2027-06-01", "2027-08-31"),
        ("9999-24", False, "9999-12-01", FOR_EVER),
    ],
)
def test_seasons_of_both_hemispheres(text: str, southern: bool, first: str, last: str) -> None:
    assert days(read_date(text, southern)) == (first, last)
    assert days(read_span(text, southern)) == (first, last)


def test_seasons_fill_a_year_without_gap_or_overlap() -> None:
    for southern, order in ((False, (21, 22, 23, 24)), (True, (23, 24, 21, 22))):
        parts = [read_date(f"2026-{season}", southern) for season in order]
        parts.append(read_date(f"2027-{order[0]}", southern))
        for one, after in pairwise(parts):
            assert after.first == one.last + timedelta(days=1)


@pytest.mark.parametrize(
    ("text", "first", "last", "approximate", "uncertain"),
    [
        ("2014~", "2014-01-01", "2014-12-31", True, False),
        ("2014-21~", "2014-03-01", "2014-05-31", True, False),
        ("2027-W10?", "2027-03-08", "2027-03-14", False, True),
        ("2027-W10-6%", "2027-03-13", "2027-03-13", True, True),
        ("20270306~", "2027-03-06", "2027-03-06", True, False),
        ("201X?", "2010-01-01", "2019-12-31", False, True),
        ("2028-02-XX~", "2028-02-01", "2028-02-29", True, False),
    ],
)
def test_any_date_may_be_qualified(
    text: str, first: str, last: str, approximate: bool, uncertain: bool
) -> None:
    written = read_date(text)
    assert days(written) == (first, last)
    assert flags(written) == (False, approximate, uncertain)


def test_basic_form_of_a_day() -> None:
    assert read_date("20270306") == WrittenDate(
        "2027-03-06", date(2027, 3, 6), date(2027, 3, 6), True, False, False
    )


@given(st.dates())
def test_every_day_reads_in_all_its_forms(day: date) -> None:
    year, week, weekday = day.isocalendar()
    iso = day.isoformat()
    for form in (iso, f"{year:04}-W{week:02}-{weekday}"):
        assert read_date(form) == WrittenDate(form, day, day, True, False, False)
        assert read_date(form.replace("-", "")) == WrittenDate(form, day, day, True, False, False)
    for rough in (iso[:7], iso[:4], f"{iso[:7]}-XX", f"{year:04}-W{week:02}"):
        assert read_date(rough).first <= day <= read_date(rough).last


@pytest.mark.parametrize(
    ("text", "hint"),
    [
        ("2027-02-30", "That month runs from 2027-02-01 to 2027-02-28."),
        ("2028-02-30", "That month runs from 2028-02-01 to 2028-02-29."),
        ("2027-04-31", "That month runs from 2027-04-01 to 2027-04-30."),
        ("9999-12-32", "That month runs from 9999-12-01 to 9999-12-31."),
        ("2027-03-00", "That month runs from 2027-03-01 to 2027-03-31."),
        ("20270230", "That month runs from 2027-02-01 to 2027-02-28."),
        # 1900 was no leap year, 2000 was.
        ("1900-02-29", "That month runs from 1900-02-01 to 1900-02-28."),
        ("2000-02-30", "That month runs from 2000-02-01 to 2000-02-29."),
        ("2027-13-01", "Months are 01 to 12, and stand before the day: 2027-01-13?"),
        # A turned date that does not exist either is not offered.
        ("2027-30-02", "Months are 01 to 12, and stand before the day."),
        ("2027-13-13", "Months are 01 to 12, and stand before the day."),
        ("2027-00-31", "Months are 01 to 12, and stand before the day."),
        ("2027-13", "Months are 01 to 12; 21 is spring, 22 summer, 23 autumn, 24 winter."),
        ("2027-00", "Months are 01 to 12; 21 is spring, 22 summer, 23 autumn, 24 winter."),
        # A season of level 2
        ("2027-25", "Months are 01 to 12; 21 is spring, 22 summer, 23 autumn, 24 winter."),
        ("2027-21-XX", "Months are 01 to 12; 21 is spring, 22 summer, 23 autumn, 24 winter."),
        ("2027-W53", "Weeks are 2027-W01 to 2027-W52, days 1 (Monday) to 7 (Sunday)."),
        # 31 December 2024 is in the first week of 2025.
        ("2024-W53", "Weeks are 2024-W01 to 2024-W52, days 1 (Monday) to 7 (Sunday)."),
        ("2026-W54", "Weeks are 2026-W01 to 2026-W53, days 1 (Monday) to 7 (Sunday)."),
        ("2027-W00", "Weeks are 2027-W01 to 2027-W52, days 1 (Monday) to 7 (Sunday)."),
        ("2027-W10-8", "Weeks are 2027-W01 to 2027-W52, days 1 (Monday) to 7 (Sunday)."),
        ("2027-W10-0", "Weeks are 2027-W01 to 2027-W52, days 1 (Monday) to 7 (Sunday)."),
    ],
)
def test_dates_that_do_not_exist(text: str, hint: str) -> None:
    for written in (text, f"{text}~"):
        problem = misread(written)
        assert (problem.code, problem.message) == ("no-such-date", f"There is no {text}")
        assert problem.hint == hint
        assert (problem.offset, problem.length) == (0, len(text))


@pytest.mark.parametrize(
    ("text", "hint"),
    [
        # Year first can be read one way only.
        ("2027/03/06", "Write 2027-03-06."),
        ("2027.3.6", "Write 2027-03-06."),
        ("2027-3-6", "Write 2027-03-06."),
        ("2027/13/05", "Write 2027-05-13."),
        ("2027 03 06", "Write 2027-03-06."),
        # Year last: two readings where both are days, one where only one is.
        ("06/03/2027", "It can be read two ways: write 2027-03-06 or 2027-06-03."),
        ("6.3.2027", "It can be read two ways: write 2027-03-06 or 2027-06-03."),
        ("06-03-2027", "It can be read two ways: write 2027-03-06 or 2027-06-03."),
        ("13/05/2027", "Write 2027-05-13."),
        ("05/13/2027", "Write 2027-05-13."),
        ("05/05/2027", "Write 2027-05-05."),
        # Months and weeks
        ("3/2027", "Write 2027-03."),
        ("2027/03", "Write 2027-03."),
        ("2027-3", "Write 2027-03."),
        ("202703", "Write 2027-03."),
        ("2027-W106", "Write 2027-W10-6."),
        ("2027w10", "Write 2027-W10."),
        # The 65th day of 2027: 31 + 28 + 6
        ("2027-065", "Write 2027-03-06."),
        ("2028-366", "Write 2028-12-31."),
        # In words
        ("6 March 2027", "Write 2027-03-06."),
        ("Mar 6, 2027", "Write 2027-03-06."),
        ("6th March 2027", "Write 2027-03-06."),
        ("March 2027", "Write 2027-03."),
        ("spring 2014", "Write 2014-21."),
        ("Summer 2014", "Write 2014-22."),
        ("fall 2014", "Write 2014-23."),
        ("winter 2014", "Write 2014-24."),
        ("about 2014", "Write 2014~."),
        ("c. 2014", "Write 2014~."),
        ("~2014", "Write 2014~."),
        ("2014~?", "Write 2014%."),
        ("2014?~", "Write 2014%."),
        ("1990s", "Write 199X."),
        ("201x", "Write 201X."),
        ("1985-xx-xx", "Write 1985-XX-XX."),
        # A dash where a hyphen belongs
        ("2027–03–06", "Write 2027-03-06 with hyphens."),
        ("2027\u201103\u201106", "Write 2027-03-06 with hyphens."),
        # A span where a day is wanted
        ("2027-03-06/2027-03-09", "Write a single date here."),
        ("1985-04/..", "Write a single date here."),
        ("../1985", "Write a single date here."),
        ("2027-03-06 to 2027-04-01", "Write 2027-03-06/2027-04-01 for a span."),
        ("2027-03-06–2027-04-01", "Write 2027-03-06/2027-04-01 for a span."),
        ("2027-03-06..2027-04-01", "Write 2027-03-06/2027-04-01 for a span."),
    ],
)
def test_malformed_dates_are_told_the_right_form(text: str, hint: str) -> None:
    problem = misread(text)
    assert problem.code == "bad-date"
    assert problem.hint == hint
    assert (problem.offset, problem.length) == (0, len(text))


@pytest.mark.parametrize(
    "text",
    [
        "",
        "nonsense",
        "30/02/2027",
        "06/03/27",
        "12027-03-06",
        "2XXX",
        "XXXX",
        # Level 2: digits missing in the middle
        "156X-12-25",
        "1985-XX-12",
        "2027-03-06~~",
        "2027-03-06 ",
        "2027-366",
        "marrow 2027",
        "..",
        "٢٠٢٧-٠٣-٠٦",
    ],
)
def test_what_cannot_be_guessed_is_told_the_usual_form(text: str) -> None:
    problem = misread(text)
    assert problem.code == "bad-date"
    assert problem.hint == "Write 2027-03-06, or 2027-03, 2027 or 2027~ if you know no more."


def test_a_time_on_a_day_that_does_not_exist() -> None:
    assert misread("2027-02-30T14:30").code == "no-such-date"


@given(st.text(alphabet="0123456789-./XW~?%T:YSab ä–", max_size=14))
def test_no_text_raises_anything_but_misread(text: str) -> None:
    for read in (read_date, read_span):
        try:
            written = read(text)
        except Misread as problem:
            assert problem.message and problem.hint
            assert 0 <= problem.offset <= problem.offset + problem.length <= len(text)
        else:
            assert written.first <= written.last


@pytest.mark.parametrize(
    ("text", "first", "last", "expected"),
    [
        ("2027-03-06/2027-04-01", "2027-03-06", "2027-04-01", (False, False, False)),
        ("2027-03-06/2027-03-06", "2027-03-06", "2027-03-06", (True, False, False)),
        ("2027-03-06~/2027-03-06", "2027-03-06", "2027-03-06", (False, True, False)),
        ("2028-03/2028-04", "2028-03-01", "2028-04-30", (False, False, False)),
        ("2027-W10/2027-W12", "2027-03-08", "2027-03-28", (False, False, False)),
        ("1984~/2004-06", "1984-01-01", "2004-06-30", (False, True, False)),
        ("1984/2004-06?", "1984-01-01", "2004-06-30", (False, False, True)),
        ("1984?/2004~", "1984-01-01", "2004-12-31", (False, True, True)),
        ("2027-21/2027-22", "2027-03-01", "2027-08-31", (False, False, False)),
        # The end lies within the start, so it can still come after it.
        ("2027/2027-03", "2027-01-01", "2027-03-31", (False, False, False)),
        ("9999-12-31/..", "9999-12-31", FOR_EVER, (False, False, False)),
    ],
)
def test_spans(text: str, first: str, last: str, expected: tuple[bool, bool, bool]) -> None:
    written = read_span(text)
    assert days(written) == (first, last)
    assert flags(written) == expected


def test_a_span_of_seasons_in_the_south() -> None:
    assert days(read_span("2027-24/2027-21", southern=True)) == ("2027-06-01", "2027-11-30")
    assert misread("2027-24/2027-21", span=True).code == "reversed-span"


@pytest.mark.parametrize(
    ("text", "hint"),
    [
        ("2027-04-01/2027-03-06", "Write 2027-03-06/2027-04-01."),
        ("2028/2027-06", "Write 2027-06/2028."),
        ("2027-05/2027-04-XX", "Write 2027-04-XX/2027-05."),
    ],
)
def test_reversed_spans(text: str, hint: str) -> None:
    problem = misread(text, span=True)
    assert problem.code == "reversed-span"
    assert problem.message == f"“{text}” ends before it begins"
    assert problem.hint == hint
    assert problem.length == len(text)


@pytest.mark.parametrize(
    ("text", "code", "offset", "length", "hint"),
    [
        (
            "2027-02-30/2027-03-06",
            "no-such-date",
            0,
            10,
            "That month runs from 2027-02-01 to 2027-02-28.",
        ),
        (
            "2027-03-06/2027-04-31",
            "no-such-date",
            11,
            10,
            "That month runs from 2027-04-01 to 2027-04-30.",
        ),
        ("2027-03-06/04-01", "bad-date", 11, 5, "Write the end in full: 2027-03-06/2027-04-01."),
        ("2027-03-06/10", "bad-date", 11, 2, "Write the end in full: 2027-03-06/2027-03-10."),
        (
            "2027-03-06/x",
            "bad-date",
            11,
            1,
            "Write 2027-03-06, or 2027-03, 2027 or 2027~ if you know no more.",
        ),
        ("2027-03-06T14:30/2027-03-07", "bad-date", 0, 16, "Write 2027-03-06."),
        ("03/2027", "bad-date", 0, 7, "Write 2027-03."),
        (
            "06/03/2027",
            "bad-date",
            0,
            10,
            "It can be read two ways: write 2027-03-06 or 2027-06-03.",
        ),
        ("/", "bad-date", 0, 1, "Write a date on one side at least, as in ../2027-03-06."),
        ("../..", "bad-date", 0, 5, "Write a date on one side at least, as in ../2027-03-06."),
    ],
)
def test_a_problem_in_a_span_marks_its_side(
    text: str, code: str, offset: int, length: int, hint: str
) -> None:
    problem = misread(text, span=True)
    assert (problem.code, problem.offset, problem.length) == (code, offset, length)
    assert problem.hint == hint


@pytest.mark.parametrize(
    ("day", "southern", "name", "first", "last"),
    [
        ("2027-01-01", False, "2027", "2027-01-01", "2027-12-31"),
        ("2027-12-31", False, "2027", "2027-01-01", "2027-12-31"),
        ("2027-06-30", True, "2026/27", "2026-07-01", "2027-06-30"),
        ("2027-07-01", True, "2027/28", "2027-07-01", "2028-06-30"),
        ("2027-01-01", True, "2026/27", "2026-07-01", "2027-06-30"),
        ("2099-07-01", True, "2099/00", "2099-07-01", "2100-06-30"),
        ("2009-03-01", True, "2008/09", "2008-07-01", "2009-06-30"),
        # At both ends of the calendar the growing year is cut off.
        ("0001-01-01", True, "0000/01", ALWAYS, "0001-06-30"),
        ("9999-12-31", True, "9999/00", "9999-07-01", FOR_EVER),
        ("9999-12-31", False, "9999", "9999-01-01", FOR_EVER),
    ],
)
def test_growing_year(day: str, southern: bool, name: str, first: str, last: str) -> None:
    at = date.fromisoformat(day)
    assert growing_year(at, southern) == name
    assert growing_year_days(at, southern) == (date.fromisoformat(first), date.fromisoformat(last))


def test_a_written_date_survives_msgpack() -> None:
    written = read_date("2014-21~")
    packed = msgspec.msgpack.encode(written)
    assert msgspec.msgpack.decode(packed, type=WrittenDate) == written


def test_the_module_imports_nothing_heavy() -> None:
    code = "import sys, backbud_grammar.dates; print(*{'lark', 'calendar'} & set(sys.modules))"
    out = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert out.stdout.split() == []


@pytest.mark.parametrize(
    ("basic", "extended"),
    [
        ("20270306", "2027-03-06"),
        ("20270306~", "2027-03-06~"),
        ("2027W10", "2027-W10"),
        ("2027W106", "2027-W10-6"),
        ("20270306/20270401", "2027-03-06/2027-04-01"),
        ("2027-03-XX", "2027-03-XX"),
    ],
)
def test_a_date_without_hyphens_is_shown_with_them(basic: str, extended: str) -> None:
    """The basic and the extended format of ISO 8601-1, 5.2.2 and 5.2.3, are one date."""
    assert read_span(basic).text == in_extended_format(basic) == extended
