"""Follow-ups come in; the rows of what wants doing come out, sorted and grouped by day."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from datetime import date, timedelta
from itertools import groupby
from operator import attrgetter
from typing import Any, NamedTuple

from msgspec import Struct
from msgspec.structs import replace

from backbud import words
from backbud.collection.state import Tree
from backbud.pages.links import anchor_of, link, tree_page
from backbud.pages.view import Nursery
from backbud.plan.followups import FollowUp, Reason, ReasonSort, State
from backbud.plan.rounds import rounds
from backbud.plan.waits import WAITS, waits_on_weather
from backbud.species import Window

# How far ahead the coming works are laid out by week.
WEEKS_AHEAD = 6
# How long a settled work is still told of.
SETTLED_DAYS = 365

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


class Row(Struct, frozen=True):
    """One work to do: what, on which tree, until when, how long, why, and what to beware of.

    `round`: the trees of which one line of the diary asks it, where there are several; then `tree`
    tells how many.
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


class OfRound(Struct, frozen=True):
    """A tree of a round: what it is called, where it stands, its page and the work on it."""

    tree: str
    place: str
    page: str
    anchor: str


class Group(Struct, frozen=True):
    """Rows under one heading, as they are shown; `total` counts them and adds up their minutes."""

    heading: str
    total: str
    rows: tuple[Any, ...]


class Board(Struct, frozen=True):
    """Everything that wants doing: what is late, what can be done now, what comes, and later.

    `later_waits`: how many of those later wait on the weather.
    """

    overdue: Group
    now: Group
    coming: tuple[Group, ...]
    later: tuple[Group, ...]
    counts: tuple[int, int, int, int]
    later_waits: int = 0


class Settled(Struct, frozen=True):
    """A work that is done with: what, how, when and what was said."""

    outcome: str
    task: str
    day: str
    iso: str
    remark: str
    at: str


class Item(NamedTuple):
    """An open work, as the board sorts it: by what it stands under, its days, its tree and its id.

    `waits`: on the weather. `shown`: its row. `plan`: the work itself.
    """

    under: date
    first: date
    second: date
    tree: str
    id: str
    minutes: int
    waits: bool
    shown: Any
    plan: FollowUp


class Items(NamedTuple):
    """Open works by how they stand: late, to be done now, in the weeks ahead, and later."""

    overdue: Sequence[Item]
    now: Sequence[Item]
    near: Sequence[Item]
    later: Sequence[Item]


def items(view: Nursery, tree: Tree, show: Callable[[FollowUp], object]) -> Items:
    """The open follow-ups of a tree on the view's day, in order. `show`: makes the row of each."""
    found = Items([], [], [], [])
    for plan in view.plans.get(tree.handle, ()):
        stand = _stand(plan, view.today)
        if stand is None:
            continue
        window = plan.window
        days = (window.best, window.closes)
        if stand in ("overdue", "now"):
            days, under = (window.closes, window.best), view.today
        else:
            under = (_first_of_month if stand == "later" else words.monday_of)(window.best)
        waits = waits_on_weather(plan, view.today)
        item = Item(under, *days, tree.title, plan.id, plan.minutes, waits, show(plan), plan)
        getattr(found, stand).append(item)
    return Items(*map(sorted, found))


def _stand(plan: FollowUp, today: date) -> str | None:
    """Where on the board a follow-up stands; None where it is not open."""
    state = plan.state(today)
    if state == "coming":
        return "near" if plan.window.best < _horizon(today) else "later"
    return state if state in ("overdue", "now") else None


# The row of several works that are one round.
Together = Callable[[Sequence[Item]], Any]


def board(found: Items, today: date, together: Together | None = None) -> Board:
    """Lay out open works, each sort of them in order. Counts are of works.

    `together`: makes the one row of a round; where it is None each work has its own.
    """
    return Board(
        _group("Overdue", found.overdue, together),
        _group("Now", found.now, together),
        _grouped(found.near, lambda monday: words.week(monday, today), together),
        _grouped(found.later, lambda first: words.month(first, today.year), together),
        (len(found.overdue), len(found.now), len(found.near), len(found.later)),
        sum(item.waits for item in found.later),
    )


def _horizon(today: date) -> date:
    return words.monday_of(today) + timedelta(weeks=WEEKS_AHEAD)


def _first_of_month(day: date) -> date:
    return day.replace(day=1)


