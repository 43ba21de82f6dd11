"""A journal's folder goes in; its settings, things and dated pages come out, with all problems.

The steps, in order:
    find      the names of the files (find.py)
    load      their bytes, with \\n line ends and valid UTF-8
    part      into sections: dated pages and cards (backbud_grammar.parse)
    outline   each section into blocks and acts, or from memory (remember.py)
    things    the cards (things.py)
    events    the acts, read against the table of acts
"""

from __future__ import annotations

import os
from collections.abc import Mapping
from datetime import date
from hashlib import blake2b

from msgspec import Struct

from backbud.journal import remember
from backbud.journal.events import Event, Origin
from backbud.journal.find import find_files
from backbud.journal.notes import Notes
from backbud.journal.settings import SETTINGS_FILE, Settings, read_settings
from backbud.journal.things import PlacedCard, Things, check_reference, read_things
from backbud_grammar.acts import ACTS, by_word
from backbud_grammar.dates import WrittenDate, read_date, read_span
from backbud_grammar.details import part_at_commas
from backbud_grammar.forms import ActForm
from backbud_grammar.parse import (
    Details,
    Known,
    read_section,
    sections,
)
from backbud_grammar.problems import Flaw, Misread, Problem, did_you_mean
from backbud_grammar.syntax import (
    Act,
    Block,
    Card,
    Detail,
    Page,
    Section,
    Stray,
    Subjects,
)
from backbud_grammar.version import language_mark


class DatedBlock(Struct, frozen=True, gc=False):
    """A subject line and its events; `line` counts from 1 in the file."""

    subjects: Subjects
    text: str
    line: int
    events: tuple[Event, ...]


class DatedPage(Struct, frozen=True, gc=False):
    """A page in its place among all pages."""

    when: WrittenDate
    file: str
    line: int
    blocks: tuple[DatedBlock, ...]


class DayWeather(Struct, frozen=True, gc=False):
    """What a page's first line says of a day's weather; `place` "" is the home place."""

    day: date
    place: str
    name: str
    value: float
    unit: str
    origin: Origin


class Journal(Struct, frozen=True):
    """A journal as read. Pages are in the order of their (earliest) day, file and line."""

    folder: str
    settings: Settings
    things: Things
    pages: tuple[DatedPage, ...]
    weather: tuple[DayWeather, ...]
    acts: Mapping[str, ActForm]
    details: Details
    notes: Notes
    southern: bool
    remembered: bool

    def problems(self) -> tuple[Problem, ...]:
        """Every problem found so far."""
        return self.notes.problems()


def read_journal(
    folder: str,
    today: date,
    *,
    as_of: bool = False,
    acts: tuple[ActForm, ...] = ACTS,
) -> Journal:
    """Read the journal in a folder as it stands on a day.

    `as_of`: lines dated after `today` are left out, as if not yet written; otherwise they are
    problems. OSError only where the folder itself cannot be read.
    """
    names, links = find_files(folder)
    texts: dict[str, bytes] = {}
    notes = Notes(texts)
    for name in [SETTINGS_FILE, *names]:
        _load(folder, name, texts, notes)
    for link in links:
        notes.add(link, 0, Flaw("link", 0, 1, 1, "this is a link and was not followed",
                                "Everything of a journal lies in its own folder."))
    settings, flaws = read_settings(texts[SETTINGS_FILE].decode())
    for flaw in flaws:
        notes.add(SETTINGS_FILE, 0, flaw)
    by_act = by_word(acts)
    parted = _outlines(folder, [(name, texts[name]) for name in names if name in texts], by_act)
    southern = _southern(parted.cards, settings.home)
    details = Details(by_act, parted.memory.readings, parted.memory.subjects)
    things = read_things(parted.cards, southern, details, notes)
    _check_settings(settings, things, texts[SETTINGS_FILE].decode(), notes)
    pages, weather = _pages(parted, things, details, notes, southern, today, as_of)
    return Journal(folder, settings, things, pages, weather, by_act, details, notes, southern,
                   remembered=_keep(folder, parted, details))


# ------------------------------------------------------------------ load


