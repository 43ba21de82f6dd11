"""A journal's folder goes in; its settings, things and dated pages come out, with all problems.

The steps, in order:
    find      the names of the files (find.py)
    load      their bytes, with \\n line ends and valid UTF-8
    part      into sections: dated pages and cards (backbud_grammar.parse)
    outline   each section into blocks and acts, or from memory (remember.py)
    things    the cards (things.py)
    turn      the seasons, where home lies in the south (weather/positions.py)
    events    the acts, read against the table of acts
"""

from __future__ import annotations

import os
import posixpath
import re
from collections.abc import Callable, Mapping, Sequence
from datetime import date
from functools import partial
from typing import Any, NamedTuple

from msgspec import Struct

from backbud.journal import remember
from backbud.journal.copies import Copies, copies_among, without_conflicts, without_pages, words_in
from backbud.journal.currency import note_bare_amounts
from backbud.journal.dated import DatedPage, DayWeather
from backbud.journal.diary import DiaryReader
from backbud.journal.events import Origin
from backbud.journal.far import note_far_cards
from backbud.journal.faults import failing, note_fault
from backbud.journal.find import find_files
from backbud.journal.headings import day_above, flaw_of_date, length_of
from backbud.journal.notes import Notes
from backbud.journal.settings import SETTINGS_FILE, Settings, read_settings
from backbud.journal.things import (
    PlacedCard,
    Things,
    check_reference,
    read_things,
    turned_south,
    with_lines_at_edge,
)
from backbud.journal.warm import Outlined, Sections, Warm
from backbud.journal.weather.on_file import WeatherFiles
from backbud.journal.weather.positions import Positions
from backbud.journal.weather.series import Until
from backbud.kept import KEEP_NOTHING, Is, Kept
from backbud.publish.memory import MemoryOf
from backbud_grammar.acts import ACTS, by_word
from backbud_grammar.dates import WrittenDate, check_reckoned, read_date
from backbud_grammar.digest import digest
from backbud_grammar.forms import ActForm
from backbud_grammar.outline import Known, read_section, sections
from backbud_grammar.parse import Details
from backbud_grammar.problems import Flaw, Misread, Problem
from backbud_grammar.syntax import (
    Card,
    Page,
    last_line,
)
from backbud_grammar.version import language_mark, sources_mark

# More than any hand writes; what is larger is some other file.
LARGEST_FILE = 256 * 1024 * 1024


class Journal(Struct, frozen=True):
    """A journal as read. Pages are in the order of their (earliest) day, file and line.

    `weather_files`: the text files that a place's card names as weather, as they were loaded.
    `texts`: the bytes of every file, as problems show them; those of a weather file that is no
    .txt are added when it is read. `mark`: the digest of all that the pages are read by: settings,
    cards, the hemisphere, the language and the table of acts. `southern`: in which half of the
    Earth home lies; north where nobody says.
    """

    folder: str
    memory: MemoryOf
    settings: Settings
    things: Things
    pages: tuple[DatedPage, ...]
    weather: tuple[DayWeather, ...]
    acts: Mapping[str, ActForm]
    details: Details
    notes: Notes
    southern: bool
    remembered: bool
    positions: Positions
    weather_files: Mapping[str, Loaded]
    texts: dict[str, bytes]
    mark: bytes

    def problems(self) -> tuple[Problem, ...]:
        """Every problem found so far."""
        return self.notes.problems()


