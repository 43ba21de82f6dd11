"""The days that a date without a whole year may mean, by the day of the page above it.

`21/11/26` is a day of a century that nobody wrote, and `Mo` the first Monday from then on.
"""

from __future__ import annotations

import re
from datetime import date, timedelta

from backbud_grammar.date_names import months_named, weekdays_named
from backbud_grammar.handles import fold

_WORD = re.compile(r"[^\W\d_]+")
_NUMBER = re.compile(r"[0-9]+")
_CENTURY = 2000
_SATURDAY = date(2026, 11, 21)
# German, Dutch and French by two letters, Monday first; from memory. Each is one day in all three,
# or in the one that writes it so.
_TWO_LETTERS = ("mo ma lu", "di", "mi wo me", "do je", "fr vr ve", "sa za", "so zo")


def weekday_of(word: str) -> int | None:
    """The day of the week that a word names, Monday 0; by two letters too. None where none or
    several."""
    folded = fold(word)
    if len(folded) == 2:
        return next((n for n, names in enumerate(_TWO_LETTERS) if folded in names.split()), None)
    named = weekdays_named(word)
    return named.pop() if len(named) == 1 and not months_named(word) else None


def is_weekday_alone(text: str) -> bool:
    """Whether a line is the name of a weekday and nothing else: `Mo`, `Sat.`, `Monday:`"""
    words = _WORD.findall(text)
    return len(words) == 1 and not _NUMBER.search(text) and weekday_of(words[0]) is not None


def days_of_short_year(text: str, above: date | None) -> list[str]:
    """The days that a date with a year of two figures may mean, in any order of its numbers.

    Of several only those of the years around the page above, if it has one.
    """
    numbers = [int(number) for number in _NUMBER.findall(text) if len(number) <= 2]
    if len(numbers) != len(_NUMBER.findall(text)):
        return []
    names = [word for word in _WORD.findall(text) if len(word) > 2]
    months = [found for word in names if (found := months_named(word)) and not weekdays_named(word)]
    if len(months) == 1 and len(months[0]) == 1 and len(numbers) == 2:
        [month] = months[0]
        orders = [(numbers[1], month, numbers[0]), (numbers[0], month, numbers[1])]
    elif not months and len(numbers) == 3:
        one, two, three = numbers
        orders = [(three, two, one), (three, one, two), (one, two, three)]
    else:
        return []
    days = [day for order in dict.fromkeys(orders) if (day := _day(*order)) is not None]
    if above is not None:
        # Nobody writes of years to come.
        days = [day for day in days if day.year <= above.year + 1]
    near = [day for day in days if above is not None and abs(day.year - above.year) <= 1]
    return [day.isoformat() for day in dict.fromkeys(near or days)]


def _day(year: int, month: int, day: int) -> date | None:
    try:
        return date(_CENTURY + year, month, day)
    except ValueError:
        return None


def next_weekday(text: str, above: date | None) -> list[str]:
    """The first day from the page above on that a weekday alone may mean."""
    if above is None or not is_weekday_alone(text):
        return []
    named = weekday_of(_WORD.findall(text)[0])
    assert named is not None
    ahead = (named - above.weekday() - 1) % 7 + 1
    return [(above + timedelta(days=ahead)).isoformat()] if above < date.max - timedelta(7) else []


def hint_of_wrong_weekday(text: str, days: list[str]) -> str:
    """What to write where the date is of another weekday than the one that is named; or ""."""
    named = {found for word in _WORD.findall(text) if (found := weekday_of(word)) is not None}
    exact = [day for day in days if len(day) == len("2027-03-06")]
    if len(named) != 1 or not exact:
        return ""
    wanted, day = named.pop(), date.fromisoformat(exact[0])
    if len(exact) > 1:
        told = " nor ".join(f"{one} ({date.fromisoformat(one):%A})" for one in exact)
        return f"Neither {told} is a {_SATURDAY + timedelta(days=wanted - 5):%A}: mend one of them."
    apart = (wanted - day.weekday() + 3) % 7 - 3
    if not apart or not date.min + timedelta(7) < day < date.max - timedelta(7):
        return ""
    other = day + timedelta(days=apart)
    return f"{day} is a {day:%A}: write {day}, or {other} for the {other:%A}."