def _grouped(
    found: Iterable[Item], heading_of: Callable[[date], str], together: Together | None
) -> tuple[Group, ...]:
    return tuple(
        _group(heading_of(under), list(members), together)
        for under, members in groupby(found, attrgetter("under"))
    )


def _group(heading: str, found: Sequence[Item], together: Together | None) -> Group:
    """These works under a heading."""
    minutes = sum(item.minutes for item in found)
    total = words.number(len(found), "work")
    if minutes:
        total += f", {words.minutes(minutes)}"
    if together is None:
        return Group(heading, total, tuple(item.shown for item in found))
    some = rounds(found, attrgetter("plan"))
    rows = (those[0].shown if len(those) == 1 else together(those) for those in some)
    return Group(heading, total, tuple(rows))


def row(view: Nursery, plan: FollowUp, tree: Tree) -> Row:
    """One work as it is shown; from the view only the day and the names."""
    today = view.today
    state = plan.state(today)
    return Row(
        state,
        _mark(plan.window, state, today),
        words.sentence(plan.title),
        words.beside(plan.title, tree.title, tree.handle),
        link(tree_page(tree.handle)),
        view.name(tree.place),
        words.sentence(_when(plan.window, state, today)),
        words.minutes(plan.minutes) if plan.minutes else "",
        _notes(plan, today),
        tuple(_because(reason) for reason in plan.because),
        _shortest(plan.because),
        plan.cautions,
        anchor_of(plan.id),
    )


def round_row(view: Nursery, plans: Sequence[FollowUp], trees: Mapping[str, Tree]) -> Row:
    """The row of works that one line of the diary asks of several trees."""
    one = row(view, plans[0], trees[plans[0].tree])
    minutes = sum(plan.minutes for plan in plans)
    return replace(
        one,
        tree=words.number(len(plans), "tree"),
        place="",
        minutes=words.minutes(minutes) if minutes else "",
        round=tuple(_of_round(view, plan, trees[plan.tree]) for plan in plans),
    )


def _of_round(view: Nursery, plan: FollowUp, tree: Tree) -> OfRound:
    page = link(tree_page(tree.handle))
    return OfRound(tree.title, view.name(tree.place), page, anchor_of(plan.id))


def _shortest(because: tuple[Reason, ...]) -> str:
    """The one reason that a row has room for: the diary line, else the rule, not its season."""
    told = (reason.text for reason in because if reason.sort != "season")
    return next(told, because[0].text if because else "")


def _because(reason: Reason) -> Because:
    at = str(reason.origin) if reason.origin else ""
    return Because(_REASON_LABELS[reason.sort], reason.text, at)


def _mark(window: Window, state: State, today: date) -> Mark:
    """The margin tells the date that counts: the last day, or the best day of what comes."""
    word, day = {
        "overdue": ("was due", window.closes),
        "now": ("until", window.closes),
    }.get(state, ("best", window.best))
    return Mark(word, str(day.day), words.month(day, today.year), day.isoformat())


def _when(window: Window, state: State, today: date) -> str:
    if state == "overdue":
        return words.when_late(window, today)
    return (words.when_now if state == "now" else words.when_coming)(window, today)


def _notes(plan: FollowUp, today: date) -> tuple[str, ...]:
    notes = ["planned by you"] if plan.planned else []
    # Nearly all that lies further ahead does: there it is said once, for all of it.
    if plan.window.best < _horizon(today) and waits_on_weather(plan, today):
        notes.append(WAITS)
    if plan.moved_from:
        old = plan.moved_from
        notes.append(f"put off, was {words.between(old.opens, old.closes, today.year)}")
    return tuple(notes)


def settled(view: Nursery, tree: Tree) -> tuple[Settled, ...]:
    """What was done or skipped on a tree within a year, the latest first."""
    since = view.today - timedelta(days=SETTLED_DAYS)
    plans = [p for p in view.plans.get(tree.handle, ()) if p.outcome in ("done", "skipped")]
    recent = sorted((p for p in plans if _settled_on(p) >= since), key=_settled_on, reverse=True)
    return tuple(_settled(plan, view.today) for plan in recent)


def _settled_on(plan: FollowUp) -> date:
    return plan.settled.day if plan.settled else plan.window.closes


def _settled(plan: FollowUp, today: date) -> Settled:
    on, event = _settled_on(plan), plan.settled
    return Settled(
        plan.outcome,
        words.sentence(plan.title),
        words.day(on, today.year),
        on.isoformat(),
        event.remark if event else "",
        str(event.origin) if event else "",
    )
