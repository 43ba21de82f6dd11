"""Asks the Unicode CLDR, through Babel, how another language than English writes days."""

from __future__ import annotations

from datetime import date, timedelta
from functools import lru_cache
from typing import Literal

ENGLISH_MONTHS = (
    "January", "February", "March", "April", "May", "June", "July", "August", "September",
    "October", "November", "December",
)  # fmt: skip
# Every page tells dozens of days: sooner found in a year of them than put together.
ENGLISH_DAYS = tuple(
    tuple(f"{number} {month}" for number in range(1, 32)) for month in ENGLISH_MONTHS
)


# How long a name is, as the CLDR calls it: `Dienstag`, `Di`.
Width = Literal["wide", "abbreviated"]


def month_names(language: str, width: Width = "wide") -> tuple[str, ...]:
    """The twelve months as they stand alone, January first."""
    return _names("months", language, width, range(1, 13))


def weekday_names(language: str, width: Width = "wide") -> tuple[str, ...]:
    """The seven days of the week, Monday first."""
    return _names("days", language, width, range(7))


# Thousands of trees are told of on the same days.
@lru_cache(maxsize=16384)
def written_day(on: date, language: str, with_year: bool = False) -> str:
    """`6. März`, `6. März 2027`."""
    from babel.dates import format_skeleton

    return format_skeleton("yMMMMd" if with_year else "MMMMd", on, locale=language)


@lru_cache(maxsize=16)
def written_days(language: str) -> tuple[tuple[str, ...], ...]:
    """`6. März`, each day of a leap year, by month."""
    days = [date(2000, 1, 1) + timedelta(after) for after in range(366)]
    return tuple(
        tuple(written_day(day, language) for day in days if day.month == month)
        for month in range(1, 13)
    )


@lru_cache(maxsize=16)
def _names(sort: str, language: str, width: Width, numbers: range) -> tuple[str, ...]:
    from babel import Locale

    named = getattr(Locale.parse(language), sort)["stand-alone"][width]
    return tuple(named[number] for number in numbers)
