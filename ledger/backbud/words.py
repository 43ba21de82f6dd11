"""Puts dates, windows and counts into plain words, the same on every page."""

from __future__ import annotations

import re
from datetime import date, timedelta
from decimal import Decimal
from functools import lru_cache
from typing import Protocol

from backbud import cldr
from backbud.bench.money import digits_of
from backbud.tongue import (
    ENGLISH,
    counted_phrase,
    day_and_month,
    decimal,
    full_day,
    phrase,
    spoken,
    spoken_months,
)
from backbud_grammar.act_words import ActWord


class WindowDays(Protocol):
    """A first, a best and a last day."""

    @property
    def opens(self) -> date: ...
    @property
    def best(self) -> date: ...
    @property
    def closes(self) -> date: ...


class Written(Protocol):
    """A date as written, and the days it can mean."""

    @property
    def text(self) -> str: ...
    @property
    def first(self) -> date: ...
    @property
    def last(self) -> date: ...
    @property
    def approximate(self) -> bool: ...
    @property
    def uncertain(self) -> bool: ...


MONTHS = (
    "January", "February", "March", "April", "May", "June", "July", "August", "September",
    "October", "November", "December",
)  # fmt: skip
WEEKDAYS = (
    "Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday",
)  # fmt: skip
# EDTF level 1, the season after the year.
_SEASONS = {"21": "spring", "22": "summer", "23": "autumn", "24": "winter"}
_SEASON = re.compile(r"[0-9]{4}-(2[1-4])")


def beside(title: str, name: str, handle: str) -> str:
    """A tree's name as it stands beside a work's title; its handle in quotes where a word would
    stand twice: `repot first` and `“first”`."""
    last, first = title.casefold().split()[-1:], name.casefold().split()[:1]
    return f"“{handle}”" if last == first else name


def day(on: date, year: int) -> str:
    """`6 March`; the year only when it is another than `year`."""
    return day_and_month(on) if on.year == year else full_day(on)


def weekday(on: date) -> str:
    """`Saturday`."""
    return _weekdays()[on.weekday()]


def month(on: date, year: int) -> str:
    """`March`; the year only when it is another than `year`."""
    name = spoken_months()[on.month - 1]
    return name if on.year == year else f"{name} {on.year}"


def short_months() -> tuple[str, ...]:
    """`Jan`, the twelve of them, in the language spoken."""
    if spoken() == ENGLISH:
        return tuple(one[:3] for one in MONTHS)
    return cldr.month_names(spoken(), "abbreviated")


def short_weekday(on: date) -> str:
    """`Sat`."""
    if spoken() == ENGLISH:
        return weekday(on)[:3]
    return cldr.weekday_names(spoken(), "abbreviated")[on.weekday()]


def _weekdays() -> tuple[str, ...]:
    """The seven days in the language spoken, Monday first."""
    return WEEKDAYS if spoken() == ENGLISH else cldr.weekday_names(spoken())


def week(monday: date, today: date) -> str:
    """`This week`, `Next week`, `Week of 7 December`, by the week's Monday."""
    weeks = (monday - monday_of(today)).days // 7
    named = {0: phrase("This week"), 1: phrase("Next week")}
    return named.get(weeks, phrase("Week of {day}", day=day(monday, today.year)))


# A season asks for few days, and for each of them ten thousand times.
@lru_cache(maxsize=4096)
def monday_of(on: date) -> date:
    """The first day of the week (ISO 8601: Monday)."""
    return on - timedelta(days=on.weekday())


def between(first: date, last: date, year: int) -> str:
    """`6 to 14 March`, `28 February to 6 March`, `30 December 2026 to 4 January 2027`."""
    if first == last:
        return day(first, year)
    if (first.year, first.month) == (last.year, last.month):
        return phrase(
            "{first} to {last}", first=phrase("{day}", day=first.day), last=day(last, year)
        )
    if first.year == last.year:
        return phrase("{first} to {last}", first=day(first, first.year), last=day(last, year))
    return phrase("{first} to {last}", first=full_day(first), last=full_day(last))


def between_in_full(first: date, last: date) -> str:
    """`6 to 14 March 2026`: with the year, as a paper has it that is read years later."""
    return between(first, last, first.year) + (f" {first.year}" if first.year == last.year else "")


def written(when: Written, year: int) -> str:
    """A date as written, rough ones too: `spring 2014`, `about 2014`, `perhaps May 2014`."""
    lead = (phrase("perhaps ") if when.uncertain else "") + (
        phrase("about ") if when.approximate else ""
    )
    return lead + _rough(when, year)


def _rough(when: Written, year: int) -> str:
    first, last = when.first, when.last
    season = _SEASON.match(when.text)
    if first == date.min:
        return phrase("until {day}", day=day(last, year))
    if last == date.max:
        return phrase("from {day}", day=day(first, year))
    if season and "/" not in when.text:
        name = phrase(_SEASONS[season[1]])
        return name if first.year == year else f"{name} {first.year}"
    if (first.month, first.day, last.month, last.day) == (1, 1, 12, 31):
        return (
            str(first.year)
            if first.year == last.year
            else phrase("{first} to {last}", first=first.year, last=last.year)
        )
    if (first.year, first.month) == (last.year, last.month) and _whole_months(first, last):
        return month(first, year)
    if first.weekday() == 0 and (last - first).days == 6:
        return phrase("week of {day}", day=day(first, year))
    return between(first, last, year)


