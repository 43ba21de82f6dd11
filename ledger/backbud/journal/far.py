"""Tells of dates and spans that lie too far off, in acts and on cards, and of cards whose day has
not come: mostly slips in a year.

What is due in a thousand years is never due: it would put an end to a reminder without a word.
"""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date
from functools import lru_cache

from backbud.journal.problems import PlacedFlaws, flaw_at
from backbud.journal.things import Things
from backbud_grammar.dates import WrittenDate, read_span
from backbud_grammar.held_back import CHANGES_NOTHING
from backbud_grammar.measures import Measure
from backbud_grammar.problems import Flaw, Misread
from backbud_grammar.syntax import Detail

# Ours: longer than anybody plans, shorter than a slip in a year's digits mostly is.
FARTHEST_YEARS = 100
# Ours: no tree has stood in a pot for so long.
OLDEST_YEARS = 1000
_A_YEAR_HAS = {"day": 365.25, "week": 365.25 / 7, "month": 12, "year": 1}


def says_when(details: Iterable[Detail]) -> bool:
    """Whether anything of it lies before or after the page by what it says, and may lie too far."""
    for detail in details:
        if detail.date and _dated(detail):
            return True
        if detail.measure is not None and _is_far_span(detail.measure):
            return True
    return False


def flaw_of_far(details: Iterable[Detail], when: WrittenDate) -> Flaw | None:
    """The flaw of the first detail that lies more than 100 years from a page, or None."""
    for detail in details:
        if _is_far(detail, when):
            measure = detail.measure
            length = f"{measure.numbers[-1]:f} {measure.unit}s" if measure else ""
            return Flaw(
                "far-date",
                0,
                0,
                0,
                f"{detail.date or length} is too far off to reckon with, {CHANGES_NOTHING}",
                f"Is it right? An act reaches at most {FARTHEST_YEARS} years from its page.",
            )
    return None


def far_on_cards(things: Things, today: date) -> PlacedFlaws:
    """The dates on cards that lie more than 100 years ahead, or a thousand back."""
    return tuple(
        flaw_at(
            line.where(written),
            "far-date",
            f"{written} is too far off to reckon with",
            "Is it right? A card says what was so when it was written.",
            0,
            len(written),
        )
        for thing in things.by_handle.values()
        for line in thing.lines
        if (written := line.detail.date) and _is_far_on_card(written, today)
    )


def ahead_on_cards(things: Things, today: date) -> PlacedFlaws:
    """The cards whose `since` has not come yet: mostly slips in a year."""
    return tuple(
        flaw_at(
            line.where(line.detail.date),
            "future-date",
            f"{line.detail.date} has not come yet (today is {today})",
            "A card says what was so when it was written; what is to come is written as planned.",
            0,
            len(line.detail.date),
        )
        for thing in things.by_handle.values()
        if thing.since is not None
        and thing.since.first > today
        and not _is_far_on_card(thing.since.text, today)
        for line in thing.lines
        if line.detail.name == "since"
    )


def _is_far_on_card(written: str, today: date) -> bool:
    years = _years_of(written)
    return years is not None and (
        years[0] - today.year > FARTHEST_YEARS or years[1] <= today.year - OLDEST_YEARS
    )


def _dated(detail: Detail) -> bool:
    # The day that is corrected is that of another page, however old.
    return bool(detail.date) and detail.name != "date"


def _is_far_span(measure: Measure) -> bool:
    if measure.sort != "duration" or measure.unit not in _A_YEAR_HAS:
        return False
    most = max(float(number) for number in (*measure.numbers, measure.upper or 0))
    return most > FARTHEST_YEARS * _A_YEAR_HAS[measure.unit]


def _is_far(detail: Detail, when: WrittenDate) -> bool:
    if _dated(detail):
        return any(_is_far_end(end, when) for end in detail.date.split("/"))
    return detail.measure is not None and _is_far_span(detail.measure)


def _is_far_end(written: str, when: WrittenDate) -> bool:
    """Whether an end of a span lies too far off; an open one does not."""
    years = _years_of(written) if written not in ("", "..") else None
    return years is not None and (
        years[0] > when.last.year + FARTHEST_YEARS or years[1] < when.first.year - FARTHEST_YEARS
    )


@lru_cache(maxsize=10_000)
def _years_of(written: str) -> tuple[int, int] | None:
    """The years that a date, a span or an end of one begins and ends in; None where it cannot be
    read, which is told as what it is."""
    try:
        said = read_span(written)
    except Misread:
        return None
    return said.first.year, said.last.year
