"""What is told of a date's own line, and of an hour that is not written as hours are: each hint,
followed, reads."""

from __future__ import annotations

import pytest

CARD = "place yard\ntree hoshi\n  kind  trident maple\n\n"
BELOW = (
    "For example: low -1 C, high 6 C, snow. Free words go below, on a line that begins with noted."
)


def hints(written, text: str) -> list[str]:
    session = written(CARD + text, any_problems=True)
    return [p.hint for p in (*session.problems(), *session.words_kept()) if p.file and p.line > 4]


@pytest.mark.parametrize(
    ("line", "hint"),
    [
        ("low 2 C -- fog", f"Expected: low and a temperature such as 4 C. {BELOW}"),
        (
            "-4 to 3 C",
            f"Expected: low, high, rain, wind, sun, humidity, frost, snow, … {BELOW}",
        ),
        ("snow 5 cm", BELOW),
        ("7:30", "An hour is two digits, a colon and two digits: 07:30"),
    ],
)
def test_the_first_line_of_a_page_takes_no_remark(written, line, hint) -> None:
    assert hints(written, f"2026-11-12   {line}\nhoshi\n  watered\n") == [hint]


def test_what_the_first_line_is_told_reads(written) -> None:
    page = "2026-11-12 07:30   low -1 C, high 6 C, snow\nyard\n  noted  fog\nhoshi\n  watered\n"
    assert hints(written, page) == []


@pytest.mark.parametrize(
    ("line", "hint"),
    [
        ("8:45 watered", "An hour is two digits, a colon and two digits: 08:45 watered"),
        ("8h45 watered", "An hour is two digits, a colon and two digits: 08:45 watered"),
        ("08:45 watered", None),
    ],
)
def test_an_hour_is_written_with_two_digits(written, line, hint) -> None:
    told = hints(written, f"2026-11-12\nhoshi\n  {line}\n")
    assert told == ([hint] if hint else [])
