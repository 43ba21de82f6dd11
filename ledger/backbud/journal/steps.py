"""Says of each step of reading a journal what it is given and what it adds."""

from __future__ import annotations

import os
from collections.abc import Callable, Mapping, Sequence
from datetime import date
from functools import partial
from operator import is_
from typing import Protocol

from msgspec import Struct
from msgspec.structs import replace

from backbud.journal import remember
from backbud.journal.cards import read_things, with_lines_at_edge
from backbud.journal.currency import bare_amounts
from backbud.journal.dated import DatedPage, DayWeather, SoundActs
from backbud.journal.events import Origin
from backbud.journal.far import ahead_on_cards, far_on_cards
from backbud.journal.faults import failing, fault_at
from backbud.journal.forgotten import with_numbers
from backbud.journal.load import Loaded
from backbud.journal.misplaced import flaws_of_misplaced
from backbud.journal.outlines import Parted, ThingsAhead, outlined_files
from backbud.journal.own_past import PastLine
from backbud.journal.own_words import KIND, NO_OWN_WORDS, OwnWords, own_words
from backbud.journal.problems import PlacedFlaw, PlacedFlaws, WithFlaws, placed
from backbud.journal.references import flaw_of_reference_at
from backbud.journal.settings import SETTINGS_FILE, Settings, read_settings
from backbud.journal.source import FileSource, OnDisk
from backbud.journal.things import PlacedCard, Things, turned_south
from backbud.journal.weather.on_file import WeatherFiles
from backbud.journal.weather.positions import Positions
from backbud.journal.weather.series import Until
from backbud.memo import NO_MEMO, Identical, Memo
from backbud.publish.memory import MemoryOf
from backbud_grammar.acts import ACTS, by_word
from backbud_grammar.digest import digest
from backbud_grammar.forms import ActForm
from backbud_grammar.parse import Details
from backbud_grammar.shape import SHAPES
from backbud_grammar.version import language_mark, sources_mark

# So little that is new is sooner read again than the whole memory is written.
FEW_PAGES = 20
FEW_DETAILS = 60
# To write so much takes longer than to begin a thread for it.
MANY_SECTIONS = 3_000


class GoesAhead(Protocol):
    """Goes through the pages of a large new diary, day by day, while others are still read."""

    def comes_first(self, acts: Mapping[str, ActForm]) -> Callable[[str], object]:
        """Asks whether a page of a text may hold what must be known before the first page."""

    def begin(self, reading: SoFar, known: Sequence[DatedPage], so_many: int) -> None:
        """Begin, with all pages that are known so far in order; so many are there, or nearly."""

    def go_on(self, pages: Sequence[DatedPage]) -> None:
        """Go on by the pages of the next days."""

    def write(self, write: Callable[[], None]) -> None:
        """Have written what is remembered, while what is left to do is done."""


class ToRead(Struct, frozen=True):
    """What is to be read, by which table of acts, and what earlier runs left.

    `kept`: what an earlier run of this process left; `is_first`: there was none. `known`: what was
    read before, by this process or an earlier one; `details` with it. `mark`: of all that reading a
    text hangs on. `source`: where its files come from. `by_two`: a second process may help.
    """

    folder: str
    today: date
    as_of: bool
    acts: Mapping[str, ActForm]
    kept: Memo
    memory: MemoryOf
    is_first: bool
    known: remember.Memory
    details: Details
    mark: str
    source: FileSource
    by_two: bool = False
    ahead: GoesAhead | None = None


class SoFar(Struct, frozen=True):
    """What the steps so far have made of a journal; the fields stand in the order of the steps.

    `names`: of its text files. `loaded`: those, and the settings. `handles`: the digest of what
    every handle means; `sound`: the acts in which nothing was wrong, as long as that stays so.
    `remembered`: the memory holds all that was read.
    """

    asked: ToRead
    positions: Positions
    names: tuple[str, ...] = ()
    loaded: Mapping[str, Loaded] = {}
    settings: Settings = Settings()
    parted: Parted = Parted()
    things: Things = Things({}, {})
    own_words: OwnWords = NO_OWN_WORDS
    southern: bool = False
    handles: bytes = b""
    sound: SoundActs = {}
    pages: tuple[DatedPage, ...] = ()
    weather: tuple[DayWeather, ...] = ()
    own_past: tuple[PastLine, ...] = ()
    language_past: tuple[PastLine, ...] = ()
    later: tuple[DatedPage, ...] = ()
    remembered: bool = False

    @property
    def texts(self) -> dict[str, bytes]:
        """The bytes of each file."""
        return {name: text.data for name, text in self.loaded.items()}

    @property
    def weather_files(self) -> dict[str, Loaded]:
        """The text files that a place's card names as weather."""
        return {name: self.loaded[name] for name in self.parted.weather_files}


