"""Gives every page of the diary its place in time, and leaves out those that have none."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from datetime import date
from functools import lru_cache, partial
from typing import NamedTuple

from backbud.journal import remember
from backbud.journal.dated import DatedPage, DayWeather
from backbud.journal.diary import DiaryReader
from backbud.journal.events import Origin
from backbud.journal.faults import FAULT, fault_at
from backbud.journal.headings import day_above, flaw_of_date, length_of
from backbud.journal.outlined import Outlined
from backbud.journal.page_text import PageText
from backbud.journal.problems import PlacedFlaw, WithFlaws, placed
from backbud.memo import NO_MEMO, Identical, Memo
from backbud.publish.memory import MemoryOf
from backbud_grammar.datelines import is_dateline
from backbud_grammar.dates import LAST_RECKONED, WrittenDate, check_reckoned, read_date
from backbud_grammar.problems import Flaw, Misread
from backbud_grammar.syntax import Page

# A page whose date cannot be read.
NO_DAY = WrittenDate("", date.min, date.min, True, False, False)
# Trees are older than any diary of them; what is known of their youth has a rough date.
OLDEST_DAY = date(1800, 1, 1)


class ReadPage(NamedTuple):
    """A page, by what pages are in order, and what its first line says of the weather."""

    day: date
    file: str
    line: int
    page: DatedPage
    weather: list[DayWeather]


# Pages that were read before all others, by file and line.
ReadFirst = dict[tuple[str, int], WithFlaws[ReadPage | None]]
_NONE: ReadFirst = {}


class DatedBy(NamedTuple):
    """What dates are read by: in which half of the Earth home lies, the day on which the journal is
    read, and whether it is looked at as it was then."""

    southern: bool
    today: date
    as_of: bool

    def for_all_time(self) -> DatedBy:
        """The same, where no page is later than the day."""
        return DatedBy(self.southern, date.max, as_of=False)


def is_later(written: str, by: DatedBy) -> bool:
    """Whether a page is dated after the day on which the journal is read."""
    try:
        return read_date(written, by.southern).first > by.today
    except Misread:
        return False


def read_pages(
    files: Mapping[str, Outlined],
    reader: DiaryReader,
    by: DatedBy,
    around: tuple[object, ...],
    kept: Memo,
    memory: MemoryOf,
    first: ReadFirst = _NONE,
) -> WithFlaws[list[ReadPage]]:
    """The pages of these files, in order.

    `around`: what else a page is read by. `kept`: what an earlier run of this process left.
    `first`: pages that were read before all others.
    """
    pages: list[ReadPage] = []
    flaws: list[PlacedFlaw] = []
    for file, outlined in files.items():
        slot, inputs = ("read file", file), (Identical(outlined), *around, *by)
        read = partial(_page_of, file, outlined, reader, by, memory=memory, first=first)
        found = kept.once(
            slot, inputs, partial(_read, file, outlined, inputs[1:], reader, by, read, kept)
        )
        if any(one.flaw.code == FAULT for one in found.flaws):
            kept.forget(slot)
        pages += found.value
        flaws += found.flaws
    return WithFlaws(pages, tuple(flaws))


# Makes something of one page, if anything: of its line, what was outlined, and how much was found
# wrong in the file above it.
ReadSection = Callable[[int, remember.Kept[PageText], int], WithFlaws[ReadPage | None]]


def _read(
    file: str,
    outlined: Outlined,
    around: tuple[object, ...],
    reader: DiaryReader,
    by: DatedBy,
    read: ReadSection,
    kept: Memo,
) -> WithFlaws[list[ReadPage]]:
    """The pages of a file; those in which nothing is wrong are the very same as before, if that
    was so before."""
    pages: list[ReadPage] = []
    flaws: list[PlacedFlaw] = []
    for line, section in outlined.pages:
        if kept is NO_MEMO:
            found = read(line, section, len(flaws))
        else:
            slot = ("read page", file, line)
            found = kept.once(
                slot,
                (Identical(section.section), *around),
                partial(read, line, section, len(flaws)),
            )
        if found.flaws and kept is not NO_MEMO:
            # They may tell of other pages, too.
            kept.forget(slot)
        if found.value is not None:
            pages.append(found.value)
        flaws += found.flaws
    return WithFlaws(pages, tuple(flaws))


def page_by_lines(
    file: str,
    line: int,
    kept: remember.Kept[PageText],
    reader: DiaryReader,
    by: DatedBy,
    so_far: int,
) -> WithFlaws[ReadPage | None]:
    """A page with a plain date that is read line by line; None where it must be looked at as a
    whole."""
    when = _plain_day(kept.section.date)
    if when is None or when.first > by.today:
        return WithFlaws(None)
    found = reader.of_day(when.first).page_by_lines(kept, when, file, line, so_far)
    if found is None:
        return WithFlaws(None)
    page = ReadPage(when.first, file, line, found.page, found.weather)
    return WithFlaws(page, placed(file, line, found.flaws))


@lru_cache(maxsize=64)
def _plain_day(written: str) -> WrittenDate | None:
    """An exact day that can be reckoned from; None for any other date. Many pages of a day stand
    near one another."""
    try:
        when = read_date(written)
    except Misread:
        return None
    return when if when.exact and OLDEST_DAY <= when.first <= LAST_RECKONED else None


def _page_of(
    file: str,
    outlined: Outlined,
    reader: DiaryReader,
    by: DatedBy,
    line: int,
    kept: remember.Kept[PageText],
    so_far: int,
    memory: MemoryOf,
    first: ReadFirst,
) -> WithFlaws[ReadPage | None]:
    """`read_page`; the very same page as before, where it was read `first`."""
    known = first.get((file, line))
    if known is None:
        return read_page(file, outlined, reader, by, line, kept, so_far, memory)
    if not known.flaws and known.value is not None and known.value.page.words:
        # It was sound, line by line.
        return known
    # What is told of it hangs on the pages above it, what was read of it does not.
    again = read_page(file, outlined, reader, by, line, kept, so_far, memory)
    return WithFlaws(known.value, again.flaws)


def read_page(
    file: str,
    outlined: Outlined,
    reader: DiaryReader,
    by: DatedBy,
    line: int,
    kept: remember.Kept[PageText],
    so_far: int,
    memory: MemoryOf,
) -> WithFlaws[ReadPage | None]:
    """A page as read; None where that failed by a fault of ours, or it has no place in the
    history. `so_far`: how much is wrong in the file above it."""
    try:
        # Most pages are of a day like any other, and have lines like any other.
        found = page_by_lines(file, line, kept, reader, by, so_far)
        if found.value is not None:
            return found
        above = partial(day_above, outlined, line)
        page, flaws = _page(file, line, kept, reader, by, above, so_far)
        return WithFlaws(page, placed(file, line, flaws))
    except Exception as error:
        origin, texts = Origin(file, line + 1, 1), {file: outlined.data}
        hint = "The page was left out; all else was read."
        return WithFlaws(None, (fault_at(origin, texts, memory, "this page", error, hint),))


def _page(
    file: str,
    line: int,
    kept: remember.Kept[PageText],
    reader: DiaryReader,
    by: DatedBy,
    above: Callable[[], date | None],
    so_far: int,
) -> tuple[ReadPage | None, list[Flaw]]:
    """`above`: finds the day of the page above it in its file."""
    written, today = kept.section.date, by.today
    flaws: list[Flaw] = []
    try:
        when = read_date(written, by.southern)
        check_reckoned(when.first, written)
        if kept.section.weather and not when.exact:
            _check_whole(written, kept.section.weather)
    except Misread as error:
        outline = kept.section.read(reader.acts.language_known)
        flaws.append(flaw_of_date(error, outline, above()))
        # Without a day nothing of it can be replayed, but its other problems are told too.
        when = NO_DAY
    if when.first > today:
        if by.as_of:
            return None, flaws
        flaws.append(_not_yet(when, kept.section.read(reader.acts.language_known), today))
    elif when.exact and when.last < OLDEST_DAY and when is not NO_DAY:
        message = f"{when.text} is long ago"
        old = Flaw("old-date", 0, 1, len(written), message, "Is the year right?", "warning")
        flaws.append(old)
    page, weather, found = reader.page(kept, when, file, line, so_far + len(flaws))
    flaws += found
    if when is NO_DAY or when.first > today:
        return None, flaws
    return ReadPage(when.first, file, line, page, weather), flaws


def _check_whole(written: str, weather: str) -> None:
    """Misread where a rough date and what stands behind it are one date: `2026 Nov 21`."""
    whole = f"{written} {weather}"
    if is_dateline(whole):
        raise Misread("bad-date", f"“{whole}” is no date", "")


def _not_yet(when: WrittenDate, page: Page, today: date) -> Flaw:
    hint = "What is still to come is written as planned: planned repot, to 2027-03."
    if (when.first - today).days > 366:
        hint = f"Is the year right? {hint}"
    message = f"{when.text} has not come yet (today is {today})"
    lines = length_of(page)
    return Flaw("future-date", 0, 1, len(page.date), message, hint, lines=lines)
