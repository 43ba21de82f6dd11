"""What wants doing on a day: what is late, what can be done now, what comes, and what is later.

What is most at stake stands first, then what closes first. One thing that is looked at is one
line, and what may be done on the trees of one kind stands once, under its best week.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from datetime import date, timedelta
from functools import partial
from operator import attrgetter
from typing import TypeVar

from backbud.collection.on_tree import TAKEN_OFF_BY
from backbud.collection.state import Tree
from backbud.plan.followups import OPEN, FollowUp, State, waits_for_its_week
from backbud.plan.run import Plan
from backbud.species.weight import rank_of
from backbud.tongue import as_named, phrase
from backbud.views.work import Stand, WorkView, work_views
from backbud.words import monday_of
from backbud_grammar.act_words import ActWord

T = TypeVar("T")
# How much it matters, the day, the title and the id.
Urgency = tuple[tuple[int, bool], int, str, str]

# So far ahead the weather that a work waits on is told with it.
WEEKS_AHEAD = 6
# Further ahead than anything is asked for.
FAR = timedelta(days=36500)
# What closes later than so long after the first of a round is a round of its own; ours.
ONE_ROUND = timedelta(weeks=4)
# How long a settled work is still told of.
SETTLED_DAYS = 365
# What is done to all that is there of a thing at one time.
_OF_THINGS: frozenset[ActWord] = frozenset({"checked", *TAKEN_OFF_BY.values()})


def works_of(
    plans: Iterable[FollowUp], tree: Tree, names: Mapping[str, str], today: date
) -> tuple[WorkView, ...]:
    """The follow-ups of a tree as they are shown on a day, in the same order."""
    return tuple(work_views([(one, one.stand_on(today)) for one in plans], tree, names, today))


def open_works_of(
    plans: Iterable[FollowUp], tree: Tree, names: Mapping[str, str], today: date
) -> tuple[WorkView, ...]:
    """Those of a tree's follow-ups that still want doing, as they are shown on a day."""
    # What is settled for good is not asked how it stands.
    stands = [(one, one.stand_on(today)) for one in plans if one.outcome == "open"]
    still = [one for one in stands if one[1][0] in OPEN]
    return tuple(work_views(still, tree, names, today))


def told_works_of(
    plans: Iterable[FollowUp], tree: Tree, names: Mapping[str, str], today: date
) -> tuple[WorkView, ...]:
    """Those of a tree's follow-ups that still want doing, or were settled within a year."""
    since = today - timedelta(days=SETTLED_DAYS)
    told: list[tuple[FollowUp, Stand]] = []
    for one in plans:
        outcome = one.outcome
        if outcome == "open":
            stand = one.stand_on(today)
            if stand[0] in OPEN:
                told.append((one, stand))
        elif outcome == "done" or outcome == "skipped":
            settled = one.settled
            if (one.window.closes if settled is None else settled.when.first) >= since:
                told.append((one, (outcome, one.window)))
    return tuple(work_views(told, tree, names, today))


def all_works(plan: Plan, names: Mapping[str, str], today: date) -> Iterator[WorkView]:
    """Every follow-up of every tree of a plan as it is shown on a day."""
    for handle, those in plan.follow_ups.items():
        yield from works_of(those, plan.trees[handle], names, today)


def stands_under(work: WorkView, today: date) -> State:
    """Under which heading a work stands: it comes until its best week is here, or near."""
    if work.state != "now":
        return work.state
    waits = waits_for_its_week(
        work.single, work.weight, work.is_promise, work.state, work.best, today
    )
    return "coming" if waits else work.state


def urgency(work: WorkView) -> Urgency:
    """What is most at stake first, then what closes first. Of what is past, what closed last: it
    can still be made good, and nothing stands first for its age."""
    day = work.closes.toordinal()
    late = work.state in ("overdue", "promised")
    return work.rank, -day if late else day, work.title, work.id


def is_near(work: WorkView, today: date) -> bool:
    """Whether its best day lies within the next six weeks."""
    return work.best < near_until(today)


def near_until(today: date) -> date:
    """The first day that is no longer within the next six weeks."""
    return monday_of(today) + timedelta(weeks=WEEKS_AHEAD)


def settled_works(works: Iterable[WorkView], today: date) -> tuple[WorkView, ...]:
    """What was done or skipped within a year, the latest first."""
    since = today - timedelta(days=SETTLED_DAYS)
    settled = [one for one in works if one.state in ("done", "skipped")]
    recent = [one for one in settled if one.settled_on >= since]
    return tuple(sorted(recent, key=attrgetter("settled_on"), reverse=True))


def due(works: Iterable[WorkView], today: date, within: timedelta) -> tuple[WorkView, ...]:
    """What is late, can be done now, or begins within so many days, and what was promised: what is
    most at stake first, then what closes first; what comes by its week before that."""
    last = today + within
    asked = [
        one
        for one in works
        if (one.state == "coming" and one.opens <= last)
        or one.state in ("overdue", "now", "promised")
    ]
    return tuple(sorted(asked, key=partial(due_order, today=today)))