def read_journal(
    folder: str,
    today: date,
    *,
    as_of: bool = False,
    acts: tuple[ActForm, ...] = ACTS,
    kept: Kept = KEEP_NOTHING,
    memory: MemoryOf | None = None,
) -> Journal:
    """Read the journal in a folder as it stands on a day.

    `as_of`: lines dated after `today` are left out, as if not yet written; otherwise they are
    problems. `kept`: what an earlier run of this process left. `memory`: what earlier runs
    kept on the disk. OSError only where the folder itself cannot be read.
    """
    memory = memory or MemoryOf(folder)
    found = find_files(folder)
    texts: dict[str, bytes] = {}
    notes = Notes(texts)
    for name, flaw in found.passed_over.items():
        notes.add(name, 0, flaw)
    loaded = {name: load(folder, name) for name in (SETTINGS_FILE, *found.files)}
    texts.update((name, text.data) for name, text in loaded.items())
    settings, flaws = read_settings(texts[SETTINGS_FILE].decode())
    for flaw in (*loaded[SETTINGS_FILE].flaws, *flaws):
        notes.add(SETTINGS_FILE, 0, flaw)
    by_act = by_word(acts)
    warm: Warm[ReadPage] = kept.once("text", (folder, acts), Warm)
    mark = _mark(by_act)
    known = warm.memory or remember.recall(memory, mark)
    merged = {name: without_conflicts(texts[name]) for name in found.files}
    parted = _outlines(
        memory, notes, {name: data for name, (data, _) in merged.items()}, by_act, known, warm
    )
    for name in found.files:
        if name not in parted.weather_files:
            for flaw in (*loaded[name].flaws, *merged[name][1]):
                notes.add(name, 0, flaw)
    for name, flaw in parted.copies.flaws:
        notes.add(name, 0, flaw)
    details = warm.details or Details(by_act, known.readings_of, known.subjects)
    parted.cards = [
        with_lines_at_edge(placed, details, notes) if placed.card.blocks else placed
        for placed in parted.cards
    ]

    def things_of(cards: Sequence[PlacedCard]) -> Things:
        return read_things(cards, details, Notes(texts))

    try:
        things = warm.things(parted.cards, notes, lambda: read_things(parted.cards, details, notes))
    except Exception:
        faulty = failing(things_of, parted.cards)
        for placed, error in faulty:
            hint = "The card was left out; all else was read."
            origin = Origin(placed.file, placed.line + 1, 1)
            note_fault(notes, memory, origin, "this card", error, hint)
        left_out = {id(placed) for placed, _ in faulty}
        sound = [placed for placed in parted.cards if id(placed) not in left_out]
        things = read_things(sound, details, notes)
    _check_settings(settings, things, texts[SETTINGS_FILE].decode(), notes)
    note_far_cards(things, today, notes)
    weather_files = {name: loaded[name] for name in parted.weather_files}
    on_file = WeatherFiles(folder, Until(today, as_of), weather_files, texts, notes, kept)
    positions = Positions(things, settings.home, on_file, memory, notes)
    southern = positions.southern or False
    if southern:
        things = kept.once("southern things", (Is(things),), partial(turned_south, things))
    handles = digest(
        "\n".join(
            f"{spelling} {things.by_handle[handle].kind}"
            for spelling, handle in things.spellings.items()
        ).encode()
    )
    if known.things != handles:
        known.forget_sound(parted.rows())
        warm.by_digest = None
    reader = DiaryReader(things, details, notes, known.said_of, warm.sound(handles))
    warm.pages.begin((handles, southern, today, as_of))
    pages, weather = _pages(memory, notes, parted, reader, southern, today, as_of, warm.pages)
    _note_misplaced(parted, reader)
    if not settings.currency:
        note_bare_amounts(
            (event for page in pages for block in page.blocks for event in block.events),
            things,
            notes,
        )
    return Journal(
        folder,
        memory,
        settings,
        things,
        pages,
        weather,
        by_act,
        details,
        notes,
        southern,
        remembered=_keep(memory, known, parted, reader, handles, warm),
        positions=positions,
        weather_files=weather_files,
        texts=texts,
        mark=digest(mark.encode(), bytes([southern]), texts[SETTINGS_FILE], *parted.card_digests),
    )


# ------------------------------------------------------------------ load


class Loaded(Struct, frozen=True):
    """A file's text as UTF-8 with `\\n` line ends, and what was wrong with its bytes."""

    data: bytes
    flaws: tuple[Flaw, ...] = ()


# What a file begins with that is no UTF-8 (The Unicode Standard, section 23.8).
_OTHER_MARKS = {
    "UTF-32": (b"\xff\xfe\0\0", b"\0\0\xfe\xff"),
    "UTF-16": (b"\xff\xfe", b"\xfe\xff"),
}


