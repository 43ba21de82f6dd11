"""Asks the Unicode CLDR, through Babel, how another language than English writes days."""

from __future__ import annotations

from datetime import date
from functools import lru_cache

ENGLISH_MONTHS = (
    "January", "February", "March", "April", "May", "June", "July", "August", "September",
    "October", "November", "December",
)  # fmt: skip
# Every page tells dozens of days: sooner found in a year of them than put together.
ENGLISH_DAYS = tuple(
    tuple(f"{number} {month}" for number in range(1, 32)) for month in ENGLISH_MONTHS
)


def month_names(language: str) -> tuple[str, ...]:
    """The twelve months as they stand alone, January first."""
    return _names("months", language, range(1, 13))


def weekday_names(language: str) -> tuple[str, ...]:
    """The seven days of the week, Monday first."""
    return _names("days", language, range(7))


# Thousands of trees are told of on the same days.
@lru_cache(maxsize=16384)
def written_day(on: date, language: str, with_year: bool = False) -> str:
    """`6. März`, `6. März 2027`."""
    from babel.dates import format_skeleton

    return format_skeleton("yMMMMd" if with_year else "MMMMd", on, locale=language)


@lru_cache(maxsize=16)
def _names(sort: str, language: str, numbers: range) -> tuple[str, ...]:
    from babel import Locale

    named = getattr(Locale.parse(language), sort)["stand-alone"]["wide"]
    return tuple(named[number] for number in numbers)
