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
import posixpath
import re
from collections.abc import Mapping, Sequence
from datetime import date
from hashlib import blake2b

from msgspec import Struct
from msgspec.structs import replace

from backbud.journal import remember
from backbud.journal.currency import note_bare_amounts
from backbud.journal.events import Event, Origin
from backbud.journal.find import find_files
from backbud.journal.notes import Notes
from backbud.journal.settings import SETTINGS_FILE, Settings, read_settings
from backbud.journal.things import (
    PlacedCard,
    Things,
    check_reference,
    read_things,
    with_lines_at_edge,
)
from backbud_grammar.acts import ACTS, by_word
from backbud_grammar.dates import WrittenDate, read_date, read_span
from backbud_grammar.details import part_at_commas
from backbud_grammar.forms import ANY_WORDS, ActForm, Form
from backbud_grammar.kinds import KINDS
from backbud_grammar.outline import Known, read_act_line, read_section, sections
from backbud_grammar.parse import ActReading, Details
from backbud_grammar.problems import Flaw, Misread, Problem, did_you_mean, nearest
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

# More than any hand writes; what is larger is some other file.
LARGEST_FILE = 256 * 1024 * 1024


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
    found = find_files(folder)
    texts: dict[str, bytes] = {}
    notes = Notes(texts)
    for name, flaw in found.passed_over.items():
        notes.add(name, 0, flaw)
    loaded = {name: _load(folder, name) for name in (SETTINGS_FILE, *found.files)}
    texts.update((name, text.data) for name, text in loaded.items())
    settings, flaws = read_settings(texts[SETTINGS_FILE].decode())
    for flaw in (*loaded[SETTINGS_FILE].flaws, *flaws):
        notes.add(SETTINGS_FILE, 0, flaw)
    by_act = by_word(acts)
    parted = _outlines(folder, {name: texts[name] for name in found.files}, by_act)
    for name in found.files:
        if name not in parted.weather_files:
            for flaw in loaded[name].flaws:
                notes.add(name, 0, flaw)
    southern = _southern(parted.cards, settings.home)
    details = Details(by_act, parted.memory.readings, parted.memory.subjects)
    parted.cards = [
        with_lines_at_edge(placed, details, notes) if placed.card.blocks else placed
        for placed in parted.cards
    ]
    things = read_things(parted.cards, southern, details, notes)
    _check_settings(settings, things, texts[SETTINGS_FILE].decode(), notes)
    handles = _digest(
        "\n".join(
            f"{spelling} {things.by_handle[handle].kind}"
            for spelling, handle in things.spellings.items()
        ).encode()
    )
    reader = _EventReader(things, details, notes, _recalled_sound(parted.memory, handles))
    pages, weather = _pages(parted, reader, notes, southern, today, as_of)
    if not settings.currency:
        note_bare_amounts(
            (event for page in pages for block in page.blocks for event in block.events),
            things,
            notes,
        )
    return Journal(
        folder,
        settings,
        things,
        pages,
        weather,
        by_act,
        details,
        notes,
        southern,
        remembered=_keep(folder, parted, reader, handles),
    )


# ------------------------------------------------------------------ load


class _Loaded(Struct, frozen=True):
    """A file's text as UTF-8 with `\\n` line ends, and what was wrong with its bytes."""

    data: bytes
    flaws: tuple[Flaw, ...] = ()


def _load(folder: str, name: str) -> _Loaded:
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
    if data.startswith((b"\xff\xfe", b"\xfe\xff")):
        return _left_out("binary-file", "this file is UTF-16", "Save it as UTF-8.")
    data = data.removeprefix(b"\xef\xbb\xbf")
    if b"\r" in data:
        data = data.replace(b"\r\n", b"\n").replace(b"\r", b"\n")
    if b"\0" not in data:
        if data.isascii():
            return _Loaded(data)
        try:
            data.decode()
        except UnicodeDecodeError:
            return _mended(data)
        return _Loaded(data)
    # A power cut can leave noughts at the end of a file that is sound otherwise.
    if _is_binary(data):
        return _left_out(
            "binary-file", "this is no text file", "It was left out. Only UTF-8 text ends in .txt."
        )
    return _mended(data)


def _left_out(code: str, message: str, hint: str) -> _Loaded:
    return _Loaded(b"", (Flaw(code, 0, 1, 1, message, hint),))


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


def _mended(data: bytes) -> _Loaded:
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
    return _Loaded(b"\n".join(lines), tuple(flaws))


# ------------------------------------------------------------------ part and outline