def load(folder: str, name: str) -> Loaded:
    """Read one file's bytes; what is no UTF-8 text is a flaw, and as much as can be is kept."""
    try:
        with open(os.path.join(folder, name), "rb") as file:
            if os.fstat(file.fileno()).st_size > LARGEST_FILE:
                return _left_out(
                    "large-file", "this file is too large for a journal", "It was left out."
                )
            data = file.read()
    except OSError as error:
        return _left_out(
            "unreadable",
            f"this file cannot be read: {error.strerror}",
            "Its lines are missing here. May you read it?",
        )
    # UTF-32 first: its mark begins as that of UTF-16.
    for encoding, marks in _OTHER_MARKS.items():
        if data.startswith(marks):
            return _left_out("binary-file", f"this file is {encoding}", "Save it as UTF-8.")
    data = data.removeprefix(b"\xef\xbb\xbf")
    if b"\r" in data:
        data = data.replace(b"\r\n", b"\n").replace(b"\r", b"\n")
    if b"\0" not in data:
        if data.isascii():
            return Loaded(data)
        try:
            data.decode()
        except UnicodeDecodeError:
            return _mended(data)
        return Loaded(data)
    if not data.strip(b"\0\n"):
        return _left_out(
            "binary-file",
            "this file holds nothing but nought bytes",
            "A power cut or a copy may have spoiled it. Put a copy of yours in its place.",
        )
    # A power cut can leave noughts at the end of a file that is sound otherwise.
    if _is_binary(data):
        return _left_out(
            "binary-file", "this is no text file", "It was left out. Only UTF-8 text ends in .txt."
        )
    return _mended(data)


def _left_out(code: str, message: str, hint: str) -> Loaded:
    return Loaded(b"", (Flaw(code, 0, 1, 1, message, hint),))


def _is_binary(data: bytes) -> bool:
    """Whether noughts are scattered all over, or stand among other bytes that are no text."""
    text = data.rstrip(b"\0\n")
    if 20 * text.count(b"\0") > len(text):
        return True
    try:
        text.decode()
    except UnicodeDecodeError:
        return b"\0" in text
    return False


def _mended(data: bytes) -> Loaded:
    """Put a sign in the place of what is no text, so that every other line is read."""
    lines = data.split(b"\n")
    flaws: list[Flaw] = []
    for number, line in enumerate(lines):
        if b"\0" in line:
            column = len(line[: line.index(b"\0")].decode(errors="replace")) + 1
            flaws.append(
                Flaw(
                    "no-text",
                    number,
                    column,
                    1,
                    "this is no letter but a nought byte",
                    "Take it out; what stands around it was read.",
                )
            )
            # A line of nothing else says nothing.
            line = (
                line.replace(b"\0", "\N{REPLACEMENT CHARACTER}".encode())
                if (line.strip(b"\0"))
                else b""
            )
            lines[number] = line
        try:
            line.decode()
        except UnicodeDecodeError as error:
            column = len(line[: error.start].decode()) + 1
            flaws.append(
                Flaw(
                    "not-utf-8",
                    number,
                    column,
                    1,
                    "this letter is not UTF-8",
                    "Save the file as UTF-8; the letter was read as \N{REPLACEMENT CHARACTER}.",
                )
            )
            lines[number] = line.decode(errors="replace").encode()
    # The lines that problems show are the mended ones.
    return Loaded(b"\n".join(lines), tuple(flaws))


# ------------------------------------------------------------------ part and outline


class _Parted(Struct):
    """The files by name, and of those that count the cards. `fresh`: how many sections are new."""

    files: dict[str, Outlined]
    cards: list[PlacedCard]
    card_digests: list[bytes]
    fresh: int = 0
    weather_files: frozenset[str] = frozenset()
    copies: Copies = Copies({}, {}, ())

    def counting(self) -> dict[str, Outlined]:
        """The files that count, with the pages that do."""
        return {
            name: without_pages(file, self.copies.pages.get(name))
            for name, file in self.files.items()
            if name not in self.copies.repeated
        }

    def rows(self) -> dict[bytes, list[remember.Kept[Any]]]:
        """The sections of every file, by the digest of its bytes."""
        return {file.digest: file.row for file in self.files.values()}


# So little that is new is sooner read again than the whole memory is written.
FEW_PAGES = 20
FEW_DETAILS = 60
_WEATHER = re.compile(rb"^[ \t]+weather[ \t]+([^\n]+)", re.MULTILINE | re.IGNORECASE)


