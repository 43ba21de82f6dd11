"""Puts pages in their order while some are still to be read: day by day, as soon as a day is whole.

Nobody knows where a page belongs before its day is, but that is quickly told of all of them.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from datetime import date
from functools import cached_property

from backbud.journal.line_order import line_order, rests
from backbud.journal.outlined import Outlined
from backbud.journal.pages import ReadPage
from backbud_grammar.dates import read_date
from backbud_grammar.problems import Misread

# Of files that follow one another in time hardly a page waits for those that come later.
_MOST_WAIT = 0.1


class InTurn:
    """`files`: with all pages that there are. `southern`: whose seasons rough dates are."""

    def __init__(self, files: Mapping[str, Outlined], southern: bool) -> None:
        self._files, self._southern = files, southern
        self._at_rest = any(map(rests, files))
        self._waiting: list[ReadPage] = []

    @cached_property
    def _days_of(self) -> dict[str, list[date]]:
        """The days of the pages of each file."""
        days: dict[str, date] = {}
        for file in self._files.values():
            for _, page in file.pages:
                written = page.section.date
                if written not in days:
                    days[written] = _day(written, self._southern)
        return {
            name: [days[page.section.date] for _, page in file.pages]
            for name, file in self._files.items()
        }

    @cached_property
    def _first(self) -> dict[str, date]:
        return {name: min(days, default=date.max) for name, days in self._days_of.items()}

    def add(self, pages: Iterable[ReadPage]) -> None:
        """Pages that were read."""
        self._waiting += pages

    def before(self, left: Iterable[str]) -> list[ReadPage]:
        """The pages that come next, in order: those of which no page of the files that are left
        can be of the same day, or an earlier one. Each is given out once."""
        self._waiting = self.in_order(self._waiting)
        until = min([self._first[file] for file in left], default=date.max)
        so_many = len(self._waiting)
        if until < date.max:
            so_many = next((n for n, one in enumerate(self._waiting) if one.day >= until), so_many)
        out, self._waiting = self._waiting[:so_many], self._waiting[so_many:]
        return out

    def in_order(self, pages: Iterable[ReadPage]) -> list[ReadPage]:
        """These pages by day, file and line."""
        # As they stand, which takes a tenth of the time, where nothing rests.
        key = (lambda one: (one.day, line_order(one))) if self._at_rest else None
        return sorted(pages, key=key)

    def until(self, last: date) -> int:
        """How many pages have a place in the history, which ends on a day."""
        return sum([day <= last for days in self._days_of.values() for day in days])

    @property
    def follow(self) -> bool:
        """Whether the files follow one another in time, or nearly; and no page has an hour, by
        which its lines come elsewhere."""
        if any(page.section.hour for file in self._files.values() for _, page in file.pages):
            return False
        waiting, until = 0, date.max
        for name, days in reversed(self._days_of.items()):
            waiting += sum([day >= until for day in days])
            until = min(until, self._first[name])
        return waiting <= _MOST_WAIT * sum(map(len, self._days_of.values()))


def _day(written: str, southern: bool) -> date:
    """The day by which a page of this date is in order; the last of all where it has none."""
    try:
        return read_date(written, southern).first
    except Misread:
        return date.max
