"""Dates as they are written, exact and rough ones, and the days that each can mean.

Read are the calendar and week dates of ISO 8601-1, and levels 0 and 1 of the Extended
Date/Time Format (Library of Congress, 4 February 2019; ISO 8601-2), without time of day.
Any of them may end in a qualifier, weeks and seasons too. Years run from 1 to 9999.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from datetime import date
from functools import lru_cache

from msgspec import Struct

from backbud_grammar.problems import Misread


class WrittenDate(Struct, frozen=True, array_like=True, gc=False):
    """The days that a date as written can mean, both ends included.

    `text`: as written, in the extended format of ISO 8601 (with hyphens).
    `exact`: a single day without a qualifier. `approximate`: ended in `~` or `%`.
    `uncertain`: ended in `?` or `%`. An open or unknown end of a span is `date.min` or `date.max`.
    """

    text: str
    first: date
    last: date
    exact: bool
    approximate: bool
    uncertain: bool

    @property
    def day_or_text(self) -> date | str:
        """The day where it is exact, else the date as written: for sentences."""
        return self.first if self.exact else self.text


# Whatever is reckoned from a day of these years, a season or a lifetime before or after it, is a
# day of the calendar too. What is dated outside of them is a slip.
FIRST_RECKONED, LAST_RECKONED = date(100, 1, 1), date(9800, 12, 31)

# What a date may end in: (approximate, uncertain).
_QUALIFIERS = {"~": (True, False), "?": (False, True), "%": (True, True)}
_UNQUALIFIED = (False, False)

# The first month of a season in the north: spring, summer, autumn, winter (meteorological).
_SEASONS = {21: 3, 22: 6, 23: 9, 24: 12}

_YEAR = re.compile(r"[0-9]{4}|[0-9]{3}X|[0-9]{2}XX")
_YEAR_OF_UNKNOWN_DAY = re.compile(r"([0-9]{4})-XX(?:-XX)?")
_MONTH = re.compile(r"([0-9]{4})-([0-9]{2})(-XX)?")
_DAY = re.compile(r"([0-9]{4})(-?)([0-9]{2})\2([0-9]{2})")
_WEEK = re.compile(r"([0-9]{4})(-?)W([0-9]{2})(?:\2([0-9]))?")
# Without hyphens, the basic format: `20270306`, `2027W10`, `2027W106`.
_BASIC = re.compile(r"(?<!.)([0-9]{4})(W?[0-9]{2})([0-9]{1,2})(?![0-9-])")
_BASIC_WEEK = re.compile(r"(?<!.)([0-9]{4})(W[0-9]{2})(?![0-9-])")

_USUAL_HINT = "Write 2027-03-06, or 2027-03, 2027 or 2027~ if you know no more."


def read_date(text: str, southern: bool = False) -> WrittenDate:
    """Return the days that `text` can mean; `southern` turns the seasons round.

    Raises Misread: `no-such-date` where the calendar has no such day, month or week,
    `bad-date` for anything else, with the right form in the hint.
    """
    # Nearly every date is a plain day. `fromisoformat` also reads week dates of this length, but
    # those have their hyphens elsewhere.
    if len(text) == 10 and text[4] == text[7] == "-":
        try:
            day = date.fromisoformat(text)
        except ValueError:
            pass
        else:
            return WrittenDate(text, day, day, True, False, False)
    written = _in_known_form(text, southern)
    if written is None:
        raise _unreadable(text)
    return written


def read_span(text: str, southern: bool = False) -> WrittenDate:
    """Return the days of a date, or of `date/date` from its first day to its last.

    `..` is an open end, nothing at all an unknown one. Raises Misread as `read_date` does, and
    `reversed-span` when the end lies before the start.
    """
    start_text, stroke, end_text = text.partition("/")
    if not stroke:
        return read_date(text, southern)
    if "/" in end_text:
        raise _unreadable(text)
    if start_text in ("", "..") and end_text in ("", ".."):
        raise _bad(text, "names no day", "Write a date on one side at least, as in ../2027-03-06.")
    start = _end_of_span(text, start_text, 0, date.min, southern)
    end = _end_of_span(text, end_text, len(start_text) + 1, date.max, southern)
    if end.last < start.first:
        raise Misread(
            "reversed-span",
            f"“{text}” ends before it begins",
            f"Write {end_text}/{start_text}.",
            length=len(text),
        )
    return WrittenDate(
        f"{start.text}/{end.text}",
        start.first,
        end.last,
        start.exact and end.exact and start.first == end.last,
        start.approximate or end.approximate,
        start.uncertain or end.uncertain,
    )


def in_extended_format(text: str) -> str:
    """The date or span with hyphens where ISO 8601 has them."""
    return "/".join(map(_extended, text.split("/")))


def check_reckoned(day: date, text: str) -> None:
    """Raise Misread for a day that nothing can be reckoned from."""
    if not FIRST_RECKONED <= day <= LAST_RECKONED:
        raise Misread(
            "far-date",
            f"{text} is too far off to reckon with",
            f"Is the year right? Reckoned is from {FIRST_RECKONED} to {LAST_RECKONED}.",
            length=len(text),
        )


# A history asks for each of its days.
@lru_cache(maxsize=16384)
def growing_year(day: date, southern: bool) -> str:
    """Return the growing year of a day: `2027` in the north, `2026/27` in the south."""
    year = _growing_year_start(day, southern)
    return f"{year:04}/{(year + 1) % 100:02}" if southern else f"{year:04}"


def growing_year_days(day: date, southern: bool) -> tuple[date, date]:
    """Return the first and last day of the growing year of a day.

    January to December in the north, July to June in the south.
    """
    year = _growing_year_start(day, southern)
    return _months(year, 7, 12) if southern else _months(year, 1, 12)


def _growing_year_start(day: date, southern: bool) -> int:
    return day.year - 1 if southern and day.month < 7 else day.year


def _in_known_form(text: str, southern: bool) -> WrittenDate | None:
    """Return the date, or None where `text` has none of the known forms."""
    qualifier = _QUALIFIERS.get(text[-1:], _UNQUALIFIED)
    qualified = qualifier is not _UNQUALIFIED
    days = _days(text[:-1] if qualified else text, southern)
    if days is None:
        return None
    first, last = days
    exact = first == last and not qualified
    return WrittenDate(_extended(text), first, last, exact, *qualifier)


def _extended(text: str) -> str:
    return _BASIC_WEEK.sub(r"\1-\2", _BASIC.sub(r"\1-\2-\3", text))


def _days(text: str, southern: bool) -> tuple[date, date] | None:
    if _YEAR.fullmatch(text):
        first, last = _year(text.replace("X", "0"), text), _year(text.replace("X", "9"), text)
        return date(first, 1, 1), date(last, 12, 31)
    if found := _YEAR_OF_UNKNOWN_DAY.fullmatch(text):
        return _months(_year(found[1], text), 1, 12)
    if found := _MONTH.fullmatch(text):
        year, month = _year(found[1], text), int(found[2])
        if month in _SEASONS and not found[3]:
            return _season(year, month, southern)
        if not 1 <= month <= 12:
            raise _no_such(
                text, "Months are 01 to 12; 21 is spring, 22 summer, 23 autumn, 24 winter."
            )
        return _months(year, month, 1)
    if found := _DAY.fullmatch(text):
        return _day(_year(found[1], text), int(found[3]), int(found[4]), text)
    if found := _WEEK.fullmatch(text):
        return _week(_year(found[1], text), int(found[3]), found[4], text)
    return None


def _year(digits: str, text: str) -> int:
    if digits == "0000":
        raise _far_year(text)
    return int(digits)


def _months(year: int, month: int, count: int) -> tuple[date, date]:
    """Return the first and last day of `count` months, cut off where the calendar ends."""
    start, after = year * 12 + month - 1, year * 12 + month - 1 + count
    first = date(start // 12, start % 12 + 1, 1) if start >= 12 else date.min
    if after >= 120000:
        return first, date.max
    return first, date.fromordinal(date(after // 12, after % 12 + 1, 1).toordinal() - 1)


def _season(year: int, season: int, southern: bool) -> tuple[date, date]:
    """Return the three months of a season, which always begins in the year that is named.

    So the winter `2027-24` of the north lasts from December 2027 to February 2028, and so does
    the summer `2027-22` of the south. The standard leaves this open.
    """
    month = _SEASONS[season]
    return _months(year, (month + 5) % 12 + 1 if southern else month, 3)


def _day(year: int, month: int, number: int, text: str) -> tuple[date, date]:
    try:
        day = date(year, month, number)
    except ValueError:
        raise _no_such(text, _hint_for_day(year, month, number)) from None
    return day, day


def _hint_for_day(year: int, month: int, number: int) -> str:
    if 1 <= month <= 12:
        first, last = _months(year, month, 1)
        return f"That month runs from {first} to {last}."
    hint = "Months are 01 to 12, and stand before the day"
    turned = f"{year:04}-{number:02}-{month:02}"
    return f"{hint}: {turned}?" if 1 <= number <= 12 and _reads(turned) else f"{hint}."


def _week(year: int, week: int, weekday: str | None, text: str) -> tuple[date, date]:
    try:
        day = date.fromisocalendar(year, week, int(weekday or 1))
    except ValueError:
        # 28 December is always in the last week of its year.
        weeks = date(year, 12, 28).isocalendar().week
        hint = f"Weeks are {year:04}-W01 to {year:04}-W{weeks}"
        raise _no_such(text, f"{hint}, days 1 (Monday) to 7 (Sunday).") from None
    if weekday:
        return day, day
    return day, date.fromordinal(min(day.toordinal() + 6, date.max.toordinal()))


def _end_of_span(text: str, part: str, offset: int, unbounded: date, southern: bool) -> WrittenDate:
    if part in ("", ".."):
        return WrittenDate(part, unbounded, unbounded, False, False, False)
    try:
        return read_date(part, southern)
    except Misread as misread:
        # The whole may be one date with a stroke in it, or the end may be cut short.
        start = text[: offset - 1] if offset else ""
        in_full = start[: len(start) - len(part)] + part
        if meant := list(_meant(text)):
            raise _bad(text, "is no date", _hint_naming(meant)) from None
        hint = misread.hint
        if 0 < len(part) < len(start) and _reads(in_full):
            hint = f"Write the end in full: {start}/{in_full}."
        raise Misread(
            misread.code, misread.message, hint, misread.offset + offset, misread.length
        ) from None


def _no_such(text: str, hint: str) -> Misread:
    return Misread("no-such-date", f"There is no {text}", hint, length=len(text))


def _bad(text: str, what: str, hint: str = _USUAL_HINT) -> Misread:
    return Misread("bad-date", f"“{text}” {what}", hint, length=len(text))


def _far_year(text: str) -> Misread:
    return _bad(text, "is not in the years 0001 to 9999", "Write a year of four digits, as 2027.")


# What follows is needed only where a date cannot be read, to say what would be right; so these
# patterns are compiled only then.

_FAR_YEAR = "(?:[-\N{MINUS SIGN}][0-9]{4}|Y[-\N{MINUS SIGN}]?[0-9]).*"
_TIME_OF_DAY = r"(.{8,10})[Tt ][0-9]{2}(?::?[0-9]{2}.*)?Z?"
_HYPHENS = str.maketrans(dict.fromkeys("\u2010\u2011\u2012\u2013\u2014\u2212", "-"))
_NUMBERS = r"([0-9]+)[-./ ]+([0-9]+)(?:[-./ ]+([0-9]+))?\.?"
_SPAN = r"(\.\.|.*?)(?:/| *(?<!^)\.\.\.? *| +(?:to|until|-) +|-(?=[0-9]{4}-))(.*)"
_SEASON_NAMES = {"spring": "21", "summer": "22", "autumn": "23", "fall": "23", "winter": "24"}


def dates_meant(text: str) -> list[str]:
    """The dates that a text of any form may mean, itself if it is one; each meaning once."""
    plain = text.translate(_HYPHENS)
    return [plain] if _reads(plain) else list(_meant(plain))


def _unreadable(text: str) -> Misread:
    """Return the problem of a text that has no known form, with the nearest right one."""
    if not text:
        return Misread("bad-date", "There is no date here", _USUAL_HINT)
    if re.fullmatch(_FAR_YEAR, text):
        return _far_year(text)
    if (found := re.fullmatch(_TIME_OF_DAY, text)) and _in_known_form(found[1], False):
        return _bad(text, "names a time of day, and a page is a day", f"Write {found[1]}.")
    plain = text.translate(_HYPHENS)
    if plain != text and _reads(plain):
        return _bad(text, "has a dash where a hyphen belongs", f"Write {plain} with hyphens.")
    if meant := list(_meant(plain)):
        return _bad(text, "is no date", _hint_naming(meant))
    if (found := re.fullmatch(_SPAN, plain)) and all(_ends_span(end) for end in found.groups()):
        if "/" in text:
            return _bad(text, "is a span", "Write a single date here.")
        return _bad(text, "is no date", f"Write {found[1]}/{found[2] or '..'} for a span.")
    return _bad(text, "is no date")


def _ends_span(text: str) -> bool:
    return text in ("", "..") or _reads(text) is not None


def _hint_naming(meant: list[str]) -> str:
    if len(meant) == 1:
        return f"Write {meant[0]}."
    return f"It can be read two ways: write {' or '.join(meant)}."


def _reads(text: str) -> WrittenDate | None:
    """Return the date, or None where `read_date` would have raised."""
    try:
        return _in_known_form(text, False)
    except Misread:
        return None


def _meant(text: str) -> Iterator[str]:
    """Yield the dates that a text of another form may mean, each meaning once."""
    seen = set()
    for candidate in _candidates(text):
        written = _reads(candidate)
        if written and (written.first, written.last) not in seen:
            seen.add((written.first, written.last))
            yield candidate


def _candidates(text: str) -> Iterator[str]:
    if found := re.fullmatch(_NUMBERS, text):
        yield from _in_year_first_order([number for number in found.groups() if number])
    if found := re.fullmatch(r"([0-9]{4})([0-9]{2})", text):
        yield f"{found[1]}-{found[2]}"
    if found := re.fullmatch(r"([0-9]{4})-?([0-9]{3})", text):
        yield from _day_of_year(int(found[1]), int(found[2]))
    if found := re.fullmatch(r"([0-9]{3})0'?s", text):
        yield f"{found[1]}X"
    if found := re.fullmatch(r"(?:~|ca?\.?|circa|about) *(.+)", text):
        yield f"{found[1]}~"
    if found := re.fullmatch(r"(.+)(?:\?~|~\?)", text):
        yield f"{found[1]}%"
    if found := re.fullmatch(r"([0-9]{4})-?[Ww]([0-9]{1,2})(-?[0-9])?", text):
        week = f"{found[1]}-W{found[2].zfill(2)}"
        yield f"{week}-{found[3][-1]}" if found[3] else week
    yield from _with_name(text)
    yield text.upper()


def _in_year_first_order(numbers: list[str]) -> Iterator[str]:
    if len(numbers[0]) == 4:
        orders = [numbers, [numbers[0], *reversed(numbers[1:])]]
        # Year first is always followed by the month; only where that fails, by the day.
        yield from [text for order in orders if _reads(text := _joined(order))][:1]
    elif len(numbers[-1]) == 4:
        *others, year = numbers
        yield _joined([year, *reversed(others)])
        yield _joined([year, *others])


def _joined(numbers: list[str]) -> str:
    return "-".join(number.zfill(2) for number in numbers)


def _day_of_year(year: int, number: int) -> Iterator[str]:
    if year and 1 <= number <= 366:
        day = date.fromordinal(min(date(year, 1, 1).toordinal() + number - 1, date.max.toordinal()))
        if day.year == year:
            yield day.isoformat()


def _with_name(text: str) -> Iterator[str]:
    """Yield the date of `6 March 2027`, `Sat, Mar 6, 2027`, `März 2027`, `spring 2027`."""
    from backbud_grammar.date_names import months_named, weekdays_named

    words = re.findall(r"[^\W\d_]{3,}", text)
    if len(words) > 1:
        words = [word for word in words if not weekdays_named(word)]
    numbers = re.findall(r"[0-9]+", text)
    years = [number for number in numbers if len(number) == 4]
    if len(words) == len(years) == 1 and len(numbers) <= 2:
        days = [number for number in numbers if number not in years]
        for month in months_named(words[0]):
            yield _joined([*years, str(month), *days])
        for name, season in _SEASON_NAMES.items():
            if name.startswith(words[0].lower()):
                yield _joined([*years, season, *days])
