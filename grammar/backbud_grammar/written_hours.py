"""Reads the hour that stands behind a date, or before or behind what was done: `10:30`.

It is ISO 8601's hours and minutes, with two digits each, so it is no ratio of one part to thirty.
"""

from __future__ import annotations

import re

from msgspec.structs import replace

from backbud_grammar.forms import ActForm
from backbud_grammar.syntax import Act

HOUR = r"(?:[01][0-9]|2[0-3]):[0-5][0-9]"
_ANY = re.compile(HOUR)
_BEFORE = re.compile(rf"({HOUR})[ \t]+(?=\S)")
_BEHIND_DATE = re.compile(rf"({HOUR})(?:[ \t]+|$)")
_IN_DATE = re.compile(rf"(\d{{4}}-\d\d-\d\d)T({HOUR})")
# As a detail of its own, or as the first or the last word.
_FIRST = re.compile(rf"(?:at[ \t]+)?({HOUR})(?:[ \t]*,[ \t]*|[ \t]+|$)", re.IGNORECASE)
_LAST = re.compile(rf"(?:[ \t]*,[ \t]*|[ \t]+)(?:at[ \t]+)?({HOUR})$", re.IGNORECASE)
_AS_DETAIL = re.compile(rf"(?:^|,[ \t]*)at[ \t]+({HOUR})(?=[ \t]*,|$)", re.IGNORECASE)
_LOOSELY = re.compile(r"(\d{1,2})[:.h](\d\d)", re.IGNORECASE)
# Where an act takes one of these, figures with a colon may be that: there the hour stands before.
_LIKE_AN_HOUR = ("ratio", "duration")


def may_hold_hour(text: str) -> bool:
    """Whether an hour may stand among the details of an act."""
    return ":" in text and _ANY.search(text) is not None


def minutes_of(hour: str) -> int:
    """The minutes since midnight; -1 for "", no hour.

    >>> minutes_of("10:30")
    630
    """
    return 60 * int(hour[:2]) + int(hour[3:]) if hour else -1


def hint_of_hour(word: str) -> str:
    """How to write the hour that a word may be meant for; "" where it is none.

    >>> hint_of_hour("8:45"), hint_of_hour("8:75")
    ('An hour is two digits, a colon and two digits: 08:45', '')
    """
    loose = _LOOSELY.fullmatch(word)
    hour = f"{loose[1]:0>2}:{loose[2]}" if loose is not None else ""
    is_one = re.fullmatch(HOUR, hour) is not None
    return f"An hour is two digits, a colon and two digits: {hour}" if is_one else ""


def hour_of_day(date: str, rest: str) -> tuple[str, str, str]:
    """A page's date, its hour ("" where none) and what follows both.

    `2027-03-06 10:30`, and ISO 8601's `2027-03-06T10:30`.
    """
    joined = _IN_DATE.fullmatch(date)
    if joined is not None:
        return joined[1], joined[2], rest
    behind = _BEHIND_DATE.match(rest)
    return (date, behind[1], rest[behind.end() :]) if behind is not None else (date, "", rest)


def hour_before(body: str) -> tuple[str, str]:
    """The hour that a line without its indent begins with ("" where none), and what follows."""
    if not body[:1].isdecimal():
        return "", body
    found = _BEFORE.match(body)
    return (found[1], body[found.end() :]) if found is not None else ("", body)


def with_hour_behind(act: Act, form: ActForm | None) -> Act:
    """An act with the hour taken out of its details, where one stands first or last in them.

    Not where the act takes a ratio or a time that something lasts; what takes a time of the day
    (`treated …, at 14:30`) keeps that among its details. Of two hours none is taken.
    """
    if ":" not in act.text or act.hour or form is None or form.prose:
        return act
    if any(one.reader == "time" for one in form.forms):
        found = _AS_DETAIL.search(act.text)
        return replace(act, hour=found[1]) if found is not None else act
    if any(sort in _LIKE_AN_HOUR for one in form.forms for sort in one.sorts):
        return act
    if len(re.findall(rf"(?<![\d:]){HOUR}(?![\d:])", act.text)) != 1:
        return act
    first = _FIRST.match(act.text)
    if first is not None and first.end() == len(act.text):
        return replace(act, hour=first[1], text="", seams=())
    last = _LAST.search(act.text)
    if last is not None:
        return replace(act, hour=last[1], text=act.text[: last.start()])
    if first is None or act.seams:
        return act
    cut = first.end()
    return replace(act, hour=first[1], text=act.text[cut:], text_column=act.text_column + cut)
