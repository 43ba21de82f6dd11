"""Reads when a line says something is to be done: `to 2028-03`, `in 2-3 weeks`, `next spring`."""

from __future__ import annotations

import calendar
from datetime import date, timedelta
from decimal import Decimal

from backbud.journal.events import Event
from backbud.species import Window
from backbud_grammar.dates import read_span
from backbud_grammar.measures import Measure
from backbud_grammar.problems import Misread
from backbud_grammar.syntax import Detail

_MONTHS = {"month": 1, "year": 12}
# A plan that names one day and no span has some room: ours, no source.
_ROOM = timedelta(days=30)
_LONGEST = timedelta(days=365)
# No plan goes further, so that there is always a day after it.
_END_OF_TIME = date(9990, 1, 1)


def window_said(event: Event, southern: bool) -> Window | None:
    """The window of a plan or a put-off: `to 2028-03/2028-04`, `in 2-3 weeks`; None without one.

    `in 3 weeks` has room behind it; a span as said has none.
    """
    when = event.first("when")
    if when is not None and when.date:
        return span_window(when.date, southern)
    season = event.first("season")
    if season is not None:
        return _season_window(season.words, event.day, southern)
    window = _window_in(event.first("in"), event.day)
    if window is not None and window.opens == window.closes:
        room = max((window.opens - event.day) // 4, timedelta(days=1))
        return Window(window.opens, window.opens, window.opens + room)
    return window


def _season_window(words: str, day: date, southern: bool) -> Window | None:
    """The season that is not over on a day; `next` is one that has not begun."""
    lead, _, name = words.casefold().partition(" ")
    code = 21 + ("spring", "summer", "autumn", "winter").index(name)
    for year in range(day.year - 1, day.year + 3):
        window = span_window(f"{year}-{code}", southern)
        if window and (window.opens if lead == "next" else window.closes) > day:
            return window
    return None


def window_of_plan(event: Event, southern: bool) -> Window:
    """When a planned act is meant to be done; a month from its page where it does not say."""
    said = window_said(event, southern)
    return said or Window(event.day, event.day, event.day + _ROOM)


def window_again(event: Event, southern: bool) -> Window | None:
    """When a check is to be done again: the very day, or the span, that `again` says."""
    again = event.first("again")
    if again is not None and again.date:
        return span_window(again.date, southern)
    return _window_in(again, event.day)


def window_until(event: Event, southern: bool) -> Window | None:
    """The week that follows the end of a span: `until 2026-05-09`."""
    until = event.first("until")
    if until is not None and until.date:
        span = span_window(until.date, southern)
    else:
        span = _window_in(event.first("for"), event.day)
    return span and Window(span.closes, span.closes, span.closes + timedelta(days=7))


def span_window(written: str, southern: bool) -> Window | None:
    """The window of a date or span as written; None where it is none."""
    try:
        span = read_span(written, southern)
    except Misread:
        return None
    first = span.first if span.first > date.min else span.last
    first = min(first, _END_OF_TIME)
    last = span.last if span.last < date.max else first + _LONGEST
    last = min(last, _END_OF_TIME + _LONGEST)
    return Window(first, first + (last - first) / 2, last)


def _window_in(detail: Detail | None, day: date) -> Window | None:
    measure = detail.measure if detail is not None else None
    if measure is None or measure.sort != "duration":
        return None
    try:
        opens = _later(day, measure, measure.numbers[0])
        closes = _later(day, measure, measure.upper) if measure.upper is not None else opens
    except (OverflowError, ValueError):
        return None
    if closes > _END_OF_TIME:
        return None
    return Window(opens, opens + (closes - opens) / 2, closes)


def _later(day: date, measure: Measure, number: Decimal) -> date:
    """The day so much later; whole months and years are the calendar's."""
    months = _MONTHS.get(measure.unit)
    if months is None or number != int(number):
        in_days = Measure((number,), measure.unit, measure.sort).within("day")
        return day + timedelta(days=round(in_days))
    years, month = divmod(day.month - 1 + months * int(number), 12)
    year = day.year + years
    return date(year, month + 1, min(day.day, calendar.monthrange(year, month + 1)[1]))
