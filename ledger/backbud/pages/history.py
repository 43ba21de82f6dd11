"""Lays out a tree's history by year and day, the newest first."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from functools import cache
from itertools import groupby
from operator import attrgetter

from msgspec import Struct

from backbud import words
from backbud.journal.line_order import rests
from backbud.tongue import phrase, spoken
from backbud.views.history import CorrectionView, DateView, EntryView, LateView

# How many of the latest years stand open on a page.
YEARS_OPEN = 2


class Was(Struct, frozen=True, gc=False):
    """How a corrected line first read, and the line that changed it."""

    text: str
    at: str
    corrected: str
    corrected_at: str
    remark: str
    undone: bool


class HistoryLine(Struct, frozen=True, gc=False):
    """One entry as shown: the act, its details, the remark, and where it stands.

    `held`: it is held back, and changes nothing. `beside`: words of it that were not used.
    `written`: the line as written, at the first of what was read of it, where it has other words.
    `for_owner`: the tree's owner reads its words, and the keeper is told so. `late`: when it was
    written, or changed, long after its day. `hour`: at which it was done, where that is not the
    hour of the line above.
    """

    act: str
    text: str
    beside: str
    remark: str
    at: str
    shared: str
    private: bool
    held: bool
    was: Was | None
    for_owner: bool = False
    written: str = ""
    late: str = ""
    hour: str = ""


class Day(Struct, frozen=True, gc=False):
    """The entries of one date, in the order they were written. `at`: where all of several stand,
    "" where each says so itself."""

    when: str
    lines: tuple[HistoryLine, ...]
    at: str = ""


class HistoryYear(Struct, frozen=True, gc=False):
    """One year's days, the newest first; `open`: shown without a click. What rests is folded."""

    name: str
    count: str
    open: bool
    days: tuple[Day, ...]


def _where(lines: Sequence[HistoryLine]) -> str:
    """The file of several lines, and their numbers: `diary/2026.txt:12, 13`."""
    if len(lines) < 2:
        return ""
    files, _, numbers = zip(*[line.at.rpartition(":") for line in lines], strict=True)
    if not files[0] or files.count(files[0]) < len(files):
        return ""
    return f"{files[0]}:{', '.join(numbers)}"


def years_of(history: Sequence[EntryView]) -> tuple[HistoryYear, ...]:
    """Group a history, oldest first, by year and day; both come out newest first."""
    by_date = [(when, list(same)) for when, same in groupby(history, key=attrgetter("when"))]
    by_date.reverse()
    language, years = spoken(), []
    for at, (year, dates) in enumerate(groupby(by_date, key=lambda date: date[0].first.year)):
        days = tuple([_day(when, entries, year, language) for when, entries in dates])
        count = words.number(sum([len(day.lines) for day in days]), "entry", "entries")
        is_open = at < YEARS_OPEN and not _rests(days)
        years.append(HistoryYear(str(year), count, is_open, days))
    return tuple(years)


def _rests(days: Sequence[Day]) -> bool:
    """Whether all of a year was put to rest."""
    return all(rests(line.at) for day in days for line in day.lines)


def _day(when: DateView, entries: Iterable[EntryView], year: int, language: str) -> Day:
    lines = []
    words_above = hour_above = ""
    for entry in entries:
        # What several lines share is said once.
        own, hour = entry.own_words, entry.hour
        shown_own = "" if own == words_above else own
        lines.append(_line(entry, year, shown_own, "" if hour == hour_above else hour))
        words_above, hour_above = own, hour
    return Day(_written(when, year, language), tuple(lines), _where(lines))


@cache
def _written(when: DateView, year: int, language: str) -> str:
    # Thousands of trees share the same dates; the language is that which is spoken.
    return words.written(when, year)


def _line(entry: EntryView, year: int, written: str, hour: str) -> HistoryLine:
    return HistoryLine(
        "" if entry.plainly else entry.act,
        entry.plainly or entry.text,
        entry.beside if entry.kept else "",
        entry.remark,
        entry.at,
        _shared(entry) if entry.shared_among > 1 or entry.count or entry.within else "",
        entry.private,
        entry.held_back,
        _was(entry.correction, year) if entry.correction else None,
        bool(entry.for_owner),
        written,
        late_in_words(entry.late, year) if entry.late else "",
        hour,
    )


def _shared(entry: EntryView) -> str:
    """Among how many trees it is shared, and how many of a batch it is said of."""
    among = entry.shared_among
    shared = phrase("shared among {trees}", trees=words.number(among, "tree")) if among > 1 else ""
    return "; ".join(filter(None, (shared, entry.whose)))


def late_in_words(late: LateView, year: int) -> str:
    """When a line was written, or changed, long after its day."""
    on = words.day(late.on, year)
    return phrase("changed {day}", day=on) if late.changed else phrase("written down {day}", day=on)


def _was(by: CorrectionView, year: int) -> Was:
    return Was(by.was, by.was_at, words.written(by.when, year), by.at, by.remark, by.undone)