def _outlines(
    of_journal: MemoryOf,
    notes: Notes,
    files: Mapping[str, bytes],
    acts: Mapping[str, ActForm],
    memory: remember.Memory,
    warm: Warm[ReadPage],
) -> _Parted:
    """Outline every file but those that a place's card names as weather."""
    parted = _Parted({}, [], [])
    known = Known.of(acts)

    def outline(name: str) -> None:
        outlined = warm.outlined.get(name)
        if outlined is None or outlined.data != files[name]:
            try:
                outlined = _outlined(name, files[name], known, memory, warm, parted)
            except Exception as error:
                hint = "The file was left out; all else was read."
                note_fault(notes, of_journal, Origin(name, 1, 1), "this file", error, hint)
                return
        parted.files[name] = outlined
        parted.cards += outlined.cards

    perhaps = {
        name
        for data in files.values()
        if b"weather" in data
        for found in _WEATHER.finditer(data)
        if (name := weather_file_name(found[1].decode())) in files
    }
    for name in files:
        if name not in perhaps:
            outline(name)
    if perhaps:
        parted.weather_files = frozenset(
            name
            for placed in parted.cards
            if placed.card.kind == "place"
            for line in placed.card.lines
            if line.text.casefold().startswith("weather")
            if (name := weather_file_name(line.text[len("weather") :])) in perhaps
        )
        for name in sorted(perhaps - parted.weather_files):
            outline(name)
    warm.outlined = parted.files
    parted.copies = copies_among(parted.files)
    counting = parted.counting()
    parted.cards = [placed for placed in parted.cards if placed.file in counting]
    parted.card_digests = [mark for file in counting.values() for mark in file.card_digests]
    return parted


def weather_file_name(written: str) -> str:
    """The path, from the journal's folder, of the weather file that a card names."""
    return posixpath.normpath(written.strip().replace("\\", "/"))


def _outlined(
    name: str,
    data: bytes,
    known: Known,
    memory: remember.Memory,
    warm: Warm[ReadPage],
    parted: _Parted,
) -> Outlined:
    whole = digest(data)
    row = memory.files.get(whole)
    # A foreign memory may leave out some of a file.
    if row is None or sum(kept.lines for kept in row) < data.count(b"\n"):
        row = _new_row(data, known, memory, warm, parted)
    out = Outlined(data, whole, row, [], [], [], [])
    line = 0
    for kept in row:
        section = kept.section
        if isinstance(section, Page | remember.RecalledPage):
            out.pages.append((line, kept))
        elif isinstance(section, Card):
            out.cards.append(PlacedCard(section, name, line))
            out.card_digests.append(kept.digest)
        elif section.blocks or section.flaws:
            out.strays.append((line, section))
        line += kept.lines
    return out


def _new_row(
    data: bytes,
    known: Known,
    memory: remember.Memory,
    warm: Warm[ReadPage],
    parted: _Parted,
) -> list[remember.Kept[Any]]:
    """The sections of a file that is new or was edited; most of them are known all the same."""
    if warm.by_digest is None:
        warm.by_digest = {kept.digest: kept for row in memory.files.values() for kept in row}
    row: list[remember.Kept[Any]] = []
    for _, text in sections(data):
        # Blank lines behind a section say nothing: with more of them it is the same.
        mark, lines = digest(text.rstrip()), text.count(b"\n")
        kept = warm.by_digest.get(mark)
        if kept is None:
            section = read_section(text, known)
            kept = warm.by_digest[mark] = remember.Kept(mark, lines, words_in(text), section)
            parted.fresh += 1
        elif kept.lines != lines:
            kept = remember.Kept(mark, lines, kept.said, kept.section, kept.sound)
        row.append(kept)
    return row


def _mark(acts: Mapping[str, ActForm]) -> str:
    """What the memory depends on: the files of the language and of its reading, and the acts."""
    files = language_mark() + sources_mark(os.path.dirname(__file__))
    added = sorted(word for word, form in acts.items() if form not in ACTS)
    table = "".join(f"{word} {acts[word]}" for word in added)
    return digest(f"{files} {table}".encode()).hex()


def _keep(
    memory: MemoryOf,
    known: remember.Memory,
    parted: _Parted,
    reader: DiaryReader,
    handles: bytes,
    warm: Warm[ReadPage],
) -> bool:
    """Write the memory when this run read something new; what no file holds any more is let go."""
    details = reader.details
    forgot = details.learned > FEW_DETAILS or known.things != handles
    is_first = warm.memory is None
    known.things, known.files = handles, parted.rows()
    warm.memory, warm.details = known, details
    if parted.fresh <= FEW_PAGES and not (is_first and forgot):
        return True
    remember.keep(memory, known, details, reader.found_sound)
    return False


def _check_settings(settings: Settings, things: Things, text: str, notes: Notes) -> None:
    for key, handle, kind in (
        ("home", settings.home, "place"),
        ("keeper", settings.keeper, "person"),
    ):
        if handle:
            number = next(
                (i for i, ln in enumerate(text.splitlines()) if ln.split("=")[0].strip() == key), 0
            )
            line = text.splitlines()[number]
            check_reference(
                handle,
                (kind,),
                things,
                notes,
                Origin(SETTINGS_FILE, number + 1, 1),
                max(line.find(handle), 0),
            )


# ------------------------------------------------------------------ events


