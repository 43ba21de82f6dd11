"""A page of the diary once it is read: its day, its subject lines, and the acts below them.

Its events are made when they are first asked for: a check asks for few of them.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from datetime import date
from typing import Protocol

from msgspec import Struct
from msgspec.structs import force_setattr, replace

from backbud.journal.events import Event, Origin
from backbud_grammar.act_words import as_act
from backbud_grammar.continued import without_remark
from backbud_grammar.dates import WrittenDate
from backbud_grammar.forms import NO_ACT, ActForm
from backbud_grammar.held_back import HELD
from backbud_grammar.outline import Known
from backbud_grammar.syntax import Act, Detail, Subjects
from backbud_grammar.written_hours import may_hold_hour


class Said(Struct, frozen=True, array_like=True, gc=False):
    """What an act says: its past form, its details, and the act that it names.

    `held`: where its act is `HELD`, the past form of what is held back; then it has no details.
    `kept`: the words that were not used. `says_when`: whether a date, or a span of
    more days than anybody plans, stands in it, which may lie too far from a page.
    """

    act: str
    details: tuple[Detail, ...]
    named: str
    held: str = ""
    kept: tuple[str, ...] = ()
    says_when: bool = False


# By word and text, of acts in which nothing was wrong.
SoundActs = dict[str, dict[str, Said]]


class Reader(Protocol):
    """Reads lines that were read before, and found good enough to stand in a block.

    `language_known`: what pages are outlined by.
    """

    language_known: Known

    def subjects(self, text: str) -> Subjects:
        """What a subject line means."""

    def act_on(self, lines: Sequence[str], first: int) -> Act:
        """The act that stands on these lines of a page, of which the first has this number."""

    def meant(self, act: Act, when: WrittenDate) -> Act:
        """An act in words of the language, where own words stand in it."""

    def said(self, act: Act, *, held: bool) -> Said:
        """What an act says; no more than its words, where it was found to be held back."""

    def row(self, act: str) -> ActForm:
        """The row of an act, in its past form, of the journal's table; of no act `NO_ACT`."""


class Head(Struct, frozen=True, gc=False):
    """What the blocks of a page share; `line` counts from 0. `hour`: behind its date, as written.
    `turn`: on a day of which hours are written the minute of it that these lines come at, else -1.
    """

    when: WrittenDate
    file: str
    line: int
    reader: Reader
    hour: str = ""
    turn: int = -1


class DatedBlock(Struct, gc=False, eq=False):
    """A subject line and its events; `line` counts from 1 in the file.

    `acts`: the past form of each. `written`: the same as they stand there, or the text
    of the block, in which every line stands as it should; none once every event was made for good.
    """

    head: Head
    text: str
    line: int
    acts: tuple[str, ...]
    written: tuple[Act, ...] | str
    _made: list[Event | None] | None = None

    @property
    def subjects(self) -> Subjects:
        return self.head.reader.subjects(self.text)

    @property
    def events(self) -> tuple[Event, ...]:
        return tuple([self.event(i) for i in range(len(self.acts))])

    def hours(self) -> tuple[str, ...]:
        """The hour of each act as written, "" where it has none of its own."""
        return tuple([act.hour for act in self._acts_written()])

    def part(self, begin: int, end: int, turn: int) -> DatedBlock:
        """Some of the acts, which come at a minute of the day."""
        written = self._acts_written()[begin:end]
        head = replace(self.head, turn=turn)
        return DatedBlock(head, self.text, self.line, self.acts[begin:end], written)

    def _acts_written(self) -> tuple[Act, ...]:
        return tuple([self._act(i) for i in range(len(self.acts))])

    def event(self, i: int) -> Event:
        """One of the events, always the same one."""
        made = self._made
        if made is None:
            made = self._made = [None] * len(self.acts)
        event = made[i]
        if event is None:
            event = made[i] = self._make(self._act(i), held=self.acts[i] == HELD)
        return event

    def said_plainly(self, i: int) -> tuple[str, str] | None:
        """The word and the details of an act as written, without line ends; None where that cannot
        be told at once, or an hour may stand among them."""
        if isinstance(self.written, tuple):
            return None
        lines = self.written.rstrip("\n").split("\n")
        if len(lines) == len(self.acts) + 1:
            line = lines[i + 1].strip()
        else:
            begin, end = parted_by_depth(lines[1:])[i]
            line = " ".join([line.strip() for line in lines[begin + 1 : end + 1]])
        word, _, rest = line.partition(" ")
        rest = rest.lstrip()
        if "--" in rest or "—" in rest:
            rest, _ = without_remark(rest)
        return None if may_hold_hour(rest) else (word, rest)

    def make_for_good(self, texts: dict[str, str]) -> None:
        """Make every event, and let go of what they are made from: for a run that reads once.

        `texts`: those of events so far: what many lines say is held once."""
        for i in range(len(self.acts)):
            event = self.event(i)
            force_setattr(event, "text", texts.setdefault(event.text, event.text))
        self.written = ()

    def _act(self, i: int) -> Act:
        if isinstance(self.written, tuple):
            return self.written[i]
        _, *lines = self.written.rstrip("\n").split("\n")
        first = self.line - self.head.line
        begin, end = (i, i + 1) if len(lines) == len(self.acts) else parted_by_depth(lines)[i]
        return self.head.reader.act_on(lines[begin:end], first + begin)

    def _make(self, act: Act, *, held: bool) -> Event:
        head = self.head
        meant = head.reader.meant(act, head.when)
        own = f"{act.word} {act.text}".rstrip() if meant is not act else act.written
        said = head.reader.said(meant, held=held)
        return Event(
            as_act(said.act),
            head.when,
            said.details,
            meant.text,
            meant.remark,
            as_act(said.named),
            self.text,
            head.file,
            head.line + act.line + 1,
            act.column,
            said.held,
            (*said.kept, *act.kept),
            head.reader.row(said.act),
            head.reader.row(said.named) if said.named else NO_ACT,
            head.reader.row(said.held) if said.held else NO_ACT,
            own,
            meant.hour or head.hour,
            head.turn,
        )


# What begins a line that goes on with the one above it.
DEEPER = "   "


def parted_by_depth(lines: Sequence[str]) -> list[tuple[int, int]]:
    """For each act of a block the place of its first line, and that behind its last."""
    begins = [at for at, line in enumerate(lines) if not line.startswith(DEEPER)]
    return list(zip(begins, [*begins[1:], len(lines)], strict=True))


class DatedPage(Struct, gc=False, eq=False):
    """A page in its place among all pages. `acts`: how many there are on it. `digest`: of its text.

    `made`: its blocks, or what makes them; they are always the same ones. `words`: what holds the
    past form of every act, where nothing was wrong in it; else "". `hour`: behind its date, as
    written; `has_hours`: some of its acts have one of their own.
    """

    when: WrittenDate
    file: str
    line: int
    acts: int
    made: tuple[DatedBlock, ...] | Callable[[], tuple[DatedBlock, ...]]
    digest: bytes = b""
    words: str = ""
    hour: str = ""
    has_hours: bool = False

    @property
    def blocks(self) -> tuple[DatedBlock, ...]:
        if not isinstance(self.made, tuple):
            self.made = self.made()
        return self.made


class DayWeather(Struct, frozen=True, gc=False):
    """What a page's first line says of a day's weather; `place` "" is the home place."""

    day: date
    place: str
    name: str
    value: float
    unit: str
    origin: Origin
