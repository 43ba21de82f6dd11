"""Reads all dated pages of a journal, in their order; many new ones with a second process."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from functools import partial
from itertools import chain
from typing import NamedTuple

from msgspec.structs import replace

from backbud.journal.by_the_hour import by_the_hour
from backbud.journal.by_two import NewPages, PagesOfSecond, many_new, pages_of_second
from backbud.journal.dated import DatedPage, DayWeather, Said, SoundActs
from backbud.journal.diary import DiaryReader
from backbud.journal.in_turn import InTurn
from backbud.journal.language_past import lines_read_otherwise
from backbud.journal.outlined import Outlined
from backbud.journal.own_past import past_lines
from backbud.journal.own_words import OwnWords
from backbud.journal.pages import (
    DatedBy,
    ReadFirst,
    ReadPage,
    is_later,
    page_by_lines,
    read_page,
    read_pages,
)
from backbud.journal.problems import PlacedFlaw, WithFlaws
from backbud.journal.said import ActReader
from backbud.journal.steps import GoesAhead, SoFar
from backbud.journal.things import Things
from backbud.memo import Identical, Memo
from backbud_grammar.digest import digest
from backbud_grammar.languages import LANGUAGE


def read_all_pages(reading: SoFar) -> WithFlaws[SoFar]:
    """The dated pages in their order, their acts held against the table of acts."""
    asked, things = reading.asked, reading.things
    known, kept = asked.known, asked.kept
    own = reading.own_words
    languages, gallon = reading.settings.languages, reading.settings.gallon
    handles = _handles(things, own, f"{languages.text} {gallon}")
    # Where nothing is remembered, nothing was sound.
    if known.things not in (b"", handles):
        known.forget_sound(reading.parted.rows())
    around = (Identical(known), handles)
    sound = kept.once("sound acts", around, dict[str, dict[str, Said]])
    acts = ActReader(things, asked.details, known.said_of, sound, own, languages, LANGUAGE, gallon)
    reader = DiaryReader(acts)
    by = DatedBy(reading.southern, asked.today, asked.as_of)
    read = _Read(reading.parted.counting(), reader, by, around, reading)
    gathered = _gathered(read, sound)
    in_order = replace(
        reading,
        handles=handles,
        sound=sound,
        pages=tuple(gathered.pages),
        weather=tuple(gathered.weather),
        own_past=past_lines(read.files, own, asked.acts, reading.southern),
        language_past=lines_read_otherwise(read.files, acts, LANGUAGE, southern=reading.southern),
        later=read.later() if asked.as_of else (),
    )
    return WithFlaws(in_order, tuple(gathered.flaws))


class _Read(NamedTuple):
    """The files whose pages are read, and by what."""

    files: dict[str, Outlined]
    reader: DiaryReader
    by: DatedBy
    around: tuple[object, ...]
    reading: SoFar

    def pages(self, names: Iterable[str], first: ReadFirst) -> WithFlaws[list[ReadPage]]:
        """The pages of these files. `first`: those that were read before all others."""
        files, asked = {name: self.files[name] for name in names}, self.reading.asked
        return read_pages(files, self.reader, self.by, self.around, asked.kept, asked.memory, first)

    def first(self, pages: NewPages) -> ReadFirst:
        """These pages before all others, as far as they have a place in the history."""
        memory, found = self.reading.asked.memory, ReadFirst()
        # What is told of a page hangs on those that were read before it.
        reader = DiaryReader(self.reader.acts)
        for name, line, kept in pages:
            file = self.files[name]
            value, flaws = read_page(name, file, reader, self.by, line, kept, 0, memory)
            if value is not None:
                found[name, line] = WithFlaws(value, flaws)
        return found

    def later(self) -> tuple[DatedPage, ...]:
        """The pages after the day on which the journal is looked at as it was then, in their order;
        what is wrong in them is none of that day's."""
        memory, found = self.reading.asked.memory, list[ReadPage]()
        by, reader = self.by.for_all_time(), DiaryReader(self.reader.acts)
        for name, file in self.files.items():
            for line, kept in file.pages:
                if is_later(kept.section.date, self.by):
                    value = read_page(name, file, reader, by, line, kept, 0, memory).value
                    found += () if value is None else (value,)
        in_turn = InTurn(self.files, self.reading.southern)
        return tuple([page.page for page in in_turn.in_order(found)])

    def second(
        self, new: Mapping[str, NewPages], sound: SoundActs, ahead: GoesAhead | None
    ) -> PagesOfSecond | None:
        """Those of these pages that a second process reads."""
        asked = self.reading.asked
        look_at = partial(page_by_lines, reader=self.reader, by=self.by, so_far=0)
        comes_first = None if ahead is None else ahead.comes_first(asked.acts)
        return pages_of_second(new, asked.details, sound, look_at, comes_first)


class _Gathered:
    """Pages in their order, with the weather that they tell, and what is wrong with any."""

    def __init__(self, in_turn: InTurn, kept: Memo) -> None:
        self.pages: list[DatedPage] = []
        self.weather: list[DayWeather] = []
        self.flaws: list[PlacedFlaw] = []
        self._in_turn, self._kept = in_turn, kept

    def add(self, found: WithFlaws[list[ReadPage]]) -> None:
        self._in_turn.add(found.value)
        self.flaws += found.flaws

    def pass_on(self, left: Iterable[str]) -> tuple[DatedPage, ...]:
        """The pages that come next, while these files are left to be read."""
        pages = self._in_turn.before(left)
        self.weather += [said for page in pages for said in page.weather]
        in_order = by_the_hour([page.page for page in pages], self._kept)
        self.pages += in_order
        return in_order


def _gathered(read: _Read, sound: SoundActs) -> _Gathered:
    """All pages. Where many are new, a second process reads some of them, and meanwhile others are
    gone through that are known already, if somebody may go ahead."""
    asked = read.reading.asked
    in_turn = InTurn(read.files, read.reading.southern)
    gathered = _Gathered(in_turn, asked.kept)
    new = many_new(read.files) if asked.by_two else {}
    ahead = asked.ahead if new and in_turn.follow else None
    second = read.second(new, sound, ahead) if new else None
    left = [] if second is None else [*chain.from_iterable(second.files)]
    later = {*left}
    here = read.pages([name for name in read.files if name not in later], ReadFirst())
    gathered.add(here)
    if second is None:
        gathered.pass_on(())
        return gathered
    first = read.first(second.left)
    for names in second.take_over(asked.known, asked.details):
        if names:
            gathered.add(read.pages(names, first))
            left = left[len(names) :]
        elif ahead is not None:
            first |= read.first(second.first)
            known = [*here.value, *(one.value for one in first.values() if one.value is not None)]
            so_far = [page.page for page in in_turn.in_order(known)]
            ahead.begin(read.reading, so_far, in_turn.until(asked.today))
        if ahead is not None:
            ahead.go_on(gathered.pass_on(left))
    rest = gathered.pass_on(())
    if ahead is not None:
        ahead.go_on(rest)
    return gathered


def _handles(things: Things, own: OwnWords, settings: str) -> bytes:
    """The digest of what every handle means, and every own word; and of the settings that words
    are read by."""
    meanings = (
        f"{spelling} {things.by_handle[handle].kind}"
        for spelling, handle in things.spellings.items()
    )
    return digest("\n".join((*meanings, own.meanings, settings)).encode())