class _Parted(Struct):
    cards: list[PlacedCard]
    pages: list[tuple[str, int, Page]]
    strays: list[tuple[str, int, Stray]]
    memory: remember.Memory
    used: dict[bytes, Section]
    used_files: dict[bytes, list[tuple[int, bytes]]]
    fresh: int
    weather_files: frozenset[str] = frozenset()


FEW_PAGES = 20
_WEATHER = re.compile(rb"^[ \t]+weather[ \t]+([^\n]+)", re.MULTILINE | re.IGNORECASE)


def _outlines(folder: str, files: Mapping[str, bytes], acts: Mapping[str, ActForm]) -> _Parted:
    """Outline every file but those that a place's card names as weather."""
    memory = remember.recall(folder, _mark(acts))
    parted = _Parted([], [], [], memory, {}, {}, 0)
    known = Known.of(acts)
    perhaps = {
        name
        for data in files.values()
        if b"weather" in data
        for found in _WEATHER.finditer(data)
        if (name := _file_name(found[1].decode())) in files
    }
    for name, data in files.items():
        if name not in perhaps:
            _outline(name, data, known, parted)
    if perhaps:
        parted.weather_files = frozenset(
            name
            for placed in parted.cards
            if placed.card.kind == "place"
            for line in placed.card.lines
            if line.text.casefold().startswith("weather")
            if (name := _file_name(line.text[len("weather") :])) in perhaps
        )
        for name in sorted(perhaps - parted.weather_files):
            _outline(name, files[name], known, parted)
    return parted


def _file_name(written: str) -> str:
    return posixpath.normpath(written.strip().replace("\\", "/"))


def _outline(name: str, data: bytes, known: Known, parted: _Parted) -> None:
    recalled = parted.memory.sections
    whole = _digest(data)
    row = parted.memory.files.get(whole)
    # A foreign memory may name what it does not hold.
    if row is None or any(digest not in recalled for _, digest in row):
        row = []
        for line, text in sections(data):
            digest = _digest(text)
            if digest not in recalled:
                recalled[digest] = read_section(text, known)
                parted.fresh += 1
            row.append((line, digest))
    parted.used_files[whole] = row
    for line, digest in row:
        section = parted.used[digest] = recalled[digest]
        if isinstance(section, Page):
            parted.pages.append((name, line, section))
        elif isinstance(section, Card):
            parted.cards.append(PlacedCard(section, name, line))
        elif section.blocks or section.flaws:
            parted.strays.append((name, line, section))


def _digest(data: bytes) -> bytes:
    return blake2b(data, digest_size=16).digest()


def _mark(acts: Mapping[str, ActForm]) -> str:
    """What the memory depends on: the language's files and the table of acts."""
    added = sorted(word for word, form in acts.items() if form not in ACTS)
    table = "".join(f"{word} {acts[word]}" for word in added)
    return blake2b(f"{language_mark()} {table}".encode(), digest_size=16).hexdigest()


# By word and text: the past form, the details, the act it names.
SoundActs = dict[tuple[str, str], tuple[str, tuple[Detail, ...], str]]


def _recalled_sound(memory: remember.Memory, handles: bytes) -> SoundActs:
    """The acts in which nothing was wrong, as long as every handle means what it did."""
    if memory.things != handles:
        return {}
    pool = memory.details
    return {
        (word, text): (one.word, tuple([pool[i] for i in one.details]), one.named)
        for word, texts in memory.sound.items()
        for text, one in texts.items()
    }


def _keep(folder: str, parted: _Parted, reader: _EventReader, handles: bytes) -> bool:
    """Write the memory when this run read something new; what no file holds any more is let go."""
    memory, details = parted.memory, reader.details
    # A few new pages are sooner read again than the whole memory is written.
    if parted.fresh <= FEW_PAGES and memory.things == handles and not details.learned:
        return True
    places: dict[Detail, int] = {}
    sound: dict[str, dict[str, remember.Sound]] = {}
    for (word, text), (past, found, named) in reader.sound.items():
        at = tuple([places.setdefault(detail, len(places)) for detail in found])
        sound.setdefault(word, {})[text] = remember.Sound(past, at, named)
    remember.keep(
        folder,
        remember.Memory(
            memory.mark,
            parted.used,
            parted.used_files,
            details.kept,
            details.kept_subjects,
            handles,
            list(places),
            sound,
        ),
    )
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


