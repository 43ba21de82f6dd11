"""Lays out a tree's history by year and day, the newest first."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from functools import cache

from msgspec import Struct
from msgspec.structs import replace

from backbud import words
from backbud.journal.line_order import rests
from backbud.pages.links import earlier_page, link
from backbud.tongue import DaysOfYear, days_of_year, phrase, spoken
from backbud.views.history import DateView, EntryView, LateView
from backbud.views.long_history import YEARS_OPEN, years_by_page
from backbud_grammar.acts import acts_with

# What was done so often in a folded year is told together; ours.
OFTEN = 3
# A look finds something, so each stands for itself.
_DAILY = acts_with("daily_keep") - {"checked"}


# A date, and what was done on it, in the order it was written.
OfDate = tuple[DateView, list[EntryView]]


class Day(Struct, frozen=True, gc=False):
    """The entries of one date, in the order they were written. `at`: where all of several stand,
    "" where each says so itself."""

    when: str
    lines: tuple[EntryView, ...]
    at: str = ""


class Again(Struct, frozen=True, gc=False):
    """An act of the daily keep, and each time in a year that it was done: the day, and what its
    line says beside the act."""

    act: str
    times: str


class HistoryYear(Struct, frozen=True, gc=False):
    """One year's days, the newest first; `open`: shown without a click. What rests is folded.

    `again`: what of a folded year was done again and again, told together.
    """

    year: int
    count: str
    entries: int
    open: bool
    days: tuple[Day, ...]
    again: tuple[Again, ...] = ()


def _where(lines: Sequence[EntryView]) -> str:
    """The file of several lines, and their numbers: `diary/2026.txt:12, 13`; "" where they stand
    in several files, or in none."""
    file, colon, number = lines[0].at.rpartition(":")
    if not colon:
        return ""
    numbers = [number]
    for line in lines[1:]:
        other, _, number = line.at.rpartition(":")
        if other != file:
            return ""
        numbers.append(number)
    return f"{file}:{', '.join(numbers)}"


def dates_by_year(history: Iterable[EntryView]) -> dict[int, list[OfDate]]:
    """A history, oldest first, by year and date."""
    by_year: dict[int, list[OfDate]] = {}
    of_year: list[OfDate] = []
    entries: list[EntryView] = []
    last: DateView | None = None
    year = 0
    for entry in history:
        when = entry.when
        if when is not last and when != last:
            last, entries = when, []
            if when.first.year != year:
                year = when.first.year
                of_year = by_year.setdefault(year, [])
            of_year.append((when, entries))
        entries.append(entry)
    return by_year


def years_of(by_year: dict[int, list[OfDate]]) -> tuple[HistoryYear, ...]:
    """Lay out a history by year and day; both come out newest first."""
    language, days, years = spoken(), days_of_year(), []
    for at, year in enumerate(reversed(by_year)):
        dates = by_year[year][::-1]
        entries_of_year = sum([len(those) for _, those in dates])
        count = words.number(entries_of_year, "entry", "entries")
        is_open = at < YEARS_OPEN and not _rests(dates)
        again = () if is_open else _again_and_again(dates)
        if again:
            told = {id(one) for _, done in again for one in done}
            dates = [(when, [one for one in those if id(one) not in told]) for when, those in dates]
        shown = [_day(when, those, year, language, days) for when, those in dates if those]
        often = tuple([Again(act, _times(done, days)) for act, done in again])
        years.append(HistoryYear(year, count, entries_of_year, is_open, tuple(shown), often))
    return tuple(years)


class Earlier(Struct, frozen=True, gc=False):
    """Years that stand on a page of their own. `span`: the first and the last of them; `page`: its
    path, `link` the way to it from the tree's page, `back` the way back; `others`: the spans of the
    other such pages, each with the way to it from here."""

    years: tuple[HistoryYear, ...]
    span: str
    page: str
    link: str
    back: str
    others: tuple[tuple[str, str], ...] = ()


def parted_years(
    years: Sequence[HistoryYear], tree_page: str
) -> tuple[tuple[HistoryYear, ...], tuple[Earlier, ...]]:
    """The years that stand on the tree's own page, and those that stand on others, if there are
    so many. `tree_page`: the path of the first."""
    own, *before = years_by_page([year.entries for year in years])
    if not before:
        return tuple(years), ()
    ways: list[tuple[str, str]] = []
    parts: list[tuple[HistoryYear, ...]] = []
    at = own
    for number, count in enumerate(before, 1):
        part = tuple(years[at : at + count])
        span = "–".join(dict.fromkeys((str(part[-1].year), str(part[0].year))))
        ways.append((span, earlier_page(tree_page, number)))
        parts.append(part)
        at += count
    return tuple(years[:own]), tuple(
        [
            Earlier(
                part,
                span,
                page,
                link(page, "../"),
                link(tree_page, "../../"),
                tuple([(other, link(way, "../../")) for other, way in ways if way != page]),
            )
            for part, (span, page) in zip(parts, ways, strict=True)
        ]
    )


def _rests(dates: Sequence[OfDate]) -> bool:
    """Whether all of a year was put to rest."""
    for _, entries in dates:
        for entry in entries:
            if not rests(entry.at):
                return False
    return True


def _again_and_again(dates: Sequence[OfDate]) -> Sequence[tuple[str, list[EntryView]]]:
    """Each act of the daily keep that was done often in a year, with its lines, newest first."""
    by_act: dict[str, list[EntryView]] = {}
    for _, entries in dates:
        for entry in entries:
            if entry.act in _DAILY and _is_plain_keep(entry):
                by_act.setdefault(entry.act, []).append(entry)
    return [(act, done) for act, done in by_act.items() if len(done) >= OFTEN]


def _times(done: Sequence[EntryView], days: DaysOfYear) -> str:
    """Each time: the day, and what its line says beside the act."""
    told, between = [], ", "
    for one in done:
        first, text = one.when.first, one.text
        day = days[first.month - 1][first.day - 1]
        if text:
            between = "; "
        told.append(f"{day} {text}".rstrip() if text else day)
    return between.join(told)


def _is_plain_keep(entry: EntryView) -> bool:
    """Whether a line of the daily keep says that it was done on a day, and no more."""
    return (
        entry.when.exact
        and entry.done
        and entry.shared_among == 1
        and not (entry.remark or entry.kept or entry.own_words or entry.plainly or entry.hour)
        and not (entry.correction or entry.private or entry.late or entry.count or entry.within)
    )


def _day(
    when: DateView, entries: Sequence[EntryView], year: int, language: str, days: DaysOfYear
) -> Day:
    if when.exact:
        first = when.first
        told = days[first.month - 1][first.day - 1]
    else:
        told = _written(when, year, language)
    if len(entries) == 1:
        # Most days have one line, and it says itself where it stands.
        one = entries[0]
        return Day(told, tuple(_said_once(entries)) if one.plainly else (one,))
    lines = tuple(entries)
    for one in entries:
        if one.own_words or one.hour or one.plainly:
            lines = tuple(_said_once(entries))
            break
    return Day(told, lines, _where(lines))


def _said_once(entries: Iterable[EntryView]) -> Iterator[EntryView]:
    """The entries of a date: what several lines share is said once, and what is told plainly in
    the place of act and details."""
    words_above = hour_above = ""
    for one in entries:
        own, hour, plainly = one.own_words, one.hour, one.plainly
        yield replace(
            one,
            own_words="" if own == words_above else own,
            hour="" if hour == hour_above else hour,
            act="" if plainly else one.act,
            text=plainly or one.text,
        )
        words_above, hour_above = own, hour


@cache
def _written(when: DateView, year: int, language: str) -> str:
    # Thousands of trees share the same dates; the language is that which is spoken.
    return words.written(when, year)


def late_in_words(late: LateView, year: int) -> str:
    """When a line was written, or changed, long after its day."""
    on = words.day(late.on, year)
    return phrase("changed {day}", day=on) if late.changed else phrase("written down {day}", day=on)