def due_order(one: WorkView, today: date) -> tuple[object, ...]:
    """What is to be done now before what comes, by its week, before what was promised long ago; of
    these what is most at stake first, then what closes first."""
    stand = one.state if one.state != "now" else stands_under(one, today)
    rank = rank_of(one.at_stake, one.must)
    if stand == "coming":
        return 1, monday_of(one.best), rank, one.closes, one.tree, one.id
    return 2 if stand == "promised" else 0, date.min, rank, one.closes, one.tree, one.id


def open_first(works: Iterable[WorkView], today: date) -> tuple[WorkView, ...]:
    """What is open, what matters most first; then what is settled, the latest first."""
    some = list(works)
    return (
        *sorted((one for one in some if one.is_open), key=lambda one: due_order(one, today)),
        *sorted(
            (one for one in some if not one.is_open),
            key=attrgetter("settled_on", "id"),
            reverse=True,
        ),
    )


def works_called(ident: str, works: Iterable[WorkView]) -> tuple[WorkView, ...]:
    """The work of this id; else every one whose id holds what was written."""
    some = tuple(works)
    exact = tuple(one for one in some if one.id == ident)
    return exact or tuple(one for one in some if ident in one.id)


def works_named(words: Sequence[str], works: Iterable[WorkView]) -> tuple[WorkView, ...]:
    """The works of a name: each of the words begins one of the title, or is its act (`repot`,
    `untie ties`)."""
    asked = [word.casefold() for word in words]
    return tuple(one for one in works if all(_is_in_name(word, one) for word in asked))


def _is_in_name(word: str, work: WorkView) -> bool:
    return word == work.act or any(part.startswith(word) for part in work.title.casefold().split())


def rounds(some: Iterable[WorkView], *, by_days: bool = False) -> list[list[WorkView]]:
    """The works that are one line, each in one, in the order of the first of each: looks at one
    thing on a tree, or taking it off, whatever its parts; the same work of several trees; and what
    may be done on the trees of one kind or of several. What closes weeks after the first is a round
    of its own. `by_days`: only where they have the same days."""
    things: dict[object, list[WorkView]] = {}
    for one in some:
        things.setdefault(_thing(one), []).append(one)
    found: dict[object, list[WorkView]] = {}
    for those in things.values():
        found.setdefault(_alike(those[0], by_days), []).extend(those)
    of_kinds: dict[object, list[WorkView]] = {}
    for key, those in found.items():
        of_kinds.setdefault(_of_any_kind(those[0], key, by_days), []).extend(those)
    return [
        some for those in of_kinds.values() for some in closing_together(those, lambda one: one)
    ]


def closing_together(those: list[T], work: Callable[[T], WorkView]) -> Iterator[list[T]]:
    """A round parted by when its works close, so that its bounds lie near one another; what is on
    one tree stays together. `work`: of each."""
    first = min(work(one).closes for one in those)
    near = {work(one).tree for one in those if work(one).closes - first <= ONE_ROUND}
    yield [one for one in those if work(one).tree in near]
    later = [one for one in those if work(one).tree not in near]
    if later:
        yield from closing_together(later, work)


def plain_title(work: WorkView) -> str:
    """What is to be done, without the part of the tree that it is done to."""
    return (
        work.title.removesuffix(phrase(" on {part}", part=work.part)) if work.part else work.title
    )


def joint_title(some: Sequence[WorkView]) -> str:
    """The title of works that are one line: `check wire on left 1 and left 2`; of several trees,
    without the parts."""
    first = some[0]
    plain = list(dict.fromkeys(map(plain_title, some)))
    if len(plain) > 1:
        return _both(plain)
    if len({one.tree for one in some}) > 1:
        return plain_title(first)
    parts = list(dict.fromkeys(one.part for one in some))
    ending = phrase(" on {part}", part=first.part)
    if len(parts) == 1 or not first.title.endswith(ending):
        return first.title
    title = first.title.removesuffix(ending)
    if "" in parts:
        return title
    *others, last = map(as_named, parts)
    return phrase(
        "{title} on {others} and {last}", title=title, others=", ".join(others), last=last
    )


def _both(titles: Sequence[str]) -> str:
    """Titles of one look at several things: what they have alike before a colon once."""
    about = {title.partition(": ")[0] for title in titles}
    if len(about) > 1:
        return "; ".join(titles)
    return f"{about.pop()}: {'; '.join(title.partition(': ')[2] for title in titles)}"


def _thing(one: WorkView) -> object:
    """What is one thing on a tree: what a look, or a taking off, at one time settles."""
    if one.planned:
        # Written down twice, it is one promise.
        return one.tree, one.act, one.title, one.opens, one.closes
    if one.act not in _OF_THINGS or not one.single:
        return one.id
    return one.tree, one.act, one.settled_by


def _of_any_kind(one: WorkView, key: object, by_days: bool) -> object:
    """What chances of one work have alike whatever the kind; `key`: of what is of one kind."""
    if not one.group:
        return key
    days = (one.opens, one.best, one.closes) if by_days else ()
    return one.act, plain_title(one), days, one.state


def _alike(one: WorkView, by_days: bool) -> object:
    """What works of one round have alike."""
    if one.group:
        return one.group, one.act, one.title
    days = (one.opens, one.best, one.closes, one.moved_from) if by_days else ()
    return one.act, plain_title(one), days
