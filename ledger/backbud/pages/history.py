"""Lays out a tree's history by year and day, the newest first."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from functools import cache
from itertools import groupby
from operator import attrgetter

from msgspec import Struct

from backbud import words
from backbud.journal.line_order import rests
from backbud.pages.links import earlier_page, link
from backbud.tongue import phrase, spoken
from backbud.views.history import CorrectionView, DateView, EntryView, LateView
from backbud_grammar.acts import acts_with

# How many of the latest years stand open on a page.
YEARS_OPEN = 2
# Of a long history so many of the latest years stand on the tree's page, and what came before them
# on a page of its own, where that is no less than so many entries.
YEARS_WITH_TREE = 8
FEWEST_EARLIER = 60
# What was done so often in a folded year is told together; ours.
OFTEN = 3
# A look finds something, so each stands for itself.
_DAILY = acts_with("daily_keep") - {"checked"}


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


class Again(Struct, frozen=True, gc=False):
    """An act of the daily keep, and each time in a year that it was done: the day, and what its
    line says beside the act."""

    act: str
    times: str


class HistoryYear(Struct, frozen=True, gc=False):
    """One year's days, the newest first; `open`: shown without a click. What rests is folded.

    `again`: what of a folded year was done again and again, told together.
    """

    name: str
    count: str
    entries: int
    open: bool
    days: tuple[Day, ...]
    again: tuple[Again, ...] = ()


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
        of_year = list(dates)
        entries = sum([len(entries) for _, entries in of_year])
        count = words.number(entries, "entry", "entries")
        is_open = at < YEARS_OPEN and not _rests(of_year)
        again = () if is_open else tuple(_again_and_again(of_year, year))
        if again:
            told = {one.act for one in again}
            of_year = [(when, _without_keep(those, told)) for when, those in of_year]
        days = tuple([_day(when, those, year, language) for when, those in of_year if those])
        years.append(HistoryYear(str(year), count, entries, is_open, days, again))
    return tuple(years)


class Earlier(Struct, frozen=True, gc=False):
    """The years that stand on a page of their own. `span`: the first and the last of them; `page`:
    its path, `link` the way to it from the tree's page, `back` the way back."""

    years: tuple[HistoryYear, ...]
    span: str
    page: str
    link: str
    back: str


def parted_years(
    years: Sequence[HistoryYear], tree_page: str
) -> tuple[tuple[HistoryYear, ...], Earlier | None]:
    """The years that stand on the tree's own page, and those that stand on another, if there are
    so many. `tree_page`: the path of the first."""
    before = tuple(years[YEARS_WITH_TREE:])
    if sum(year.entries for year in before) < FEWEST_EARLIER:
        return tuple(years), None
    span = "–".join(dict.fromkeys((before[-1].name, before[0].name)))
    page = earlier_page(tree_page)
    earlier = Earlier(before, span, page, link(page, "../"), link(tree_page, "../../"))
    return tuple(years[:YEARS_WITH_TREE]), earlier


def _rests(dates: Sequence[tuple[DateView, list[EntryView]]]) -> bool:
    """Whether all of a year was put to rest."""
    return all(rests(entry.at) for _, entries in dates for entry in entries)


def _again_and_again(
    dates: Sequence[tuple[DateView, list[EntryView]]], year: int
) -> Iterator[Again]:
    """Each act of the daily keep that was done often in a year, with its days, newest first."""
    by_act: dict[str, list[EntryView]] = {}
    for _, entries in dates:
        for entry in entries:
            if _is_plain_keep(entry):
                by_act.setdefault(entry.act, []).append(entry)
    for act, done in by_act.items():
        if len(done) >= OFTEN:
            told = (f"{words.day(one.when.first, year)} {one.text}".rstrip() for one in done)
            yield Again(act, ("; " if any(one.text for one in done) else ", ").join(told))


def _without_keep(entries: list[EntryView], told: set[str]) -> list[EntryView]:
    return [one for one in entries if one.act not in told or not _is_plain_keep(one)]


def _is_plain_keep(entry: EntryView) -> bool:
    """Whether a line says that something of the daily keep was done on a day, and no more."""
    return (
        entry.act in _DAILY
        and entry.when.exact
        and entry.done
        and entry.shared_among == 1
        and not (entry.remark or entry.kept or entry.own_words or entry.plainly or entry.hour)
        and not (entry.correction or entry.private or entry.late or entry.count or entry.within)
    )


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
