"""Whether a line that cannot be read was meant for a date, and what its date may be.

Needed only where a line is neither a date nor a subject line.
"""

from __future__ import annotations

import re
import unicodedata
from datetime import MAXYEAR, date, timedelta
from functools import lru_cache
from itertools import pairwise

from backbud_grammar.date_names import is_name, months_named, weekdays_named
from backbud_grammar.dates import dates_meant
from backbud_grammar.short_dates import (
    days_of_short_year,
    hint_of_wrong_weekday,
    is_weekday_alone,
    next_weekday,
    weekday_of,
)

_WORD = re.compile(r"[^\W\d_]+")
_NUMBER = re.compile(r"[0-9]+")
# `21`, `21.`, `21st`, `21/11`, `21.11.2026`, `2026-11-21`, `1999/2000`
_NUMBERS = re.compile(r"[0-9]+(?:[-./][0-9]+)*(?:st|nd|rd|th|er|e|o|º|ª)?\.?", re.IGNORECASE)
_WHOLE_DATE = re.compile(r"[0-9]{1,4}([-./])[0-9]{1,2}\1[0-9]{1,4}\.?|[0-9]{4}-[0-9]{2}[~?%]?")
_ISO_DAY = re.compile(r"(?<![0-9])[0-9]{4}-[0-9]{2}-[0-9]{2}(?![0-9])")
# `2026 11 21`, `21 11 2026`, `21 11 26`
_SPACED = re.compile(
    r"(?:[0-9]{4} +[0-9]{1,2} +[0-9]{1,2}|[0-9]{1,2} +[0-9]{1,2} +(?:[0-9]{4}|[0-9]{2}))\.?"
)
# What a clock shows beside a date.
_TIME = re.compile(r"(?<![0-9:])[0-9]{1,2}:[0-9]{2}(?::[0-9]{2})?(?![0-9:])")
_DAY_AND_MONTH = re.compile(r"[0-9]{1,2}/[0-9]{1,2}|[0-9]{1,2}\.[0-9]{1,2}\.?")
# What stands around words.
_MARKS = " \t=-–—*#_~[](){}<>|\"'“”„«»:;,.!+•·/\\"
# Small words that stand in a date.
_SMALL = [
    "the",
    "of",
    "on",
    "date",
    "day",
    "week",
    "am",
    "den",
    "der",
    "le",
    "la",
    "el",
    "il",
    "de",
    "di",
    "do",
    "um",
    "no",
    "d",
    "kw",
]

# Words for a time that names no date: `next day`, `am Abend`. English, German, French, Spanish,
# Italian; from memory.
_TIMES_SAID = (
    "day days week weeks month months morning noon afternoon evening night later next "
    "tag tage tags woche monat morgen mittag abend nacht jour semaine mois lendemain matin soir "
    "dia día semana mes mañana noche giorno settimana mese mattina sera domani"
)
_TIMES = frozenset(_TIMES_SAID.split())

_USUAL = "A page begins with its date at the left edge: 2027-03-06."


def heads_a_page(text: str) -> bool:
    """Whether a line at the left edge that names no tree may be meant to begin a page.

    So does a line that begins with a sign (a ruler, a bracket), or that holds a number or a name of
    a month or day.
    """
    text = as_shown_to_eyes(text)
    if not text:
        return False
    sort = unicodedata.category(text[0])
    return (
        is_weekday_alone(text)
        or sort[0] == "P"
        or sort in ("Sm", "Sk", "Nd")
        or any(
            _NUMBERS.fullmatch(word) or is_name(word) or word.casefold() in _TIMES
            for word in _words(text)
        )
    )


def holds_a_date(text: str) -> bool:
    """Whether a date stands among other words: whole, a day beside a name, or a full weekday."""
    words = _words(as_shown_to_eyes(text))
    return any(
        _WHOLE_DATE.fullmatch(word)
        or _DAY_AND_MONTH.fullmatch(word)
        or (len(word) > 3 and weekdays_named(word))
        for word in words
    ) or any(
        (_NUMBERS.fullmatch(one) and is_name(other)) or (is_name(one) and _NUMBERS.fullmatch(other))
        for one, other in pairwise(words)
    )


def as_shown_to_eyes(text: str) -> str:
    """The text as a reader sees it: no invisible marks, and every digit as of ASCII."""
    if text.isascii():
        return text
    shown = (sign for sign in text if unicodedata.category(sign) != "Cf")
    text = unicodedata.normalize("NFKC", "".join(shown)).strip()
    return "".join(str(unicodedata.decimal(sign, sign)) for sign in text)


