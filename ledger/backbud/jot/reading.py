"""Says how jotted lines read: who is meant, which act, which details; and what was not understood.

Nothing is written here. The one place that answers how a line reads, for the keyboard, the phone
and a ticked task alike.
"""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

from msgspec import Struct
from msgspec.structs import replace

from backbud.collection.subjects import flaw_of_choice
from backbud.jot.line import JottedLine, checked, part_line
from backbud.jot.placing import DiaryPlace
from backbud.jot.trial import known_on, page_of, with_page
from backbud.journal.dated import DatedBlock, Head
from backbud.journal.events import Event
from backbud.journal.read import Journal
from backbud.journal.said import ActReader
from backbud.publish.memory import MemoryOf
from backbud.session import Session
from backbud_grammar.dates import read_date
from backbud_grammar.handles import fold
from backbud_grammar.held_back import HELD_CODE
from backbud_grammar.measures import is_money
from backbud_grammar.problems import Flaw
from backbud_grammar.syntax import Subjects

# Behind every line of a real file, so that what is wrong with new lines can be told apart.
_FAR_LINE, _FAR_APART = 1 << 30, 10
# The severity of what is no problem, and the code of a line that begins with no act.
KEPT, UNREAD = "kept", "unread-line"


class AskedBack(Struct, frozen=True):
    """What was not understood in a line, and what to do about it; `hint` "" where nobody knows.

    `elsewhere`: the line of the diary that it would make a problem of, "" where it is its own."""

    message: str
    hint: str
    elsewhere: str = ""


class AsRead(Struct, frozen=True):
    """How one line reads.

    `subjects`, `act_line`: as they will stand in the diary. `trees`: the handles that are meant.
    `act`: its past form, "" where no act was understood or it is held back. `details`: each as
    written. `kept`: the words that were not used. `asks`: what to ask whoever wrote it. `acts`:
    every act that the line speaks of, also where it is held back; `says_money`: an amount stands
    in it.
    """

    subjects: str
    act_line: str
    trees: tuple[str, ...]
    act: str
    details: tuple[str, ...]
    kept: tuple[str, ...]
    remark: str
    asks: tuple[AskedBack, ...]
    acts: tuple[str, ...] = ()
    says_money: bool = False

    @property
    def is_understood(self) -> bool:
        return not self.asks


def parted(session: Session, texts: Sequence[str], day: date) -> tuple[JottedLine, ...]:
    """Each line in its two parts; JotError where one is no line."""
    known = known_on(session.journal, day)
    names = _WhoIsKnown(session, day)
    return tuple([part_line(checked(text), known, names.are_known) for text in texts])


class _WhoIsKnown:
    """Tells whether everyone that a subject line names is known."""

    def __init__(self, session: Session, day: date) -> None:
        self._session = session
        journal = session.journal
        acts = ActReader(journal.things, journal.details, lambda word, text: None, {})
        head = Head(read_date(day.isoformat()), "", 0, acts)
        self._block = DatedBlock(head, "", 0, (), ())

    def are_known(self, subjects: Subjects) -> bool:
        things = self._session.journal.things
        items = [*subjects.chosen, *subjects.left_out]
        wrong = [i for i in items if flaw_of_choice(i, self._block, things) is not None]
        if not wrong:
            return True
        # Trees without a card are found by a replay, which takes longer.
        uncarded = {fold(handle) for handle in self._session.histories.trees}
        return all(flaw_of_choice(i, self._block, things, uncarded) is None for i in wrong)


def as_read(
    session: Session, lines: Sequence[JottedLine], day: date, place: DiaryPlace
) -> tuple[AsRead, ...]:
    """How lines read that are put at a place, one after another."""
    out: list[AsRead] = []
    for n, line in enumerate(lines):
        far = replace(place, at=_FAR_LINE + n * _FAR_APART)
        session, read = _one(session, line, day, far)
        out.append(read)
    return tuple(out)


def _one(
    session: Session, line: JottedLine, day: date, place: DiaryPlace
) -> tuple[Session, AsRead]:
    journal = session.journal
    acts = f"  {line.act}\n" if line.act else ""
    page, of_page = page_of(journal, day, f"{line.subjects}\n{acts}", place)
    again = replace(
        journal, pages=with_page(journal.pages, page), memory=MemoryOf(journal.folder, False)
    )
    tried = Session(again, session.today, plugins=session.plugins, only_check=True)
    before = set(session.impossible)
    after = [one for one in tried.impossible if one not in before]
    # Words kept beside an act are none, but where no act was heard at all that is asked.
    asks = [_asked(flaw) for flaw in of_page if flaw.severity != KEPT or flaw.code == UNREAD]
    asks += [_asked(one.flaw) for one in after if one.number > place.at]
    asks += [
        AskedBack(one.flaw.message, one.flaw.hint, f"{one.file}:{one.number}")
        for one in after
        if one.number <= place.at
    ]
    if line.wrong:
        asks = [AskedBack(line.wrong, line.hint)]
    events = [event for block in page.blocks for event in block.events]
    event = events[0] if events else None
    spoken = tuple(dict.fromkeys(a for one in events for a in (one.said, one.named) if a))
    measures = [detail.measure for one in events for detail in one.details if detail.measure]
    money = any(is_money(measure.sort) for measure in measures)
    unread = any(flaw.code == UNREAD for flaw in of_page)
    taken_back = any(one.number > place.at and one.flaw.code == HELD_CODE for one in after)
    trees = _trees(tried, line.subjects, event) if event is not None else ()
    if event is None or event.held or taken_back or unread or line.wrong or not trees:
        kept = (line.act,) if line.act else ()
        asked = _once(asks)
        read = AsRead(line.subjects, line.act, (), "", (), kept, "", asked, spoken, money)
        return tried, read
    # One line may tell of several acts.
    more = tuple(one.written for one in events[1:])
    read = AsRead(
        line.subjects,
        line.act,
        trees,
        event.act,
        (*_details(journal, event), *more),
        tuple(dict.fromkeys(words for one in events for words in one.kept)),
        event.remark,
        _once(asks),
        spoken,
        money,
    )
    return tried, read


def _asked(flaw: Flaw) -> AskedBack:
    return AskedBack(flaw.message, flaw.hint)


def _once(asks: Sequence[AskedBack]) -> tuple[AskedBack, ...]:
    return tuple(dict.fromkeys(asks))


def _trees(session: Session, subjects: str, event: Event) -> tuple[str, ...]:
    """The handles of those in whose history the line stands."""
    read = session.journal.details.subjects(subjects)
    if isinstance(read, Flaw):
        return ()
    if not read.left_out and all(item.by == "handle" for item in read.chosen):
        things = [session.journal.things.find(item.words) for item in read.chosen]
        if all(thing is not None and thing.kind != "group" for thing in things):
            return tuple(dict.fromkeys(thing.handle for thing in things if thing is not None))
    at = event.origin
    return tuple(
        handle
        for handle, tree in session.histories.trees.items()
        if any(
            entry.event.line == at.line and entry.event.file == at.file for entry in tree.entries
        )
    )


def _details(journal: Journal, event: Event) -> tuple[str, ...]:
    """The details of an act, each as it is written."""
    reading = journal.details.of(event.row, event.text)
    pieces = [
        event.text[start + detail.offset : start + detail.offset + detail.length]
        for detail, start in zip(reading.details, reading.starts, strict=True)
    ]
    named = (reading.named,) if reading.named else ()
    return (*named, *(piece for piece in pieces if piece))