class ReadPage(NamedTuple):
    """A page, by what pages are in order, and what its first line says of the weather."""

    day: date
    file: str
    line: int
    page: DatedPage
    weather: list[DayWeather]


def _pages(
    of_journal: MemoryOf,
    notes: Notes,
    parted: _Parted,
    reader: DiaryReader,
    southern: bool,
    today: date,
    as_of: bool,
    known: Sections[ReadPage],
) -> tuple[tuple[DatedPage, ...], tuple[DayWeather, ...]]:
    found: list[ReadPage] = []
    for file, outlined in parted.counting().items():

        def read(
            line: int,
            kept: remember.Kept[Any],
            file: str = file,
            outlined: Outlined = outlined,
        ) -> tuple[ReadPage | None, bool]:
            noted = len(notes)
            page = None
            try:
                above = partial(day_above, outlined, line)
                page = _page(file, line, kept, reader, southern, today, as_of, above)
            except Exception as error:
                hint = "The page was left out; all else was read."
                note_fault(notes, of_journal, Origin(file, line + 1, 1), "this page", error, hint)
            return page, len(notes) == noted

        found += known.of_file(file, outlined, read)
    weather = tuple([said for one in found for said in one.weather])
    found.sort()
    return tuple([one.page for one in found]), weather


def _page(
    file: str,
    line: int,
    kept: remember.Kept[Any],
    reader: DiaryReader,
    southern: bool,
    today: date,
    as_of: bool,
    above: Callable[[], date | None],
) -> ReadPage | None:
    """One page as read; None where it has no place in the history.

    `above`: finds the day of the page above it in its file.
    """
    notes, written = reader.notes, kept.section.date
    try:
        when = read_date(written, southern)
        check_reckoned(when.first, written)
    except Misread as error:
        notes.add(file, line, flaw_of_date(error, kept.section, above()))
        # Without a day nothing of it can be replayed, but its other problems are told too.
        when = NO_DAY
    if when.first > today:
        if as_of:
            return None
        _note_future(when, kept.section, file, line, today, notes)
    elif when.exact and when.last < OLDEST_DAY and when is not NO_DAY:
        notes.add(
            file,
            line,
            Flaw(
                "old-date",
                0,
                1,
                len(written),
                f"{when.text} is long ago",
                "Is the year right?",
                "warning",
            ),
        )
    page, said = reader.page(kept, when, file, line)
    if when is NO_DAY or when.first > today:
        return None
    return ReadPage(when.first, file, line, page, said)


def _note_misplaced(parted: _Parted, reader: DiaryReader) -> None:
    """Note what stands below a card or above every date."""
    notes = reader.notes
    for placed in parted.cards:
        for flaw in placed.card.flaws:
            notes.add(placed.file, placed.line, flaw)
        reader.misplaced(placed.card.blocks, placed.file, placed.line, after_card=True)
    strays = [
        (file, line, stray, bool(outlined.pages or outlined.cards))
        for file, outlined in parted.counting().items()
        for line, stray in outlined.strays
    ]
    for file, line, stray, is_journal in strays:
        for flaw in stray.flaws:
            notes.add(file, line, flaw)
        if is_journal:
            reader.misplaced(stray.blocks, file, line)
        elif stray.blocks:
            block = stray.blocks[0]
            at = block.line if block.subjects else block.acts[0].line
            notes.add(
                file,
                line,
                Flaw(
                    "no-date",
                    at,
                    1,
                    1,
                    "this file has no date and no card, so nothing of it was read",
                    "A page begins with its date at the left edge: 2027-03-06. If this is no "
                    "part of the journal, give it another ending than .txt.",
                    lines=last_line(stray.blocks) - at + 1,
                ),
            )


# A page whose date cannot be read.
NO_DAY = WrittenDate("", date.min, date.min, True, False, False)
# Trees are older than any diary of them; what is known of their youth has a rough date.
OLDEST_DAY = date(1800, 1, 1)


def _note_future(
    when: WrittenDate,
    page: Page | remember.RecalledPage,
    file: str,
    line: int,
    today: date,
    notes: Notes,
) -> None:
    hint = "What is still to come is written as planned: planned repot, to 2027-03."
    if (when.first - today).days > 366:
        hint = f"Is the year right? {hint}"
    notes.add(
        file,
        line,
        Flaw(
            "future-date",
            0,
            1,
            len(page.date),
            f"{when.text} has not come yet (today is {today})",
            hint,
            lines=length_of(page),
        ),
    )