def _load(folder: str, name: str, texts: dict[str, bytes], notes: Notes) -> None:
    """Read one file's bytes; what is no UTF-8 text is noted, and as much as can be is kept."""
    try:
        with open(os.path.join(folder, name), "rb") as file:
            data = file.read()
    except OSError as error:
        texts[name] = b""
        notes.add(name, 0, Flaw("unreadable", 0, 1, 1, f"this file cannot be read: "
                                f"{error.strerror}", ""))
        return
    if data.startswith((b"\xff\xfe", b"\xfe\xff")) or b"\0" in data:
        texts[name] = b""
        utf16 = data[:2] in (b"\xff\xfe", b"\xfe\xff")
        notes.add(name, 0, Flaw(
            "binary-file", 0, 1, 1,
            "this file is UTF-16" if utf16 else "this is no text file",
            "Save it as UTF-8." if utf16 else "It was left out. Only UTF-8 text ends in .txt."))
        return
    data = data.removeprefix(b"\xef\xbb\xbf")
    if b"\r" in data:
        data = data.replace(b"\r\n", b"\n").replace(b"\r", b"\n")
    texts[name] = data
    if not data.isascii():
        try:
            data.decode()
        except UnicodeDecodeError:
            texts[name] = _mended(name, data, notes)


def _mended(name: str, data: bytes, notes: Notes) -> bytes:
    lines = data.split(b"\n")
    for number, line in enumerate(lines):
        try:
            line.decode()
        except UnicodeDecodeError as error:
            column = len(line[: error.start].decode()) + 1
            notes.add(name, number, Flaw(
                "not-utf-8", 0, column, 1, "this letter is not UTF-8",
                "Save the file as UTF-8; the letter was read as \N{REPLACEMENT CHARACTER}."))
            lines[number] = line.decode(errors="replace").encode()
    mended = b"\n".join(lines)
    # The lines that problems show are the mended ones.
    return mended


# ------------------------------------------------------------------ part and outline


class _Parted(Struct):
    cards: list[PlacedCard]
    pages: list[tuple[str, int, Page]]
    strays: list[tuple[str, int, Stray]]
    memory: remember.Memory
    used: dict[bytes, Section]
    fresh: bool


def _outlines(
    folder: str, files: list[tuple[str, bytes]], acts: Mapping[str, ActForm]
) -> _Parted:
    known = Known.of(acts)
    memory = remember.recall(folder, _mark(acts))
    parted = _Parted([], [], [], memory, {}, False)
    recalled = memory.sections
    for name, data in files:
        for line, text in sections(data):
            digest = blake2b(text, digest_size=16).digest()
            section = recalled.get(digest)
            if section is None:
                section = recalled[digest] = read_section(text, known)
                parted.fresh = True
            parted.used[digest] = section
            if isinstance(section, Page):
                parted.pages.append((name, line, section))
            elif isinstance(section, Card):
                parted.cards.append(PlacedCard(section, name, line))
            elif section.blocks or section.flaws:
                parted.strays.append((name, line, section))
    return parted


def _mark(acts: Mapping[str, ActForm]) -> str:
    """What the memory depends on: the language's files and the table of acts."""
    added = sorted(word for word, form in acts.items() if form not in ACTS)
    table = "".join(f"{word} {acts[word]}" for word in added)
    return blake2b(f"{language_mark()} {table}".encode(), digest_size=16).hexdigest()


def _keep(folder: str, parted: _Parted, details: Details) -> bool:
    """Write the memory when this run read something new; what no file holds any more is let go."""
    if not parted.fresh and not details.learned:
        return True
    remember.keep(folder, remember.Memory(
        parted.memory.mark, parted.used, details.kept, details.kept_subjects))
    return False


def _southern(cards: list[PlacedCard], home: str) -> bool:
    """The hemisphere, before the cards are read: the latitude of the home place."""
    for placed in cards:
        card = placed.card
        if card.kind == "place" and (card.handle == home or not home):
            for line in card.lines:
                if line.text.startswith("latitude"):
                    return "-" in line.text or line.text.rstrip().endswith("S")
    return False


def _check_settings(settings: Settings, things: Things, text: str, notes: Notes) -> None:
    for key, handle, kind in (
        ("home", settings.home, "place"), ("keeper", settings.keeper, "person")
    ):
        if handle:
            number = next((i for i, ln in enumerate(text.splitlines())
                           if ln.split("=")[0].strip() == key), 0)
            line = text.splitlines()[number]
            check_reference(handle, (kind,), things, notes,
                            Origin(SETTINGS_FILE, number + 1, 1), max(line.find(handle), 0))