def _pages(
    parted: _Parted, reader: _EventReader, notes: Notes, southern: bool, today: date, as_of: bool
) -> tuple[tuple[DatedPage, ...], tuple[DayWeather, ...]]:
    pages: list[DatedPage] = []
    weather: list[DayWeather] = []
    for file, line, page in parted.pages:
        try:
            when = read_date(page.date, southern)
        except Misread as error:
            notes.add(file, line, Flaw(error.code, 0, 1, len(page.date), error.message, error.hint))
            # Without a day nothing of it can be replayed, but its other problems are told too.
            when = NO_DAY
        if when.first > today:
            if as_of:
                continue
            _note_future(when, file, line, today, notes)
        elif when.exact and when.last < OLDEST_DAY and when is not NO_DAY:
            notes.add(
                file,
                line,
                Flaw(
                    "old-date",
                    0,
                    1,
                    len(when.text),
                    f"{when.text} is long ago",
                    "Is the year right?",
                    "warning",
                ),
            )
        for flaw in page.flaws:
            notes.add(file, line, flaw)
        said = reader.weather(page, when, file, line) if page.weather else []
        blocks = reader.blocks(page.blocks, when, file, line)
        if when is not NO_DAY and when.first <= today:
            weather += said
            pages.append(DatedPage(when, file, line + 1, blocks))
    for placed in parted.cards:
        for flaw in placed.card.flaws:
            notes.add(placed.file, placed.line, flaw)
        reader.misplaced(placed.card.blocks, placed.file, placed.line, after_card=True)
    journal_files = {file for file, _, _ in parted.pages} | {p.file for p in parted.cards}
    for file, line, stray in parted.strays:
        for flaw in stray.flaws:
            notes.add(file, line, flaw)
        if file in journal_files:
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
                ),
            )
    pages.sort(key=lambda page: (page.when.first, page.file, page.line))
    return tuple(pages), tuple(weather)


NOBODY = Subjects(())
# A page whose date cannot be read.
NO_DAY = WrittenDate("", date.min, date.min, True, False, False)
# Trees are older than any diary of them; what is known of their youth has a rough date.
OLDEST_DAY = date(1800, 1, 1)


def _note_future(when: WrittenDate, file: str, line: int, today: date, notes: Notes) -> None:
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
            len(when.text),
            f"{when.text} has not come yet (today is {today})",
            hint,
        ),
    )


