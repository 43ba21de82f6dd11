"""Follow-ups come in; the rows of what wants doing come out, sorted and grouped by day."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from datetime import date, timedelta
from functools import partial
from itertools import groupby

from msgspec import Struct

from backbud import words
from backbud.collection.state import Tree
from backbud.pages.links import anchor_of, link, tree_page
from backbud.pages.view import Nursery
from backbud.plan.followups import FollowUp, Reason, ReasonSort, State
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
    """One work to do: what, on which tree, until when, how long, why, and what to beware of."""

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


class Group(Struct, frozen=True):
    """Rows under one heading; `total` counts them and adds up their minutes."""

    heading: str
    total: str
    rows: tuple[Row, ...]


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


Pair = tuple[FollowUp, Tree]
RowOf = Callable[[FollowUp, Tree], Row]
GroupOf = Callable[[str, list[Pair]], Group]


def board(view: Nursery, trees: Iterable[Tree], group_of: GroupOf | None = None) -> Board:
    """Lay out the open follow-ups of these trees on the view's day.

    `group_of`: gives the group of these follow-ups, where it need not be made anew.
    """
    today = view.today
    group_of = group_of or partial(group, partial(row, view))
    by_state: dict[State, list[Pair]] = {"overdue": [], "now": [], "coming": []}
    for tree in trees:
        for plan in view.plans.get(tree.handle, ()):
            state = plan.state(today)
            if state in by_state:
                by_state[state].append((plan, tree))
    horizon = _horizon(today)
    coming = sorted(by_state["coming"], key=_by_best)
    near = [pair for pair in coming if pair[0].window.best < horizon]
    later = coming[len(near) :]
    overdue = sorted(by_state["overdue"], key=_by_last_day)
    now = sorted(by_state["now"], key=_by_last_day)
    return Board(
        group_of("Overdue", overdue),
        group_of("Now", now),
        _grouped(near, group_of, words.monday_of, lambda monday: words.week(monday, today)),
        _grouped(later, group_of, _first_of_month, lambda first: words.month(first, today.year)),
        (len(overdue), len(now), len(near), len(later)),
        sum(1 for plan, _ in later if waits_on_weather(plan, today)),
    )


def _horizon(today: date) -> date:
    return words.monday_of(today) + timedelta(weeks=WEEKS_AHEAD)


def _by_last_day(pair: Pair) -> tuple[date, date, str, str]:
    window = pair[0].window
    return window.closes, window.best, pair[1].title, pair[0].id


def _by_best(pair: Pair) -> tuple[date, date, str, str]:
    window = pair[0].window
    return window.best, window.closes, pair[1].title, pair[0].id


def _first_of_month(day: date) -> date:
    return day.replace(day=1)


def _grouped(
    pairs: list[Pair],
    group_of: GroupOf,
    start_of: Callable[[date], date],
    heading_of: Callable[[date], str],
) -> tuple[Group, ...]:
    """Group what is sorted by its best day under headings."""
    return tuple(
        group_of(heading_of(start), list(members))
        for start, members in groupby(pairs, lambda pair: start_of(pair[0].window.best))
    )


def group(row_of: RowOf, heading: str, pairs: list[Pair]) -> Group:
    """These works under a heading; `row_of`: gives the row of each."""
    minutes = sum(plan.minutes for plan, _ in pairs)
    total = words.number(len(pairs), "work")
    if minutes:
        total += f", {words.minutes(minutes)}"
    return Group(heading, total, tuple(row_of(plan, tree) for plan, tree in pairs))


def row(view: Nursery, plan: FollowUp, tree: Tree) -> Row:
    """One work as it is shown; from the view only the day and the names."""
    today = view.today
    state = plan.state(today)
    return Row(
        state,
        _mark(plan.window, state, today),
        words.sentence(plan.title),
        tree.title,
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