# ------------------------------------------------------------------ events


def _pages(
    parted: _Parted, things: Things, details: Details, notes: Notes, southern: bool, today: date,
    as_of: bool,
) -> tuple[tuple[DatedPage, ...], tuple[DayWeather, ...]]:
    reader = _EventReader(things, details, notes)
    pages: list[DatedPage] = []
    weather: list[DayWeather] = []
    for file, line, page in parted.pages:
        for flaw in page.flaws:
            notes.add(file, line, flaw)
        try:
            when = read_date(page.date, southern)
        except Misread as error:
            notes.add(file, line, Flaw(error.code, 0, 1, len(page.date), error.message,
                                       error.hint))
            continue
        if when.first > today:
            if not as_of:
                _note_future(when, file, line, today, notes)
            continue
        if page.weather:
            weather += reader.weather(page, when, file, line)
        pages.append(DatedPage(when, file, line + 1, reader.blocks(page.blocks, when, file, line)))
    for placed in parted.cards:
        for flaw in placed.card.flaws:
            notes.add(placed.file, placed.line, flaw)
        reader.misplaced(placed.card.blocks, placed.file, placed.line)
    for file, line, stray in parted.strays:
        for flaw in stray.flaws:
            notes.add(file, line, flaw)
        reader.misplaced(stray.blocks, file, line)
    pages.sort(key=lambda page: (page.when.first, page.file, page.line))
    return tuple(pages), tuple(weather)


def _note_future(when: WrittenDate, file: str, line: int, today: date, notes: Notes) -> None:
    hint = "What is still to come is written as planned: planned repot, to 2027-03."
    if (when.first - today).days > 366:
        hint = f"Is the year right? {hint}"
    notes.add(file, line, Flaw("future-date", 0, 1, len(when.text),
                               f"{when.text} has not come yet (today is {today})", hint))