def _whole_months(first: date, last: date) -> bool:
    return first.day == 1 and (last + timedelta(days=1)).day == 1


def days(count: int) -> str:
    """A length of time in the unit that fits it: `12 days`, `5 weeks`, `14 months`, `3 years`."""
    return _long(count, spoken())


# The same few lengths are told of thousands of trees; the language is that which is spoken.
@lru_cache(maxsize=4096)
def _long(count: int, language: str) -> str:
    if count < 21:
        return number(count, "day")
    if count < 7 * 12:
        return number(count // 7, "week")
    if count < 365 * 2:
        # Mean Gregorian month, 30.44 days.
        return number(round(count / 30.44), "month")
    return number(count // 365, "year")


def minutes(count: int) -> str:
    """`20 min`, `1 h`, `1 h 20`."""
    hours, rest = divmod(count, 60)
    if not hours:
        return f"{rest} min"
    return f"{hours} h {rest:02}" if rest else f"{hours} h"


def figure(value: float | Decimal, form: str) -> str:
    """A figure as `form` asks (`.1f`, `.6g`), with a true minus; never minus nought: `0`, `−5`."""
    return decimal(format(value, f"z{form}").replace("-", "−"))


def number(count: int, one: str, many: str = "") -> str:
    """`1 entry`, `3 entries`; `many` is `one` and an s where it is not given."""
    many = many or f"{one}s"
    if spoken() != ENGLISH:
        return counted_phrase(count, f"{{count}} {one}", f"{{count}} {many}")
    return f"{count} {one if count == 1 else many}"


def sentence(text: str) -> str:
    """The text with a capital at its start."""
    return text[:1].upper() + text[1:]


def unbroken(text: str) -> str:
    """Days so that they break only between the first and the last of a span."""
    to = f" {phrase('{first} to {last}', first='', last='').strip()} "
    return text.replace(" ", "\u00a0").replace(to.replace(" ", "\u00a0"), to)


def sizes(text: str) -> str:
    """Sizes as print sets them: `38 × 27 × 7 cm`."""
    return text.replace(" x ", " × ")


# What is put over a tree for longer than this stays for a while; than that, for a season.
_A_WHILE, _A_SEASON = timedelta(weeks=1), timedelta(weeks=6)


def stays_on(act: ActWord, window: WindowDays) -> bool:
    """Whether a work is a shelter that is put on and stays: its window is how long."""
    return act == "protected" and window.closes - window.opens > _A_WHILE


def is_put_on_at_once(act: ActWord, window: WindowDays) -> bool:
    """Whether a work is a shelter that is put on at once and stays for a season."""
    return act == "protected" and window.closes - window.opens > _A_SEASON


def closing(act: ActWord, window: WindowDays, today: date) -> str:
    """By when a work is to be done: `by 3 May`; of a shelter that stays `now, until 10
    May`, or `from 9 November, until 10 May`."""
    last = day(window.closes, today.year)
    if not stays_on(act, window):
        return phrase("by {last}", last=last)
    since = (
        phrase("now")
        if window.opens <= today
        else phrase("from {day}", day=day(window.opens, today.year))
    )
    return phrase("{since}, until {last}", since=since, last=last)


def when_late(window: WindowDays, today: date) -> str:
    """How late: `12 days late, best was 1 November`."""
    late = days((today - window.closes).days)
    return phrase("{late} late, best was {day}", late=late, day=day(window.best, today.year))


def when_now(window: WindowDays, today: date) -> str:
    """Where in an open window today is: `best 30 November`, `best was 9 May, 3 days left`."""
    if window.best == today:
        best = phrase("best today")
    elif window.best > today:
        best = phrase("best {day}", day=day(window.best, today.year))
    else:
        best = phrase("best was {day}", day=day(window.best, today.year))
    left = (window.closes - today).days
    if left == 0:
        return phrase("{best}, last day today", best=best)
    return phrase("{best}, {days} left", best=best, days=number(left, "day")) if left <= 7 else best


def when_coming(window: WindowDays, today: date) -> str:
    """The window ahead: `from 6 March until 14 March`, `only on 6 March`."""
    year = today.year
    if window.opens == window.closes:
        return phrase("only on {day}", day=day(window.opens, year))
    return phrase(
        "from {day} until {day_2}", day=day(window.opens, year), day_2=day(window.closes, year)
    )


def in_words(error: Exception) -> str:
    """What went wrong, in one sentence: what the system says, or what failed and where."""
    if isinstance(error, OSError):
        name = f"{error.filename}: " if error.filename else ""
        return f"{name}{error.strerror or error}."
    import traceback

    where = traceback.extract_tb(error.__traceback__)[-1]
    return f"{type(error).__name__}: {error} ({where.filename}:{where.lineno})"


def money(amount: Decimal, currency: str) -> str:
    """`84.00 EUR`, `9000 JPY`: with as many digits as the currency has (ISO 4217); with no currency
    where none is known."""
    return f"{price(amount, currency)} {currency}".rstrip()


def price(amount: Decimal, currency: str) -> str:
    """`84.00`, `9000`: an amount without its currency, where that stands elsewhere."""
    return figure(amount, f".{digits_of(currency)}f")