def is_dateline(text: str) -> bool:
    """Whether a line is nothing but a date, however it is written."""
    words: list[str] = []
    for piece in as_shown_to_eyes(text).replace(",", " ").split():
        word = piece.strip(_MARKS)
        if word:
            if not (_may_stand_in_a_date(word) or _NUMBERS.fullmatch(word)):
                return False
            words.append(word)
    if not words:
        return False
    if _SPACED.fullmatch(" ".join(words)):
        return True
    names = [word for word in words if months_named(word) or weekdays_named(word)]
    has_number = any(_NUMBERS.fullmatch(word) for word in words)
    return (
        any(_WHOLE_DATE.fullmatch(word) for word in words)
        or bool(names and has_number)
        or len(words) == len(names) == 1
    )


@lru_cache(4096)
def _may_stand_in_a_date(word: str) -> bool:
    return is_name(word) or word.casefold() in _SMALL


def leading_date(text: str) -> str:
    """The words at the beginning of a line that are a date by themselves, two and more: of
    `21 Nov, cold and dry` the first two; or ""."""
    words = as_shown_to_eyes(text).split()
    runs = (" ".join(words[:n]).rstrip(",:;") for n in range(min(len(words), 5), 1, -1))
    return next((run for run in runs if is_dateline(run)), "")


def begins_with_date(text: str) -> bool:
    """Whether the first word of a line is a whole date, however its numbers stand."""
    words = as_shown_to_eyes(text).split(None, 1)
    if not words or words[0].isalpha():
        return False
    return _WHOLE_DATE.fullmatch(words[0].strip(_MARKS)) is not None


def _words(text: str) -> list[str]:
    return [word for piece in text.replace(",", " ").split() if (word := piece.strip(_MARKS))]


def hint_of_date(text: str, above: date | None) -> str:
    """What to write in the place of a line that is meant for a date.

    `above`: the day of the page above, whose year is offered where the line has none.
    """
    text = _TIME.sub("", as_shown_to_eyes(text)).strip()
    whole = _with_year(text)
    sure = _of_weekday(text, whole)
    if whole and not sure:
        return hint_of_wrong_weekday(text, whole) or _USUAL
    if len(sure) == 1:
        return f"Write {sure[0]}."
    if sure:
        return f"It can be read two ways: write {' or '.join(sure)}."
    short = days_of_short_year(text, above) or next_weekday(text, above)
    perhaps = short or (_in_year_above(text, above) if above is not None else [])
    if len(perhaps) == 1 and not _of_weekday(text, perhaps):
        return hint_of_wrong_weekday(text, perhaps) or _USUAL
    perhaps = _of_weekday(text, perhaps)
    if perhaps:
        return f"Write {' or '.join(perhaps)}, if that is meant."
    return _USUAL


def _with_year(text: str) -> list[str]:
    days = [day for day in dict.fromkeys(_ISO_DAY.findall(text)) if dates_meant(day) == [day]]
    unnamed = " ".join(word for word in _words(text) if weekday_of(word) is None)
    return days or dates_meant(text.strip(_MARKS)) or dates_meant(unnamed)


def _of_weekday(text: str, days: list[str]) -> list[str]:
    """Those of the days that are of the weekday that is named, if any is."""
    named = [
        weekdays or {two or 0}
        for word in _WORD.findall(text)
        if (weekdays := weekdays_named(word)) or (two := weekday_of(word)) is not None
    ]
    if len(named) != 1 or _is_month_too(text):
        return days
    return [
        day
        for day in days
        if len(day) != len("2027-03-06") or date.fromisoformat(day).weekday() in named[0]
    ]


def _is_month_too(text: str) -> bool:
    """Whether the one name in a text is a month or a weekday: `mar 21`."""
    names = [word for word in _WORD.findall(text) if months_named(word)]
    return len(names) == 1 and bool(weekdays_named(names[0]))


def _in_year_above(text: str, above: date) -> list[str]:
    """The first such day on or after the page above, for each way to read a day and a month."""
    numbers = [int(number) for number in _NUMBER.findall(text)]
    named = [months for word in _WORD.findall(text) if (months := months_named(word))]
    if len(named) > 1:
        named = [
            months
            for word in _WORD.findall(text)
            if (months := months_named(word)) and not weekdays_named(word)
        ]
    if len(named) == 1 and len(named[0]) == 1 and len(numbers) == 1:
        pairs = [(*named[0], numbers[0])]
    elif not named and len(numbers) == 2:
        pairs = [(numbers[1], numbers[0]), (numbers[0], numbers[1])]
    else:
        return []
    found = (_first_from(above, month, day) for month, day in dict.fromkeys(pairs))
    return [day.isoformat() for day in found if day is not None]


def _first_from(above: date, month: int, day: int) -> date | None:
    for year in (above.year, min(above.year + 1, MAXYEAR)):
        try:
            found = date(year, month, day)
        except (ValueError, OverflowError):
            continue
        if timedelta(0) <= found - above < timedelta(days=366):
            return found
    return None