class _EventReader:
    """Turns blocks into events against the table of acts; problems go to the notes."""

    def __init__(self, things: Things, details: Details, notes: Notes) -> None:
        self.things, self.details, self.notes = things, details, notes
        self._sound: set[tuple[str, str]] = set()

    def blocks(
        self, blocks: tuple[Block, ...], when: WrittenDate, file: str, line: int
    ) -> tuple[DatedBlock, ...]:
        out: list[DatedBlock] = []
        for block in blocks:
            subjects = self._subject_line(block, file, line)
            if subjects is None:
                continue
            events: list[Event] = []
            for act in block.acts:
                event = self._event(act, when, block.subjects, file, line)
                if event is not None:
                    events.append(event)
            out.append(DatedBlock(subjects, block.subjects, line + block.line + 1, tuple(events)))
        return tuple(out)

    def _subject_line(self, block: Block, file: str, line: int) -> Subjects | None:
        if not block.subjects:
            for act in block.acts:
                self.notes.add(file, line, Flaw(
                    "no-subject", act.line, act.column, len(act.word),
                    "this act has no subject line above it",
                    "Write the tree's handle on a line of its own, at the left edge."))
            return None
        read = self.details.subjects(block.subjects)
        first = block.subjects.split(None, 1)[0]
        if first in self.details.acts and self.things.find(first) is None:
            self.notes.add(file, line, Flaw(
                "act-at-edge", block.line, 1, len(first), f"“{first}” is an act, but stands at "
                "the left edge", "Put two spaces in front of an act."))
            return None
        if isinstance(read, Flaw):
            self.notes.add(file, line, Flaw(read.code, block.line, read.column, read.length,
                                            read.message, read.hint))
            return None
        if not block.acts:
            self.notes.add(file, line, Flaw(
                "no-acts", block.line, 1, len(block.subjects), "nothing was done here",
                "Acts stand below the subject line, indented.", "warning"))
        return read

    def _event(
        self, act: Act, when: WrittenDate, subjects: str, file: str, line: int
    ) -> Event | None:
        form = self.details.acts.get(act.word) or self.details.acts.get(act.word.casefold())
        if form is None:
            self.notes.add(file, line, Flaw(
                "unknown-act", act.line, act.column, len(act.word),
                f"“{act.word}” is no act known here",
                did_you_mean(act.word, self.details.acts,
                             "The manual lists every act; free words go after noted.")))
            return None
        reading = self.details.of(form, act.text)
        if reading.flaws:
            for flaw in reading.flaws:
                self._note(act, file, line, flaw)
        key = (form.word, act.text)
        if key not in self._sound:
            self._check(form, act, reading.details, reading.starts, file, line)
        return Event(form.word, when, reading.details, act.text, act.remark, reading.named,
                     subjects, file, line + act.line + 1, act.column)

    def _note(self, act: Act, file: str, line: int, flaw: Flaw) -> None:
        if flaw.length == 0:
            at, column, length = act.line, act.column, len(act.word)
        else:
            at, column = act.place_of(flaw.column)
            length = flaw.length
        self.notes.add(file, line, Flaw(flaw.code, at, column, length, flaw.message, flaw.hint,
                                        flaw.severity))

    def _check(self, form: ActForm, act: Act, details: tuple[Detail, ...],
               starts: tuple[int, ...], file: str, line: int) -> None:
        """Check every reference and date once; what is sound is not looked at again."""
        sound = True
        forms = {f.name: f for f in form.forms}
        named = self.details.of(form, act.text).named
        if named:
            forms = {f.name: f for f in self.details.acts[named].forms} | forms
        for detail, start in zip(details, starts, strict=True):
            flaw = self._flaw_of_reference(detail, forms[detail.name].refers) if (
                detail.handle
            ) else _flaw_of_date(detail) if detail.date else None
            if flaw is not None:
                sound = False
                self._note(act, file, line, Flaw(
                    flaw.code, 0, start + detail.offset + flaw.column, flaw.length, flaw.message,
                    flaw.hint))
        if sound:
            self._sound.add((form.word, act.text))

    def _flaw_of_reference(self, detail: Detail, kinds: tuple[str, ...]) -> Flaw | None:
        found = self.things.find(detail.handle)
        if found is None:
            return Flaw("unknown-handle", 0, 0, detail.length,
                        f"no {' or '.join(kinds)} is called “{detail.handle}”",
                        self.things.nearest(detail.handle, *kinds))
        if found.kind not in kinds:
            return Flaw("wrong-kind", 0, 0, detail.length,
                        f"“{detail.handle}” is a {found.kind}, not a {' or a '.join(kinds)}",
                        f"Its card stands in {found.origin}.")
        return None

    def weather(self, page: Page, when: WrittenDate, file: str, line: int) -> list[DayWeather]:
        """The weather on a page's first line."""
        out: list[DayWeather] = []
        pieces = []
        place = ""
        for start, piece in part_at_commas(page.weather):
            read = self.details.weather(piece)
            if read.flaw:
                self.notes.add(file, line, Flaw(
                    read.flaw.code, 0, page.weather_column + start + read.flaw.column,
                    read.flaw.length, read.flaw.message, read.flaw.hint))
            for detail in read.details:
                if detail.name == "at":
                    flaw = self._flaw_of_reference(detail, ("place",))
                    if flaw:
                        self.notes.add(file, line, Flaw(
                            flaw.code, 0, page.weather_column + start + detail.offset,
                            flaw.length, flaw.message, flaw.hint))
                    else:
                        found = self.things.find(detail.handle)
                        place = found.handle if found else ""
                else:
                    pieces.append(detail)
        origin = Origin(file, line + 1, page.weather_column)
        if not when.exact:
            self.notes.add(file, line, Flaw(
                "rough-weather", 0, page.weather_column, len(page.weather),
                "weather needs an exact day", "Write the date as 2027-03-06.", "warning"))
            return []
        for detail in pieces:
            measure = detail.measure
            value, unit = (float(measure.number), measure.unit) if measure else (1.0, "")
            out.append(DayWeather(when.first, place, detail.name, value, unit, origin))
        return out

    def misplaced(self, blocks: tuple[Block, ...], file: str, line: int) -> None:
        """Note acts and subject lines that stand on no page."""
        for block in blocks:
            at = block.line if block.subjects else block.acts[0].line
            text = block.subjects or block.acts[0].word
            column = 1 if block.subjects else block.acts[0].column
            self.notes.add(file, line, Flaw(
                "no-date", at, column, len(text), "this stands before any date",
                "A page begins with its date at the left edge: 2027-03-06"))


def _flaw_of_date(detail: Detail) -> Flaw | None:
    try:
        read_span(detail.date)
    except Misread as error:
        return Flaw(error.code, 0, 0, detail.length, error.message, error.hint)
    return None
