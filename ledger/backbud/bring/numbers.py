"""Says the value of a cell in plain words: a number, a day, yes or no."""

from __future__ import annotations

import datetime
import re
from decimal import Decimal

# What a spreadsheet shows behind or before a number; the others are signs of several currencies.
_CURRENCIES = {"€": "EUR", "£": "GBP"}
_SHOWN_CURRENCY = re.compile(r"\[\$([^\]\-]+)(?:-[^\]]*)?\]|([€£$¥])")


def number_in_words(value: int | float, form: str = "") -> str:
    """A number as a person writes it. `form`: the number format of its cell, which may make a share
    or money of it (ECMA-376 part 1, 18.8.30).

    >>> number_in_words(52.0), number_in_words(0.1 + 0.2), number_in_words(0.3, "0%")
    ('52', '0.3', '30 %')
    """
    form = re.sub(r'"([^"]*)"', r"\1", form)
    if "%" in form:
        return f"{_plain(Decimal(_digits(value)) * 100)} %"
    told = _plain(Decimal(_digits(value)))
    if found := _SHOWN_CURRENCY.search(form):
        sign = (found[1] or found[2]).strip()
        return f"{told} {_CURRENCIES.get(sign, sign)}".rstrip()
    return told


def _digits(value: int | float) -> str:
    # Fifteen digits are all that a spreadsheet itself keeps.
    return str(value) if isinstance(value, int) else f"{value:.15g}"


def _plain(value: Decimal) -> str:
    if not value.is_finite() or abs(value.adjusted()) > 15:
        return str(value)
    return f"{value.normalize():f}"


def day_in_words(value: datetime.datetime | datetime.date) -> tuple[str, str]:
    """What stands in a cell of a date, and its day (ISO 8601)."""
    if isinstance(value, datetime.datetime):
        day = value.date().isoformat()
        has_time = value.time() != datetime.time()
        return (f"{day} {value:%H:%M}" if has_time else day), day
    return value.isoformat(), value.isoformat()


def time_in_words(value: datetime.time | datetime.timedelta) -> str:
    """A time of day (`07:30`), or how long something took, as the diary has it (`1 h 20`)."""
    if isinstance(value, datetime.time):
        return f"{value:%H:%M}"
    minutes = round(value.total_seconds() / 60)
    hours, rest = divmod(abs(minutes), 60)
    sign = "-" if minutes < 0 else ""
    return (
        f"{sign}{hours} h {rest}"
        if hours and rest
        else f"{sign}{hours} h"
        if hours
        else (f"{sign}{rest} min")
    )
