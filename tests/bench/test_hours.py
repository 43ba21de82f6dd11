"""Minutes learned from worked lines: by hand, and against the standard library's median."""

from __future__ import annotations

from math import inf, nan
from statistics import median

import pytest
from hypothesis import given
from hypothesis import strategies as st

from backbud.bench.hours import learned_minutes, minutes_for, size_class

WORKED = [
    ("repotted", 18, 40),
    ("repotted", 15, 50),
    ("repotted", 20, 35),
    ("repotted", 70, 180),
    ("repotted", 80, 240),
    ("repotted", 90, 150),
    ("repotted", 65, 200),
    ("wired", 18, 90),
    ("wired", 18, 120),
    ("wired", None, 30),
    ("wired", None, 45),
    ("wired", None, 600),
]


@pytest.mark.parametrize(
    ("act", "size_cm", "minutes"),
    [
        # 35, 40, 50: the middle one.
        ("repotted", 12, 40),
        # 150, 180, 200, 240: between the two middle ones.
        ("repotted", 100, 190),
        # None of this size; two only; never worked.
        ("repotted", 30, 60),
        ("wired", 18, 60),
        ("pruned", 18, 60),
        # Trees whose height is not known are a class of their own; one long day tips nothing.
        ("wired", None, 45),
        ("repotted", None, 60),
    ],
)
def test_the_median_or_the_default(act: str, size_cm: float | None, minutes: float) -> None:
    assert minutes_for(act, size_cm, learned_minutes(WORKED), 60) == minutes


@given(st.lists(st.integers(1, 600), max_size=12))
def test_the_median_is_the_standard_librarys(minutes: list[int]) -> None:
    learned = learned_minutes(("wired", 30, taken) for taken in minutes)
    expected = median(minutes) if len(minutes) >= 3 else 77
    assert minutes_for("wired", 30, learned, 77) == expected


@pytest.mark.parametrize(
    ("size_cm", "name"),
    [
        (None, ""),
        (4, "mame"),
        (10, "mame"),
        (10.1, "shohin"),
        (20, "shohin"),
        (35, "kifu"),
        (36, "chuhin"),
        (60, "chuhin"),
        (61, "dai"),
        (200, "dai"),
    ],
)
def test_size_classes_to_their_limits(size_cm: float | None, name: str) -> None:
    assert size_class(size_cm) == name


def test_what_makes_no_sense() -> None:
    for minutes in (0, -5, nan, inf):
        with pytest.raises(ValueError, match="minutes of wired, above 0"):
            learned_minutes([("wired", 30, minutes)])
    for size_cm in (0, -5, nan, inf):
        with pytest.raises(ValueError, match="height in cm, above 0"):
            learned_minutes([("wired", size_cm, 30)])
