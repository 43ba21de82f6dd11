"""Days that a line names in short: `16/4`, `till 7/5`, `next Feb`; the page's date decides."""

from __future__ import annotations

import re
from collections.abc import Iterator
from datetime import date, timedelta

MONTH = (
    r"(?:jan(?:uary)?|feb(?:ruary)?|mar(?:ch)?|apr(?:il)?|may|june?|july?|aug(?:ust)?"
    r"|sept?(?:ember)?|oct(?:ober)?|nov(?:ember)?|dec(?:ember)?)"
)
WEEKDAY = (
    r"(?:mon(?:day)?|tue(?:s(?:day)?)?|wed(?:nesday)?|thu(?:rs?(?:day)?)?|fri(?:day)?"
    r"|sat(?:urday)?|sun(?:day)?)"
)
_WEEKDAYS = ("mon", "tue", "wed", "thu", "fri", "sat", "sun")
SEASON = r"(?:spring|summer|autumn|fall|winter)"
_SHORT = r"\d{1,2}[./-]\d{1,2}"
# `3-2029` is March of that year.
_MONTH_OF_YEAR = r"(?:0?[1-9]|1[0-2])[./-]20\d\d"
_COUNT = r"(?:\d+(?:-\d+)?|an?|one|two|three|four|five|six|eight|ten)"
# When something is to be done, or may be done again.
WHEN = (
    rf"(?:{_COUNT} (?:more )?(?:days?|weeks?|months?)(?: more| yet)?|tomorrow"
    rf"|(?:{SEASON}|{MONTH}) (?:20\d\d|next year)|next year (?:{SEASON}|{MONTH})"
    rf"|next (?:week|month|year|{SEASON}|{MONTH})|{SEASON}|{MONTH}|{_MONTH_OF_YEAR}"
    rf"|{_SHORT}|20\d\d)"
)
# Before it, where it says how long something waits.
TILL = r"(?:(?:for|from now|till|until|til|'til|before|to|in|at least|now) )*"
_MONTHS = ("jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec")
_IN_WORDS = {
    word: figure
    for figure, words in enumerate(
        ("", "a an one", "two", "three", "four", "five", "six", "", "eight", "", "ten")
    )
    for word in words.split()
}
# How far off a day may be that stands without its year; about half a year, so that one of its two
# readings is out of reach.
WITHIN_DAYS = 183
# No word and no figure joined to it: `7-3-6`, `14-3 mm`.
_DAY = re.compile(
    rf"(?<![\w./-])(?P<day>{_SHORT})(?![\w./-])(?!\s*(?:%|-|–|\+|(?:mm|cm|m|L|mL|g|kg|h|min|C)\b))"
)
# A word stands before it, or a part that is numbered.
_BEFORE_DAY = re.compile(r"[^\W\d_]$|\b(?:left|right) \d{1,2}$", re.IGNORECASE)
_SPAN = re.compile(r"\b(?:till?|until|since|from|between|before|after|by|to)$", re.IGNORECASE)
_READ = re.compile(
    rf"(?:(?P<count>{_COUNT}) (?:more )?(?P<unit>day|week|month)s?(?: more| yet)?"
    rf"|(?P<tomorrow>tomorrow)|(?P<next>next )?(?:(?P<span>week|month|year)"
    rf"|(?P<season>{SEASON})|(?P<month>{MONTH}))"
    rf"|(?P<day>{_SHORT})|(?P<year>20\d\d))",
    re.IGNORECASE,
)
# A season or a month of a year that is said.
_OF_YEAR = re.compile(
    rf"(?:(?P<season>{SEASON})|(?P<month>{MONTH})) (?P<year>20\d\d)", re.IGNORECASE
)
_NEXT_YEAR = re.compile(
    r"(?:next year (?P<before>[a-z]+)|(?P<behind>[a-z]+) next year)", re.IGNORECASE
)
SEASONS = ("spring", "summer", "autumn", "winter")


# Of a text without any of these a day is read the same on every page.
_IN_SMALL = (
    r"next|jan|feb|mar|apr|may|jun|jul|aug|sep|oct|nov|dec|mon|tue|wed|thu|fri|sat|sun"
    r"|20\d\d|\d?[./-]\d|\bhalf\b"
)
_OF_PAGE, _OF_PAGE_IN_SMALL = re.compile(_IN_SMALL, re.IGNORECASE), re.compile(_IN_SMALL)


def hangs_on_page(text: str) -> bool:
    """Whether days in a text may be read by the day of its page; False where none can."""
    if text.isascii():
        # To look for letters in any case takes several times as long.
        return _OF_PAGE_IN_SMALL.search(text.lower()) is not None
    return _OF_PAGE.search(text) is not None


