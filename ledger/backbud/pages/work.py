"""Lays out the works of a tree for its page: what, when, why, and what was done with."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from datetime import date, timedelta
from functools import lru_cache

from msgspec import Struct

from backbud import words
from backbud.pages.drawings.window_line import DAYS, window_line
from backbud.pages.links import anchor_of
from backbud.pages.told_once import Cautioned, cautions_once, reasons_once
from backbud.plan.followups import Reason, ReasonSort, State
from backbud.plan.waits import WAITS
from backbud.species import Window
from backbud.tongue import phrase, spoken
from backbud.views.day import is_near, joint_title, plain_title
from backbud.views.reasoned import keeps_reason
from backbud.views.work import WorkView
from backbud_grammar.act_words import ActWord

# So many works stand open on a tree's page; the others are unfolded.
NEXT_WORKS = 3
LONGEST_UNBROKEN = 24
NO_BREAK = "\N{NO-BREAK SPACE}"
# What a page calls each sort of reason.
REASON_LABELS: dict[ReasonSort, str] = {
    "diary": "written",
    "season": "season",
    "rule": "rule",
    "datum": "reckoned",
    "plan": "planned",
}


class Row(Struct, frozen=True, gc=False):
    """One work on its tree's page: what, when, for how long, its window drawn where it is near,
    why, and what to beware of."""

    state: State
    task: str
    by: str
    line: str
    notes: tuple[str, ...]
    because: tuple[Reason, ...]
    care: Cautioned
    anchor: str


class Further(Struct, frozen=True, gc=False):
    """A work that only opens later: what, and when, in one line."""

    task: str
    when: str
    anchor: str


class Open(Struct, frozen=True):
    """The open works of a tree on its page: those that are `next`, what else stands there with its
    whole reason, and what is `further` ahead, by its best days."""

    next: tuple[Row, ...]
    more: tuple[Row, ...]
    further: tuple[Further, ...]


class Settled(Struct, frozen=True, gc=False):
    """Work that is done with: what, how, when and what was said."""

    outcome: State
    task: str
    day: str
    remark: str
    at: str


def works_on_page(due: Sequence[WorkView], today: date) -> Open:
    """Lay out the open works of a tree, the first first."""
    told, further = list(due[:NEXT_WORKS]), list[WorkView]()
    for work in due[NEXT_WORKS:]:
        (told if keeps_reason(work) else further).append(work)
    rows = [
        _row(work, today, at < NEXT_WORKS, because, care)
        for at, (work, because, care) in enumerate(
            zip(told, reasons_once(told), cautions_once(told), strict=True)
        )
    ]
    further.sort(key=lambda one: (one.best, one.closes, one.id))
    language = spoken()
    return Open(
        tuple(rows[:NEXT_WORKS]),
        tuple(rows[NEXT_WORKS:]),
        tuple([_further(one, today, language) for one in further]),
    )


def _row(
    work: WorkView, today: date, drawn: bool, because: tuple[Reason, ...], care: Cautioned
) -> Row:
    """One work as it is shown on its tree's page. `drawn`: its window too, where it is near."""
    is_drawn = drawn and work.opens - timedelta(DAYS) <= today
    days = work.opens, work.best, work.closes
    return Row(
        work.state,
        words.sentence(work.title),
        _by_when(work.act, work.state, days, work.minutes, today, spoken()),
        window_line(work, today, work.state == "overdue") if is_drawn else "",
        _notes(work, today),
        because,
        care,
        anchor_of(work.id),
    )


def _further(work: WorkView, today: date, language: str) -> Further:
    days = work.opens, work.best, work.closes
    return Further(
        words.sentence(work.title), _in_one_line(days, today, language), anchor_of(work.id)
    )


# The first, the best and the last day of a window.
_Days = tuple[date, date, date]


@lru_cache(maxsize=16384)
def _in_one_line(days: _Days, today: date, language: str) -> str:
    """`best 26 April 2027, 5 April to 10 May`: the year once, where it is that of all its days."""
    window = Window(*days)
    best = phrase("best {day}", day=words.day(window.best, today.year))
    if window.opens == window.closes:
        return words.when_coming(window, today)
    return f"{best}, {words.between(window.opens, window.closes, window.best.year)}"


def kept_together(part: str) -> str:
    """A short part of what a row says with no place to break it; a long one may be broken."""
    return part.replace(" ", NO_BREAK) if len(part) <= LONGEST_UNBROKEN else part


# The same works fall due on the same days of many trees.
@lru_cache(maxsize=16384)
def _by_when(
    act: ActWord, state: State, days: _Days, minutes: int, today: date, language: str
) -> str:
    return ", ".join(map(kept_together, _by(act, state, Window(*days), minutes, today)))


def _by(act: ActWord, state: State, window: Window, minutes: int, today: date) -> Iterator[str]:
    """The day that counts first: the last one, or the best of what comes."""
    year = today.year
    if state in ("overdue", "promised"):
        yield phrase("was due {closes}", closes=words.day(window.closes, year))
        yield from words.when_late(window, today).split(", ")
    elif state == "now":
        yield words.closing(act, window, today)
        yield from words.when_now(window, today).split(", ")
    else:
        yield phrase("best {day}", day=words.day(window.best, year))
        yield words.when_coming(window, today)
    if minutes:
        yield words.minutes(minutes)


def _notes(work: WorkView, today: date) -> tuple[str, ...]:
    # Nearly all that lies further ahead waits: there it is said once, for all of it.
    waits = work.waits_on_weather and is_near(work, today)
    if not (waits or work.planned or work.said or work.moved_from):
        return ()
    notes = [phrase("planned by you")] if work.planned else []
    if work.said:
        notes.append(work.said)
    if waits:
        notes.append(phrase(WAITS))
    if work.moved_from:
        old = work.moved_from
        notes.append(
            phrase(
                "put off, was {between}", between=words.between(old.opens, old.closes, today.year)
            )
        )
    return tuple(notes)


def settled_rows(works: Iterable[WorkView], today: date) -> tuple[Settled, ...]:
    """Works that were done or skipped, in their order. What one line settled of one work, on
    several parts of the tree, is told once."""
    by_line: dict[tuple[object, ...], list[WorkView]] = {}
    for one in works:
        by = one.settled
        line = (
            (one.closes, one.state, one.id) if by is None else (by.day, one.state, by.file, by.line)
        )
        by_line.setdefault(line, []).append(one)
    return tuple(
        [_settled(alike, today) for those in by_line.values() for alike in _of_one_work(those)]
    )


def _of_one_work(works: list[WorkView]) -> Iterable[list[WorkView]]:
    """Works of one line by what they are, those that name a part of the tree apart from others."""
    if len(works) == 1:
        return (works,)
    alike: dict[tuple[str, bool], list[WorkView]] = {}
    for one in works:
        alike.setdefault((plain_title(one), bool(one.part)), []).append(one)
    return alike.values()


def _settled(works: Sequence[WorkView], today: date) -> Settled:
    first = works[0]
    by = first.settled
    task = words.sentence(first.title if len(works) == 1 else joint_title(works))
    if by is None:
        return Settled(first.state, task, words.day(first.closes, today.year), "", "")
    return Settled(first.state, task, words.day(by.day, today.year), by.remark, by.at)
