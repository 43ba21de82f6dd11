"""Which act line settles a follow-up that was ticked off, found by trying it in the journal.

What a line does is not guessed: it is put into the journal as read, and the journal is planned
again. A note that reads as the act that was asked for is that line; any other is its remark.
"""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from msgspec.structs import replace

from backbud.jot.line import JotError, checked
from backbud.jot.placing import DiaryLine, DiaryPlace
from backbud.jot.style import Style
from backbud.jot.trial import known_on, page_of, with_page
from backbud.journal.dated import DatedPage
from backbud.journal.read import Journal
from backbud.plan.followups import FollowUp
from backbud.plan.run import Plan
from backbud.session import Session
from backbud_grammar.outline import Known, read_act_line
from backbud_grammar.own_words import expanded
from backbud_grammar.problems import Flaw
from backbud_grammar.tidy import COLUMN, GAP, INDENT

# More than anybody writes into a calendar; a journal's line holds ten thousand characters.
LONGEST_NOTE = 2000


class Bench:
    """A journal as read, on which lines are tried out; those that were taken stay on it."""

    def __init__(self, session: Session) -> None:
        journal = session.journal
        self._session = _again(session, journal.pages)
        # What is wrong in the journal already is of no matter here.
        self._wrong = len(self._session.impossible)

    def follow_up(self, follow_up: FollowUp) -> FollowUp | None:
        """The follow-up as it stands with the lines taken so far."""
        return _of(self._session.plan([follow_up.tree]), follow_up)

    def settle(
        self, follow_up: FollowUp, day: date, note: str, place: DiaryPlace
    ) -> DiaryLine | None:
        """Return the line that says most and settles the follow-up, and take it; None if none does.

        A line that makes a problem is none.
        """
        journal = self._session.journal
        said = act_in(note, follow_up, journal, day)
        said = said or act_heard_in(note, follow_up, journal, day, place)
        if said:
            line = DiaryLine(follow_up.tree, day, said)
            if self._takes(line, follow_up, place, whole=True):
                return line
        for details in candidates(follow_up):
            line = DiaryLine(follow_up.tree, day, written_line(follow_up.act, details, note))
            if self._takes(line, follow_up, place, whole=False):
                return line
        return None

    def _takes(
        self, line: DiaryLine, follow_up: FollowUp, place: DiaryPlace, *, whole: bool
    ) -> bool:
        """Whether a line settles the follow-up and makes no problem; then it stays. `whole`: every
        word of it must have been used."""
        tried, page, flaws = _with(self._session, line, place)
        kept = any(event.kept for block in page.blocks for event in block.events)
        wrong = len(flaws) + len(tried.impossible)
        if wrong > self._wrong or (whole and (flaws or kept)):
            return False
        if not _settles(tried, follow_up, line.day):
            return False
        self._session = tried
        return True


def act_in(note: str, follow_up: FollowUp, journal: Journal, day: date) -> str:
    """The act line of a note that begins with an act that settles the follow-up, or ""; the tree's
    handle may stand in front."""
    text = _without_handle(note, follow_up, journal)
    if not text:
        return ""
    known = known_on(journal, day)
    act = read_act_line(text, 0, known)
    own = expanded(act, journal.own_words.on(day), Known.of(journal.acts))
    row = journal.acts.get((own.act if own is not None else act).word.casefold())
    is_it = row is not None and row.word in _settling(follow_up)
    return Style().line(text, known) if is_it else ""


def act_heard_in(
    note: str, follow_up: FollowUp, journal: Journal, day: date, place: DiaryPlace
) -> str:
    """The line of a note in the bench's own words (`uekae done, btm 1/3`) of which the first act
    settles the follow-up and nothing is left to ask, or ""; what ends a tree must be named."""
    text = _without_handle(note, follow_up, journal)
    if not text:
        return ""
    page, flaws = page_of(journal, day, f"{follow_up.tree}\n{INDENT}{text}\n", place)
    events = [event for block in page.blocks for event in block.events]
    settling = _settling(follow_up)
    is_it = bool(events) and not flaws and events[0].act in settling
    return (
        f"{INDENT}{text}"
        if is_it
        and all(event.act in settling or event.row.bearing != "ends" for event in events)
        and not any(event.held or event.kept for event in events)
        else ""
    )


def _settling(follow_up: FollowUp) -> set[str]:
    return {follow_up.act, *(wanted.split()[0] for wanted in follow_up.settled_by)}


def _without_handle(note: str, follow_up: FollowUp, journal: Journal) -> str:
    """The note on one line, without the tree's handle in front; "" where no diary could have it."""
    try:
        text = checked(note)
    except JotError:
        return ""
    first, _, rest = text.partition(" ")
    thing = journal.things.find(first.rstrip(":"))
    is_tree = thing is not None and thing.handle == follow_up.tree
    return rest.strip() if is_tree else text


def written_line(act: str, details: str, note: str) -> str:
    """An act line as `backbud tidy` would leave it."""
    if len(note) > LONGEST_NOTE:
        note = f"{note[:LONGEST_NOTE].rsplit(' ', 1)[0]}…"
    lead = f"{INDENT}{act}"
    rest = " ".join(filter(None, (details, f"-- {note}" if note else "")))
    return f"{lead:<{COLUMN - GAP}}{' ' * GAP}{rest}".rstrip() if rest else lead


def candidates(follow_up: FollowUp) -> Iterator[str]:
    """The details that may stand behind the act, from the fullest to none.

    What is to be done is often said in the diary's own words.
    """
    words = [
        wanted.partition(" ")[2]
        for wanted in follow_up.settled_by
        if wanted.split()[0] == follow_up.act
    ]
    on = f"on {follow_up.part}" if follow_up.part else ""
    found = [follow_up.what, *(f"{word} {on}".strip() for word in words), *words, on]
    yield from dict.fromkeys((*found, follow_up.to_place, ""))


def _with(
    session: Session, line: DiaryLine, place: DiaryPlace
) -> tuple[Session, DatedPage, tuple[Flaw, ...]]:
    """The session of a journal that has one line more, its page, and what is wrong in it."""
    page, flaws = page_of(session.journal, line.day, f"{line.tree}\n{line.text}\n", place)
    return _again(session, with_page(session.journal.pages, page)), page, flaws


def _again(session: Session, pages: tuple[DatedPage, ...]) -> Session:
    """The session with these pages."""
    again = Session(replace(session.journal, pages=pages), session.today)
    # The weather is the same, and reading it takes time.
    again.weather = session.weather
    return again


def _settles(session: Session, follow_up: FollowUp, day: date) -> bool:
    """Whether it is done on that day; of a tree that went with it nothing is asked any more."""
    plan = session.plan([follow_up.tree])
    found = _of(plan, follow_up)
    if found is None:
        return not plan.trees[follow_up.tree].here
    return found.outcome == "done" and found.settled is not None and found.settled.day == day


def _of(plan: Plan, follow_up: FollowUp) -> FollowUp | None:
    return next((f for f in plan.all() if f.id == follow_up.id), None)