ReadStep = Callable[[SoFar], WithFlaws[SoFar]]


def reading_begun(
    folder: str,
    today: date,
    as_of: bool,
    acts: tuple[ActForm, ...],
    kept: Memo,
    memory: MemoryOf,
    source: FileSource | None = None,
    by_two: bool = False,
    ahead: GoesAhead | None = None,
) -> SoFar:
    """What the first step is given. `source`: None for the disk."""
    by_act = by_word(acts)
    mark = _mark(by_act)
    is_first = not kept.holds("recalled")
    known = kept.once("recalled", (folder, mark), partial(remember.recall_read, memory, mark))
    SHAPES.recall = known.known_shapes
    details = kept.once(
        "details",
        (Identical(known),),
        partial(Details, by_act, known.readings_of, known.subjects),
    )
    asked = ToRead(
        folder,
        today,
        as_of,
        by_act,
        kept,
        memory,
        is_first,
        known,
        details,
        mark,
        source or OnDisk(folder),
        by_two,
        ahead,
    )
    return SoFar(asked, _positions(asked, Things({}, {}), "", {}))


def _mark(acts: Mapping[str, ActForm]) -> str:
    """What the memory depends on: the files of the language and of its reading, and the acts."""
    files = language_mark() + sources_mark(os.path.dirname(__file__))
    added = sorted(word for word, form in acts.items() if form not in ACTS)
    table = "".join(f"{word} {acts[word]}" for word in added)
    return digest(f"{files} {table}".encode()).hex()


# ------------------------------------------------------------------ files


def find(reading: SoFar) -> WithFlaws[SoFar]:
    """The names of the journal's files."""
    found = reading.asked.source.found()
    flaws = tuple([PlacedFlaw(name, 0, flaw) for name, flaw in found.passed_over.items()])
    return WithFlaws(replace(reading, names=tuple(found.files)), flaws)


def load_files(reading: SoFar) -> WithFlaws[SoFar]:
    """Their bytes, with `\\n` line ends and valid UTF-8. What is wrong with them is told once it is
    known which of them are weather files."""
    source = reading.asked.source
    loaded = {name: source.loaded(name) for name in (SETTINGS_FILE, *reading.names)}
    return WithFlaws(replace(reading, loaded=loaded))


def set_up(reading: SoFar) -> WithFlaws[SoFar]:
    """The settings."""
    text = reading.loaded[SETTINGS_FILE]
    settings, flaws = read_settings(text.data.decode())
    flaws = [*text.flaws, *flaws]
    return WithFlaws(replace(reading, settings=settings), placed(SETTINGS_FILE, 0, flaws))


def part(reading: SoFar) -> WithFlaws[SoFar]:
    """The sections of each file: dated pages and cards, outlined or recalled."""
    asked = reading.asked
    loaded = {name: reading.loaded[name] for name in reading.names}
    read_cards = partial(_read_ahead, asked.details) if asked.by_two else None
    found, flaws = outlined_files(
        loaded, asked.acts, asked.memory, asked.known, asked.kept, read_cards
    )
    return WithFlaws(replace(reading, parted=found), flaws)


# ------------------------------------------------------------------ cards


def _read_ahead(details: Details, cards: Sequence[PlacedCard]) -> ThingsAhead | None:
    """What these cards say, if they should be all there are; None where that is not so easy."""
    some = [card for card in cards if card.card.kind != KIND]
    if any(card.card.blocks for card in some):
        return None
    try:
        return some, read_things(some, details)
    except Exception:
        # It is told once all cards are read.
        return None


def read_all_cards(reading: SoFar) -> WithFlaws[SoFar]:
    """What exists: every card with its references checked."""
    details, flaws = reading.asked.details, list[PlacedFlaw]()
    cards: list[PlacedCard] = []
    of_words = [card for card in reading.parted.cards if card.card.kind == KIND]
    for card in reading.parted.cards:
        if card.card.kind == KIND:
            continue
        whole, found = with_lines_at_edge(card, details) if card.card.blocks else WithFlaws(card)
        cards.append(whole)
        flaws += found
    named, found = _contained(cards, reading)
    numbered = partial(with_numbers, named, reading.asked.today)
    things = reading.asked.kept.once("forgotten", (Identical(named), reading.asked.today), numbered)
    of_settings = _flaws_of_settings(reading.settings, things, reading.loaded[SETTINGS_FILE].data)
    asked = reading.asked
    own, of_own = own_words(of_words, asked.acts, things)
    parted = replace(reading.parted, cards=(*cards, *of_words))
    cards_read = replace(reading, parted=parted, things=things, own_words=own)
    far = far_on_cards(things, asked.today)
    ahead = () if asked.as_of else ahead_on_cards(things, asked.today)
    return WithFlaws(cards_read, (*flaws, *found, *of_own, *far, *ahead, *of_settings))


