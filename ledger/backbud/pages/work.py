"""Lays out what wants doing: its rows, and the headings they stand under."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Sequence
from datetime import date
from typing import Any

from msgspec import Struct
from msgspec.structs import replace

from backbud import words
from backbud.pages.links import anchor_of, link, tree_page
from backbud.plan.followups import ReasonSort, State
from backbud.plan.waits import WAITS
from backbud.views.day import DayView, Together, is_near, joint_title
from backbud.views.work import ReasonView, WorkView

_REASON_LABELS: dict[ReasonSort, str] = {
    "diary": "written",
    "season": "season",
    "rule": "rule",
    "datum": "reckoned",
    "plan": "planned",
}


class Mark(Struct, frozen=True):
    """The date in the margin: a word, the day and the month, and the day for machines."""

    word: str
    day: str
    month: str
    iso: str


class Because(Struct, frozen=True):
    """One link of the chain of reasons, and the line of the journal it stands on."""

    label: str
    text: str
    at: str


class OfRound(Struct, frozen=True):
    """A tree of a round: what it is called, where it stands, its page and the work on it."""

    tree: str
    place: str
    page: str
    anchor: str


class Row(Struct, frozen=True):
    """One work to do: what, on which tree, until when, how long, why, and what to beware of.

    `round`: the works that are one line, each by its tree, where there are several; then `tree`
    tells of how many trees they are.
    """

    state: State
    mark: Mark
    task: str
    tree: str
    page: str
    place: str
    when: str
    minutes: str
    notes: tuple[str, ...]
    because: tuple[Because, ...]
    reason: str
    cautions: tuple[str, ...]
    anchor: str
    round: tuple[OfRound, ...] = ()


class Group(Struct, frozen=True):
    """Rows under one heading, as they are shown; `total` counts them and adds up their minutes."""

    heading: str
    total: str
    rows: tuple[Any, ...]


class Board(Struct, frozen=True):
    """Everything that wants doing: what is late, what can be done now, what comes, and later.

    `counts`: of each. `later_waits`: how many of those later wait on the weather.
    """

    first: Group
    overdue: Group
    now: Group
    coming: tuple[Group, ...]
    later: tuple[Group, ...]
    promised: Group
    counts: tuple[int, int, int, int]
    later_waits: int = 0


class Settled(Struct, frozen=True):
    """A work that is done with: what, how, when and what was said."""

    outcome: State
    task: str
    day: str
    iso: str
    remark: str
    at: str


def board(view: DayView, today: date) -> Board:
    """A day's works under their headings."""
    coming = _groups(view.coming, lambda monday: words.week(monday, today))
    later = _groups(view.later, lambda first: words.month(first, today.year))
    late = view.overdue.works + view.first_late
    now = view.now.works + view.first.works - view.first_late
    counts = (late, now, _count(view.coming), _count(view.later))
    return Board(
        _group("A tree may die", view.first),
        _group("Overdue", view.overdue),
        _group("Now", view.now),
        coming,
        later,
        _group("Given word: close it or plan it again", view.promised),
        counts,
        view.later_waits,
    )


def _groups(found: tuple[Together, ...], heading_of: Callable[[date], str]) -> tuple[Group, ...]:
    return tuple(_group(heading_of(one.since), one) for one in found if one.since)


def _count(found: tuple[Together, ...]) -> int:
    return sum(one.works for one in found)


def _group(heading: str, found: Together) -> Group:
    """These works under a heading."""
    total = words.number(found.works, "work")
    if found.minutes:
        total += f", {words.minutes(found.minutes)}"
    return Group(heading, total, found.rows)


def row(work: WorkView, today: date) -> Row:
    """One work as it is shown."""
    return Row(
        work.state,
        _mark(work, today),
        words.sentence(work.title),
        words.beside(work.title, work.tree_name, work.tree),
        link(tree_page(work.tree)),
        work.place_name,
        words.sentence(_when(work, today)),
        words.minutes(work.minutes) if work.minutes else "",
        _notes(work, today),
        tuple(map(_because, work.reasons)),
        _shortest(work.reasons),
        work.cautions,
        anchor_of(work.id),
    )


def round_row(works: Sequence[WorkView], today: date) -> Row:
    """The row of works that are one line: of several trees, or of several parts of one."""
    minutes = sum(work.minutes for work in works)
    trees = Counter(work.tree for work in works)
    first = row(works[0], today)
    return replace(
        first,
        task=words.sentence(joint_title(works)),
        tree=words.number(len(trees), "tree") if len(trees) > 1 else first.tree,
        place="",
        minutes=words.minutes(minutes) if minutes else "",
        round=tuple(_of_round(work, trees[work.tree] > 1) for work in works),
    )


def _of_round(work: WorkView, one_of_several: bool) -> OfRound:
    """A tree of a round; `one_of_several`: works on it."""
    name = f"{work.tree_name}: {work.part or work.title}" if one_of_several else work.tree_name
    return OfRound(name, work.place_name, link(tree_page(work.tree)), anchor_of(work.id))


def _shortest(reasons: tuple[ReasonView, ...]) -> str:
    """The one reason that a row has room for: the diary line, else the rule, not its season."""
    told = (reason.text for reason in reasons if reason.sort != "season")
    return next(told, reasons[0].text if reasons else "")


def _because(reason: ReasonView) -> Because:
    return Because(_REASON_LABELS[reason.sort], reason.text, reason.at)


def _mark(work: WorkView, today: date) -> Mark:
    """The margin tells the date that counts: the last day, or the best day of what comes."""
    word, day = {
        "overdue": ("was due", work.closes),
        "promised": ("was due", work.closes),
        "now": ("until", work.closes),
    }.get(work.state, ("best", work.best))
    return Mark(word, str(day.day), words.month(day, today.year), day.isoformat())


def _when(work: WorkView, today: date) -> str:
    if work.state in ("overdue", "promised"):
        return words.when_late(work, today)
    return (words.when_now if work.state == "now" else words.when_coming)(work, today)


def _notes(work: WorkView, today: date) -> tuple[str, ...]:
    notes = ["planned by you"] if work.planned else []
    if work.said:
        notes.append(work.said)
    # Nearly all that lies further ahead does: there it is said once, for all of it.
    if work.waits_on_weather and is_near(work, today):
        notes.append(WAITS)
    if work.moved_from:
        old = work.moved_from
        notes.append(f"put off, was {words.between(old.opens, old.closes, today.year)}")
    return tuple(notes)


def settled(work: WorkView, today: date) -> Settled:
    """A work that was done or skipped."""
    on, by = work.settled_on, work.settled
    return Settled(
        work.state,
        words.sentence(work.title),
        words.day(on, today.year),
        on.isoformat(),
        by.remark if by else "",
        by.at if by else "",
    )