def when_of(text: str, page: date | None) -> str:
    """When it is, as a plan says it; "" where that can be meant in two ways.

    >>> when_of("4 weeks", None), when_of("next Feb", date(2027, 3, 6))
    ('in 4 weeks', 'to 2028-02')
    """
    next_year = _NEXT_YEAR.fullmatch(text.strip()) if page is not None else None
    if next_year is not None and page is not None:
        text = f"{next_year['before'] or next_year['behind']} {page.year + 1}"
    of_year = _OF_YEAR.fullmatch(text.strip())
    if of_year is not None:
        return _of_year(of_year, page)
    if re.fullmatch(_MONTH_OF_YEAR, text.strip()):
        month, year = map(int, re.split(r"[./-]", text.strip()))
        is_over = page is not None and (year, month) <= (page.year, page.month)
        return "" if is_over else f"to {year}-{month:02}"
    found = _READ.fullmatch(text.strip())
    if found is None:
        return _weekday(text.strip(), page)
    said = {name: word.casefold() for name, word in found.groupdict().items() if word}
    if "count" in said:
        count = _IN_WORDS.get(said["count"], said["count"])
        return f"in {count} {said['unit']}{'' if count in (1, '1') else 's'}"
    if "tomorrow" in said:
        return "in 1 day"
    if "season" in said:
        season = said["season"].replace("fall", "autumn")
        return f"{'next' if 'next' in said else 'in'} {season}"
    if "year" in said:
        return f"to {said['year']}" if page is None or int(said["year"]) > page.year else ""
    if page is None:
        return ""
    if "span" in said:
        if "next" not in said:
            return ""
        return f"to {page.year + 1}" if said["span"] == "year" else f"in 1 {said['span']}"
    if "month" in said:
        return _month(_MONTHS.index(said["month"][:3]) + 1, page, is_next="next" in said)
    days = [day for day in _readings(said["day"], page) if 0 < (day - page).days <= WITHIN_DAYS]
    return f"to {days[0]}" if len(days) == 1 else ""


def _of_year(found: re.Match[str], page: date | None) -> str:
    """`spring 2028` as EDTF has it, 2028-21; none in a year that is over."""
    year = int(found["year"])
    if page is not None and year < page.year:
        return ""
    if found["month"]:
        month = _MONTHS.index(found["month"][:3].casefold()) + 1
        is_over = page is not None and (year, month) <= (page.year, page.month)
        return "" if is_over else f"to {year}-{month:02}"
    season = SEASONS.index(found["season"].casefold().replace("fall", "autumn"))
    return f"to {year}-{21 + season}"


def _weekday(text: str, page: date | None) -> str:
    """The next such day of the week; none on that very weekday, which may be this one."""
    if page is None or re.fullmatch(WEEKDAY, text, re.IGNORECASE) is None:
        return ""
    off = (_WEEKDAYS.index(text[:3].casefold()) - page.weekday()) % 7
    return f"to {page + timedelta(days=off)}" if off else ""


def _month(month: int, page: date, *, is_next: bool) -> str:
    """The next such month; none in that very month, which may be this one or that of next year.

    `next Feb` in January is a month off, or thirteen.
    """
    off = (month - page.month) % 12
    if off == 0 or (off == 1 and is_next):
        return ""
    year = page.year + (month < page.month)
    return f"to {year}-{month:02}"


def _readings(written: str, page: date) -> Iterator[date]:
    """The days that figures may mean, day first and month first, next after the page's day."""
    first, second = (int(figure) for figure in re.split(r"[./-]", written))
    for day, month in {(first, second), (second, first)}:
        for year in (page.year, page.year + 1):
            try:
                found = date(year, month, day)
            except ValueError:
                continue
            if found >= page:
                yield found
                break


def without_own_day(piece: str, page: date | None) -> str:
    """The piece without the page's own day: `mekiri 24/6`, `repotted 14-3 oval blue`.

    Only where it can be no share and no range: one of its figures is over twelve, or it falls.

    >>> without_own_day("repotted 14-3 oval blue", date(2027, 3, 14))
    'repotted oval blue'
    >>> without_own_day("dose 14-3", date(2027, 3, 15)), without_own_day("1-4", date(2027, 4, 1))
    ('dose 14-3', '1-4')
    """
    found = _DAY.search(piece)
    if found is None or page is None:
        return piece
    first, second = (int(figure) for figure in re.split(r"[./-]", found["day"]))
    if (max(first, second) <= 12 and first <= second) or (page.day, page.month) not in {
        (first, second),
        (second, first),
    }:
        return piece
    before, behind = piece[: found.start()].rstrip(), piece[found.end() :].lstrip()
    if (before and not _BEFORE_DAY.search(before)) or _SPAN.search(before):
        return piece
    return f"{before} {behind}".strip()