def _contained(cards: Sequence[PlacedCard], reading: SoFar) -> WithFlaws[Things]:
    """What the cards say; one that fails by a fault of ours is left out, and told."""
    asked, ahead = reading.asked, reading.parted.ahead
    if ahead is not None and len(ahead[0]) == len(cards) and all(map(is_, ahead[0], cards)):
        return ahead[1]

    def read(some: Sequence[PlacedCard]) -> WithFlaws[Things]:
        return read_things(some, asked.details)

    try:
        # The same card on another line is told of elsewhere.
        where = [(card.file, card.line) for card in cards]
        inputs = (where, Identical(*[card.card for card in cards]), Identical(asked.known))
        return asked.kept.once("things", inputs, partial(read, cards))
    except Exception:
        faulty = failing(read, cards)
    hint = "The card was left out; all else was read."
    faults = [
        fault_at(
            Origin(card.file, card.line + 1, 1),
            reading.texts,
            asked.memory,
            "this card",
            error,
            hint,
        )
        for card, error in faulty
    ]
    left_out = {id(card) for card, _ in faulty}
    things, flaws = read([card for card in cards if id(card) not in left_out])
    return WithFlaws(things, (*faults, *flaws))


def _flaws_of_settings(settings: Settings, things: Things, data: bytes) -> PlacedFlaws:
    """The handles in the settings that mean nothing, or no such thing."""
    flaws: list[PlacedFlaw] = []
    for key, handle, kind in (
        ("home", settings.home, "place"),
        ("keeper", settings.keeper, "person"),
    ):
        if not handle:
            continue
        lines = data.decode().splitlines()
        number = next((i for i, line in enumerate(lines) if line.split("=")[0].strip() == key), 0)
        origin = Origin(SETTINGS_FILE, number + 1, 1)
        at = max(lines[number].find(handle), 0)
        flaw = flaw_of_reference_at(handle, (kind,), things, origin, at)
        if flaw is not None:
            flaws.append(flaw)
    return tuple(flaws)


def seek_home(reading: SoFar) -> WithFlaws[SoFar]:
    """Where home lies, and with it whose seasons the dates are."""
    asked, things = reading.asked, reading.things
    positions = _positions(asked, things, reading.settings.home, reading.weather_files)
    southern = positions.southern or False
    if southern:
        turned = partial(turned_south, things)
        things = asked.kept.once("southern things", (Identical(things),), turned)
    found = replace(reading, positions=positions, southern=southern, things=things)
    return WithFlaws(found, positions.flaws())


def _positions(
    asked: ToRead, things: Things, home: str, weather_files: Mapping[str, Loaded]
) -> Positions:
    until = Until(asked.today, asked.as_of)
    files = WeatherFiles(asked.folder, until, weather_files, asked.kept)
    return Positions(things, home, files, asked.memory)


# ------------------------------------------------------------------ what remains


def tell_misplaced(reading: SoFar) -> WithFlaws[SoFar]:
    """Lines that stand below a card, or above every date."""
    cards, files = reading.parted.cards, reading.parted.counting()
    return WithFlaws(
        reading, flaws_of_misplaced(cards, files, reading.things, reading.asked.details)
    )


def tell_bare_amounts(reading: SoFar) -> WithFlaws[SoFar]:
    """Amounts of no currency, where the settings name none."""
    if reading.settings.currency:
        return WithFlaws(reading)
    events = (event for page in reading.pages for block in page.blocks for event in block.events)
    return WithFlaws(reading, bare_amounts(events, reading.things))


# ------------------------------------------------------------------ memory


def keep_in_mind(reading: SoFar) -> WithFlaws[SoFar]:
    """Write the memory when this run read something new; what no file holds any more is let go."""
    asked, handles = reading.asked, reading.handles
    known, details = asked.known, asked.details
    SHAPES.keep()
    forgot = details.learned > FEW_DETAILS or known.things != handles
    known.things, known.files = handles, reading.parted.rows()
    remembered = reading.parted.fresh <= FEW_PAGES and not (asked.is_first and forgot)
    if not remembered:
        few = asked.ahead is None or reading.parted.fresh < MANY_SECTIONS
        beside = None if few or asked.ahead is None else asked.ahead.write
        remember.keep_read(asked.memory, known, details, reading.sound, beside)
    if asked.kept is NO_MEMO:
        # Nobody reads these pages again.
        known.files = {}
    return WithFlaws(replace(reading, remembered=remembered))
