"""Reads what a list becomes as `check` would, once before it is written: what does not read as an
act becomes a note with all its words, what cannot be noted either is told and left out."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from datetime import date

from msgspec import Struct

from backbud.bring.gathered import BroughtLine
from backbud.bring.written_lines import AS_READ, AT_HOME, NOT_WRITTEN, LaidOut
from backbud.jot.placing import DiaryPlace
from backbud.jot.trial import page_of
from backbud.journal.find import Found
from backbud.journal.load import Loaded, loaded_from
from backbud.journal.own_past import UNREAD_LINE
from backbud.journal.problems import PlacedFlaw
from backbud.journal.read import Journal
from backbud.journal.source import FileSource
from backbud.session import Session, open_session
from backbud_grammar.dates import read_date
from backbud_grammar.problems import KEPT, Problem

# What `check` asks of a card that stands as it is: the keeper's to answer, and no slip of ours.
_MAY_STAND = frozenset(("unknown-species",))
_MOST_ROUNDS = 12
# As many levels as a line can fall, and once more for what only shows by then.
Layer = Callable[[list[int]], LaidOut]


class Checked(Struct, frozen=True):
    """The file as it reads without a problem. `levels`, `why`: of each line how far it was
    understood, and what was wrong with it. `asks`: the problems that `check` will tell once it
    lies there, in the file itself and of other lines."""

    laid: LaidOut
    levels: tuple[int, ...]
    why: Mapping[int, str]
    asks: tuple[Problem, ...]


class _WithFile:
    """The files of a journal, and one more that lies nowhere yet."""

    def __init__(self, source: FileSource, name: str, text: str) -> None:
        self._source, self._name, self._text = source, name, text

    def found(self) -> Found:
        found = self._source.found()
        return Found(tuple(sorted({*found.files, self._name})), found.passed_over)

    def loaded(self, name: str) -> Loaded:
        return loaded_from(self._text.encode()) if name == self._name else self._source.loaded(name)


def as_checked(
    before: Session,
    source: FileSource,
    name: str,
    lines: list[BroughtLine],
    home: str,
    layer: Layer,
) -> Checked:
    """Read the file that the layer lays out, until nothing in it is wrong any more.

    `before`: the journal without it. `name`: of the file. `home`: the handle of the home
    place, "" where there is none. `layer`: lays out by levels.
    """
    levels, why = [AS_READ] * len(lines), dict[int, str]()
    known = {_key(flaw) for flaw in _flaws(before)}
    other_acts = _OtherActs(before.journal, before.today)
    for n in range(_MOST_ROUNDS):
        laid = layer(levels)
        session = _opened(before, _WithFile(source, name, laid.text))
        flaws = [one for one in _flaws(session) if _key(one) not in known]
        ours = [one for one in flaws if one.file == name]
        wrong = dict(_wrong(ours, laid, lines, levels, other_acts))
        if not wrong:
            break
        for at, message in wrong.items():
            level = _next(lines[at], levels[at])
            is_last = n >= _MOST_ROUNDS - 2 or (level == AT_HOME and not home)
            levels[at] = NOT_WRITTEN if is_last else level
            why.setdefault(at, message)
    told = {_place(one) for one in before.problems()}
    asks = [one for one in session.problems() if _place(one) not in told]
    return Checked(laid, tuple(levels), why, tuple(one for one in asks if one.severity != KEPT))


def _next(line: BroughtLine, level: int) -> int:
    if line.kind:
        # A card has no other place for its words than a note.
        return AT_HOME if level or line.note else level + 1
    return level + 2 if level == AS_READ and line.note else level + 1


def _opened(before: Session, source: FileSource) -> Session:
    return open_session(
        before.journal.folder, before.today, only_check=True, keeps=False, source=source
    )


def _flaws(session: Session) -> Iterator[PlacedFlaw]:
    yield from session.journal.flaws
    yield from session.impossible


def _key(one: PlacedFlaw) -> tuple[str, int, str, str]:
    return one.file, one.number, one.flaw.code, one.flaw.message


def _place(one: Problem) -> tuple[str, int, str, str]:
    return one.file, one.line, one.code, one.message


class _OtherActs:
    """Tells whether a column of details says by itself that something else was done. A list says
    the same again and again, so each is read once."""

    def __init__(self, journal: Journal, today: date) -> None:
        self._journal, self._today = journal, today
        self._told: dict[tuple[str, str], bool] = {}

    def told_by(self, line: BroughtLine) -> bool:
        key = line.text, line.details
        if line.details and key not in self._told:
            self._told[key] = self._read(line)
        return self._told.get(key, False)

    def _read(self, line: BroughtLine) -> bool:
        when = read_date(line.day)
        day = when.first if when.exact else self._today
        place = DiaryPlace("", 0, day, True)
        blocks = [f"{line.subject}\n  {text}\n" for text in (line.text, line.details)]
        (page, _), (other, flaws) = (page_of(self._journal, day, one, place) for one in blocks)
        if any(flaw.severity == KEPT and flaw.code == UNREAD_LINE for flaw in flaws):
            return False
        said = {event.said for block in page.blocks for event in block.events}
        return any(event.said not in said for block in other.blocks for event in block.events)


def _wrong(
    flaws: list[PlacedFlaw],
    laid: LaidOut,
    lines: list[BroughtLine],
    levels: list[int],
    other_acts: _OtherActs,
) -> Iterator[tuple[int, str]]:
    """The lines that are not to stand so, each with what is wrong. What is only kept as words may
    stand, unless it tells of another act than the line does."""
    for one in flaws:
        if one.flaw.code in _MAY_STAND or one.number in laid.heads:
            continue
        message = one.flaw.message
        for at in laid.owners.get(one.number, ()):
            if one.is_kept and one.flaw.code != UNREAD_LINE:
                if levels[at] != AS_READ or not other_acts.told_by(lines[at]):
                    continue
                message = f"“{lines[at].details}” tells of another act"
            yield at, message