class _EventReader:
    """Turns blocks into events against the table of acts; problems go to the notes."""

    def __init__(self, things: Things, details: Details, notes: Notes, sound: SoundActs) -> None:
        self.things, self.details, self.notes = things, details, notes
        self.sound = sound
        # Subject lines that are no acts.
        self._plain: set[str] = {""}

    def blocks(
        self, blocks: tuple[Block, ...], when: WrittenDate, file: str, line: int
    ) -> tuple[DatedBlock, ...]:
        out: list[DatedBlock] = []
        for block in blocks:
            text = block.subjects
            if text not in self._plain:
                slipped = self._act_at_edge(block, file, line)
                if slipped is not None:
                    # It, and what stands below it, belong to the subject line above.
                    above = out.pop() if out else DatedBlock(NOBODY, "", 0, ())
                    more = self._events((slipped, *block.acts), when, above.text, file, line)
                    if above.line:
                        out.append(replace(above, events=(*above.events, *more)))
                    continue
            subjects = self._subject_line(block, file, line)
            events = self._events(block.acts, when, text, file, line)
            if subjects is not None:
                out.append(DatedBlock(subjects, text, line + block.line + 1, events))
        return tuple(out)

    def _events(
        self, acts: tuple[Act, ...], when: WrittenDate, subjects: str, file: str, line: int
    ) -> tuple[Event, ...]:
        events: list[Event] = []
        sound = self.sound
        for act in acts:
            known = sound.get((act.word, act.text))
            if known is not None:
                word, details, named = known
                events.append(
                    Event(
                        word,
                        when,
                        details,
                        act.text,
                        act.remark,
                        named,
                        subjects,
                        file,
                        line + act.line + 1,
                        act.column,
                    )
                )
                continue
            event = self._event(act, when, subjects, file, line)
            if event is not None:
                events.append(event)
        return tuple(events)

    def _act_at_edge(self, block: Block, file: str, line: int) -> Act | None:
        """The act that a subject line is in truth, or None."""
        first = block.subjects.split(None, 1)[0]
        if first.casefold() not in self.details.acts or self.things.find(first) is not None:
            self._plain.add(block.subjects)
            return None
        self.notes.add(
            file,
            line,
            Flaw(
                "act-at-edge",
                block.line,
                1,
                len(first),
                f"“{first}” is an act, but stands at the left edge",
                "Put two spaces in front of an act.",
            ),
        )
        return read_act_line(block.subjects, block.line, Known.of(self.details.acts))

    def _subject_line(self, block: Block, file: str, line: int) -> Subjects | None:
        if not block.subjects:
            for act in block.acts:
                if act.word.casefold() in self.details.acts:
                    self.notes.add(
                        file,
                        line,
                        Flaw(
                            "no-subject",
                            act.line,
                            act.column,
                            len(act.word),
                            "this act has no subject line above it",
                            "Write the tree's handle on a line of its own, at the left edge.",
                        ),
                    )
            return None
        read = self.details.subjects(block.subjects)
        if isinstance(read, Flaw):
            self.notes.add(file, line, self._explained(read, block))
            return None
        if not block.acts:
            self.notes.add(
                file,
                line,
                Flaw(
                    "no-acts",
                    block.line,
                    1,
                    len(block.subjects),
                    "nothing was done here",
                    "Acts stand below the subject line, indented.",
                    "warning",
                ),
            )
        return read

    def _explained(self, flaw: Flaw, block: Block) -> Flaw:
        """A subject line's flaw in its place; an act or a card on that line is said to be one."""
        message, hint = flaw.message, flaw.hint
        first, *more = block.subjects.split() or [""]
        wrong = block.subjects[flaw.column - 1 :].split()
        if wrong and wrong[0].casefold() in self.details.acts:
            message = f"the act “{wrong[0]}” stands on the subject line"
            hint = "Acts stand on lines of their own below, indented."
        elif more and "," not in block.subjects:
            kind = nearest(first, KINDS) if first.casefold() not in KINDS else first.casefold()
            if kind and self.things.find(first) is None:
                message = f"this is neither a card nor a subject line: “{block.subjects}”"
                hint = f"A card begins with its kind and one handle: {kind} {'-'.join(more)}"
        return Flaw(flaw.code, block.line, flaw.column, flaw.length, message, hint)

    def _event(
        self, act: Act, when: WrittenDate, subjects: str, file: str, line: int
    ) -> Event | None:
        form = self.details.acts.get(act.word) or self.details.acts.get(act.word.casefold())
        if form is None:
            self.notes.add(file, line, self._unknown_act(act, file))
            return None
        reading = self.details.of(form, act.text)
        for flaw in reading.flaws:
            self._note(act, file, line, flaw)
            if form.names_act and flaw.code in WITHOUT_AN_ACT:
                return None
        if self._check(form, act, reading, file, line) and not reading.flaws:
            self.sound[act.word, act.text] = (form.word, reading.details, reading.named)
        return Event(
            form.word,
            when,
            reading.details,
            act.text,
            act.remark,
            reading.named,
            subjects,
            file,
            line + act.line + 1,
            act.column,
        )

    def _unknown_act(self, act: Act, file: str) -> Flaw:
        word, code, message = act.word, "unknown-act", f"“{act.word}” is no act known here"
        hint = "The manual lists every act; free words go after noted."
        thing = self.things.find(word.rstrip(",:"))
        if word[:4].isdecimal() and "-" in word:
            code, message = "indented-date", "this date is indented, so it begins no page"
            hint = "Take the spaces in front of it out."
        elif thing is not None:
            code, message = "indented-subject", f"“{word}” is a {thing.kind}, but stands indented"
            hint = "A subject line stands at the left edge."
        elif not self.notes.flooded(file):
            hint = did_you_mean(word, self.details.acts, hint)
        return Flaw(code, act.line, act.column, len(word), message, hint)

    def _note(self, act: Act, file: str, line: int, flaw: Flaw) -> None:
        if flaw.length == 0:
            at, column, length = act.line, act.column, len(act.word)
        else:
            at, column = act.place_of(flaw.column)
            length = flaw.length
        self.notes.add(
            file, line, Flaw(flaw.code, at, column, length, flaw.message, flaw.hint, flaw.severity)
        )

    def _check(self, form: ActForm, act: Act, reading: ActReading, file: str, line: int) -> bool:
        """Check every reference and date; whether they are sound, so that one check is enough."""
        sound = True
        forms = list(form.forms)
        if reading.named:
            forms += self.details.acts[reading.named].forms
        for detail, start in zip(reading.details, reading.starts, strict=True):
            if detail.handle:
                kinds = tuple(
                    dict.fromkeys(kind for f in forms if f.name == detail.name for kind in f.refers)
                )
                said, flaw = detail.handle, self._flaw_of_reference(detail.handle, kinds, forms)
            elif detail.date:
                said, flaw = detail.date, _flaw_of_date(detail.date)
            else:
                continue
            if flaw is not None:
                sound = False
                at = max(act.text.find(said, start + detail.offset), 0)
                self._note(
                    act,
                    file,
                    line,
                    Flaw(
                        flaw.code,
                        0,
                        at + flaw.column,
                        flaw.length or len(said),
                        flaw.message,
                        flaw.hint,
                    ),
                )
        return sound

    def _flaw_of_reference(
        self, handle: str, kinds: tuple[str, ...], forms: Sequence[Form] = ()
    ) -> Flaw | None:
        """What is wrong with a handle; the nearest one or the nearest detail is the hint."""
        found = self.things.find(handle)
        if found is None:
            near = [thing.handle for thing in self.things.by_handle.values() if thing.kind in kinds]
            near += [
                word
                for form in forms
                if form.words != ANY_WORDS
                for word in (*form.labels, *form.words)
            ]
            hint = did_you_mean(handle, near, "Give it a card, or check the spelling.")
            return Flaw(
                "unknown-handle",
                0,
                0,
                len(handle),
                f"no {' or '.join(kinds)} is called “{handle}”",
                hint,
            )
        if found.kind not in kinds:
            return Flaw(
                "wrong-kind",
                0,
                0,
                len(handle),
                f"“{handle}” is a {found.kind}, not a {' or a '.join(kinds)}",
                f"Its card stands in {found.origin}.",
            )
        return None

    def weather(self, page: Page, when: WrittenDate, file: str, line: int) -> list[DayWeather]:
        """The weather on a page's first line."""
        found: dict[str, Detail] = {}
        place = ""

        def note(flaw: Flaw, at: int, hint: str = "") -> None:
            self.notes.add(
                file,
                line,
                Flaw(
                    flaw.code,
                    0,
                    page.weather_column + at,
                    flaw.length,
                    flaw.message,
                    hint or flaw.hint,
                ),
            )

        for start, piece in part_at_commas(page.weather):
            read = self.details.weather(piece)
            if read.flaw:
                note(
                    read.flaw,
                    start + read.flaw.column,
                    "Handles stand on a line of their own below the date."
                    if self.things.find(piece) is not None
                    else "",
                )
            for detail in read.details:
                at = start + detail.offset
                if detail.name in found:
                    note(
                        Flaw(
                            "said-twice",
                            0,
                            0,
                            detail.length,
                            f"“{detail.name}” stands here twice, and the first counts",
                            "Take one out.",
                        ),
                        at,
                    )
                elif detail.name == "at":
                    flaw = self._flaw_of_reference(detail.handle, ("place",))
                    if flaw:
                        note(flaw, piece.index(detail.handle) + start)
                    else:
                        thing = self.things.find(detail.handle)
                        place = thing.handle if thing else ""
                else:
                    found[detail.name] = detail
        low, high = (found[name].measure if name in found else None for name in ("low", "high"))
        if low and high and low.within("C") > high.within("C"):
            note(
                Flaw(
                    "contradiction",
                    0,
                    0,
                    len(page.weather),
                    "the low is above the high",
                    "Are the two swapped?",
                ),
                0,
            )
        origin = Origin(file, line + 1, page.weather_column)
        if not when.exact:
            self.notes.add(
                file,
                line,
                Flaw(
                    "rough-weather",
                    0,
                    page.weather_column,
                    len(page.weather),
                    "weather needs an exact day",
                    "Write the date as 2027-03-06.",
                    "warning",
                ),
            )
            return []
        out: list[DayWeather] = []
        for detail in found.values():
            measure = detail.measure
            value, unit = (float(measure.number), measure.unit) if measure else (1.0, "")
            out.append(DayWeather(when.first, place, detail.name, value, unit, origin))
        return out

    def misplaced(
        self, blocks: tuple[Block, ...], file: str, line: int, *, after_card: bool = False
    ) -> None:
        """Note acts and subject lines that stand on no page."""
        for block in blocks:
            at = block.line if block.subjects else block.acts[0].line
            text = block.subjects or block.acts[0].word
            column = 1 if block.subjects else block.acts[0].column
            hint = "A page begins with its date at the left edge: 2027-03-06."
            no_card = self._explained(Flaw("no-date", 0, 1, len(text), "", ""), block)
            if no_card.message:
                self.notes.add(file, line, no_card)
                continue
            if after_card:
                hint = f"A card ends the page above it. {hint}"
            self.notes.add(
                file,
                line,
                Flaw("no-date", at, column, len(text), "no date stands above this", hint),
            )


# With these it is not known what is planned or corrected.
WITHOUT_AN_ACT = ("unknown-act", "no-date")


def _flaw_of_date(written: str) -> Flaw | None:
    try:
        read_span(written)
    except Misread as error:
        return Flaw(error.code, 0, error.offset, error.length, error.message, error.hint)
    return None
