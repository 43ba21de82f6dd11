"""Reads a whole journal, by the steps that `STEPS` lists."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date

from msgspec import Struct

from backbud.journal.all_pages import read_all_pages
from backbud.journal.dated import DatedPage, DayWeather
from backbud.journal.load import Loaded
from backbud.journal.own_past import PastLine
from backbud.journal.own_words import NO_OWN_WORDS, OwnWords
from backbud.journal.problems import PlacedFlaw, PlacedFlaws, as_problems
from backbud.journal.settings import SETTINGS_FILE, Settings
from backbud.journal.source import FileSource
from backbud.journal.steps import (
    GoesAhead,
    ReadStep,
    SoFar,
    find,
    keep_in_mind,
    load_files,
    part,
    read_all_cards,
    reading_begun,
    seek_home,
    set_up,
    tell_bare_amounts,
    tell_misplaced,
)
from backbud.journal.things import Things
from backbud.journal.weather.positions import Positions
from backbud.memo import NO_MEMO, Memo
from backbud.publish.memory import MemoryOf
from backbud_grammar.acts import ACTS
from backbud_grammar.digest import digest
from backbud_grammar.forms import ActForm
from backbud_grammar.parse import Details
from backbud_grammar.problems import Problem

# How a journal is read. Each step takes what those before it have made and hands it on with what
# it adds, and with all that it found wrong.
STEPS: tuple[tuple[str, ReadStep], ...] = (
    ("find", find),
    ("load", load_files),
    ("settings", set_up),
    ("part", part),
    ("cards", read_all_cards),
    ("home", seek_home),
    ("pages", read_all_pages),
    ("misplaced", tell_misplaced),
    ("amounts", tell_bare_amounts),
    ("remember", keep_in_mind),
)


class Journal(Struct, frozen=True):
    """A journal as read. Pages are in the order of their (earliest) day, file and line.

    `flaws`: all that was wrong on the way. `weather_files`: the text files that a place's card
    names as weather, as they were loaded. `texts`: the bytes of every file, as problems show them,
    but for weather files that are no .txt. `mark`: the digest of all that the pages are read by:
    settings, cards, the hemisphere, the language and the table of acts. `southern`: in which half
    of the Earth home lies; north where nobody says. `own_words`: the keeper's;
    `own_past`: the lines that they would read otherwise and that wait for a yes;
    `language_past`: those that a newer language would. `seen_on`: the day on which it is looked at
    as it was then, None where it is read as it is; `later`: the pages after that day, which tell
    who was not here yet and nothing else.
    """

    folder: str
    memory: MemoryOf
    settings: Settings
    things: Things
    pages: tuple[DatedPage, ...]
    weather: tuple[DayWeather, ...]
    acts: Mapping[str, ActForm]
    details: Details
    flaws: PlacedFlaws
    southern: bool
    remembered: bool
    positions: Positions
    weather_files: Mapping[str, Loaded]
    texts: Mapping[str, bytes]
    mark: bytes
    own_words: OwnWords = NO_OWN_WORDS
    own_past: tuple[PastLine, ...] = ()
    language_past: tuple[PastLine, ...] = ()
    seen_on: date | None = None
    later: tuple[DatedPage, ...] = ()

    def size(self) -> tuple[int, int]:
        """How many acts it has, and on how many pages they stand."""
        acts = sum([page.acts for page in self.pages])
        return acts, len({(page.file, page.line) for page in self.pages})

    def problems(self) -> tuple[Problem, ...]:
        """Every problem of the reading."""
        return as_problems(self.flaws, self.texts)


def read_journal(
    folder: str,
    today: date,
    *,
    as_of: bool = False,
    acts: tuple[ActForm, ...] = ACTS,
    kept: Memo = NO_MEMO,
    memory: MemoryOf | None = None,
    source: FileSource | None = None,
    by_two: bool = False,
    ahead: GoesAhead | None = None,
) -> Journal:
    """Read the journal in a folder as it stands on a day.

    `as_of`: lines dated after `today` are left out, as if not yet written; otherwise they are
    problems. `kept`: what an earlier run of this process left. `memory`: what earlier runs
    kept on the disk. `source`: where its files come from, if not from the disk. `by_two`: a copy of
    this process may read some of what is new and large; `ahead` may go through pages meanwhile.
    OSError only where the folder itself cannot
    be read.
    """
    reading = reading_begun(
        folder, today, as_of, acts, kept, memory or MemoryOf(folder), source, by_two, ahead
    )
    flaws: list[PlacedFlaw] = []
    for _, step in STEPS:
        reading, found = step(reading)
        flaws += found
    return _journal(reading, tuple(flaws))


def journal_so_far(reading: SoFar) -> Journal:
    """A journal of which not all steps are taken yet; nothing is told of what is wrong in it."""
    return _journal(reading, ())


def _journal(reading: SoFar, flaws: PlacedFlaws) -> Journal:
    asked, texts = reading.asked, reading.texts
    by = asked.mark.encode(), bytes([reading.southern]), texts[SETTINGS_FILE]
    return Journal(
        asked.folder,
        asked.memory,
        reading.settings,
        reading.things,
        reading.pages,
        reading.weather,
        asked.acts,
        asked.details,
        flaws,
        reading.southern,
        reading.remembered,
        reading.positions,
        reading.weather_files,
        texts,
        digest(*by, *reading.parted.card_digests),
        reading.own_words,
        reading.own_past,
        reading.language_past,
        asked.today if asked.as_of else None,
        reading.later,
    )
