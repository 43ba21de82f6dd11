"""What must be done at the bench today: one row a round, those at stake first, and where one walks.

A round is the same work wanted of several trees. What is still to come stands in the year.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from datetime import date, timedelta
from itertools import chain
from operator import attrgetter
from typing import Literal, NamedTuple

from msgspec import Struct

from backbud.views.ahead import Ahead
from backbud.views.day import Urgency, closing_together, plain_title, stands_under, urgency
from backbud.views.one_cold import one_cold
from backbud.views.sky import Frosts, Weather
from backbud.views.work import WorkView
from backbud.words import stays_on

Heading = Literal[
    "before all else",
    "past its time",
    "closes soon",
    "the round to look at",
    "not pressing",
    "given word",
]
ByHeading = dict[Heading, list[list["AtBench"]]]
# As they stand on the page.
HEADINGS: tuple[Heading, ...] = (
    "before all else",
    "past its time",
    "closes soon",
    "the round to look at",
    "not pressing",
    "given word",
)
# What finds no room goes by place: these first.
_FIRST_TO_GO: tuple[Heading, ...] = (
    "not pressing",
    "the round to look at",
    "given word",
    "closes soon",
    "past its time",
    "before all else",
)
# Ours, no source: within so many days a window closes soon.
SOON_DAYS = 10
MOST_ROWS = 30
# What says more of a work than what it is begins with one of these.
_MORE = re.compile(r"[:,;(–]")
# However many places have something over, so many rounds are shown.
FEWEST_ROUNDS = 12


class AtTree(Struct, frozen=True):
    """A tree of a round.

    `id`: of the work on it that closes first; `parts`: of the tree, where it is for parts of it;
    `counted`: how many there are (`44 seedlings`), "" for one tree.
    """

    tree: str
    tree_name: str
    id: str
    parts: tuple[str, ...]
    counted: str = ""


class AtPlace(Struct, frozen=True):
    """The trees of a round that stand in one place, in the order in which one walks."""

    place: str
    place_name: str
    trees: tuple[AtTree, ...]


class CautionOf(Struct, frozen=True):
    """A caution, and the names of the trees that it is for; none where it is for all of a round."""

    text: str
    trees: tuple[str, ...]


class Round(Struct, frozen=True):
    """The same work wanted of one tree or several.

    `first`: the work that closes first, whose window is shown; `last_closes`: the last day of the
    one that closes last. `minutes`: of all. `reasons`: those that all have alike; `own_reasons`:
    what else is a reason, each with the names of its trees.
    """

    title: str
    first: WorkView
    last_closes: date
    minutes: int
    places: tuple[AtPlace, ...]
    reasons: tuple[str, ...]
    own_reasons: tuple[CautionOf, ...]
    cautions: tuple[CautionOf, ...]

    @property
    def trees(self) -> int:
        return sum(len(place.trees) for place in self.places)


class Rest(Struct, frozen=True):
    """What found no row of its own, of one place: works and minutes. `wanted`: what is to be done,
    in short, and of how many trees, that of most first."""

    place: str
    place_name: str
    wanted: tuple[tuple[str, int], ...]
    works: int
    minutes: int


class FrostToday(Struct, frozen=True):
    """Of how many winters on record frost had come by this day, or still came after it. `first`:
    this winter's first, once it came and none of the last is awaited."""

    ahead: bool
    winters: int
    among: int
    first: date | None = None


class Lean(Struct, frozen=True):
    """How many days the year is ahead of the average one (behind it: negative), and of how many
    years that is the average; 0 where it is that of monthly means."""

    days: int
    among: int


class BenchView(Struct, frozen=True):
    """A day at the bench: what matters of the weather, the rounds under their headings, and by
    place what found no row. `ahead`: how many works are still to come. `sky`: the days ahead."""

    today: date
    frost: FrostToday | None
    lean: Lean | None
    groups: tuple[tuple[Heading, tuple[Round, ...]], ...]
    rest: tuple[Rest, ...]
    ahead: int
    sky: Ahead = Ahead()


class AtBench(NamedTuple):
    """A work of the day: its place in the order, what it stands under, and what is done."""

    urgency: Urgency
    heading: Heading
    act: str
    title: str
    work: WorkView


class OfTree(Struct, frozen=True):
    """What a tree brings to the bench: its works of the day, and how many are still `ahead`."""

    today: tuple[AtBench, ...]
    ahead: int


def of_tree(works: Iterable[WorkView], today: date) -> OfTree:
    """What a tree brings to the bench. `works`: those that are open."""
    some = list(works)
    now = tuple(
        AtBench(urgency(one), heading_of(one, today), one.act, plain_title(one), one)
        for one in some
        if at_bench(one, today)
    )
    return OfTree(now, len(some) - len(now))


def bench_view(
    trees: Iterable[OfTree], walk: Sequence[str], weather: Weather, today: date
) -> BenchView:
    """Lay out a day. `walk`: the handles of the trees in the order in which one walks past them."""
    some = list(trees)
    found = _alike(chain.from_iterable(tree.today for tree in some))
    shown, over = _most(found)
    order = {handle: at for at, handle in enumerate(walk)}
    sky = weather.skies[0] if weather.home_known and weather.skies else None
    return BenchView(
        today,
        _frost(sky.frosts, today) if sky and sky.frosts else None,
        Lean(sky.heat.ahead_days, sky.heat.among) if sky and sky.heat.ahead_days else None,
        tuple(
            (heading, tuple(round_of(those, order) for those in shown[heading]))
            for heading in HEADINGS
            if shown[heading]
        ),
        _rest(over),
        sum(tree.ahead for tree in some),
        weather.ahead,
    )


def at_bench(work: WorkView, today: date) -> bool:
    """Whether a work is late, can be done now, or was promised; a chance waits for its best
    week."""
    return stands_under(work, today) in ("overdue", "now", "promised")


def heading_of(work: WorkView, today: date) -> Heading:
    """What a work of the day stands under: what a tree may die without comes first of all, and so
    does a shelter that should be over it by now."""
    if work.state == "promised":
        return "given word"
    if work.at_stake == "life":
        return "before all else"
    if work.state == "overdue":
        return "past its time"
    if work.must and work.best <= today and stays_on(work.act, work):
        return "before all else"
    if work.look:
        return "the round to look at"
    is_soon = work.must and work.closes <= today + timedelta(SOON_DAYS)
    return "closes soon" if is_soon else "not pressing"


# ------------------------------------------------------------------ rounds


def _alike(works: Iterable[AtBench]) -> ByHeading:
    """The works of each round, the most urgent first, and so the rounds under each heading."""
    alike: dict[tuple[Heading, str, str], list[AtBench]] = {}
    for one in works:
        alike.setdefault(one[1:4], []).append(one)
    found: ByHeading = {heading: [] for heading in HEADINGS}
    for (heading, _, _), those in alike.items():
        for some in closing_together(those, attrgetter("work")):
            found[heading].append(sorted(some, key=_by_urgency))
    for rounds in found.values():
        rounds.sort(key=lambda those: those[0].urgency)
    return found


_by_urgency = attrgetter("urgency")


def round_of(those: Sequence[AtBench], order: dict[str, int]) -> Round:
    """The works of a round. `those`: the most urgent first."""
    works = [one.work for one in those]
    common, own = _reasons(works)
    return Round(
        those[0].title,
        min(works, key=lambda one: (one.closes, one.id)),
        max(one.closes for one in works),
        sum(one.minutes for one in works),
        _places(works, order),
        common,
        own,
        _cautions(works),
    )


def _places(works: Sequence[WorkView], order: dict[str, int]) -> tuple[AtPlace, ...]:
    """Place by place, the one with the most urgent tree first; there, as one walks."""
    by_place: dict[tuple[str, str], dict[str, list[WorkView]]] = {}
    for work in works:
        by_place.setdefault(_there(work), {}).setdefault(work.tree, []).append(work)
    return tuple(
        AtPlace(
            place,
            place_name,
            tuple(
                _tree(by_tree[tree]) for tree in sorted(by_tree, key=lambda one: (order[one], one))
            ),
        )
        for (place, place_name), by_tree in by_place.items()
    )


def _tree(works: Sequence[WorkView]) -> AtTree:
    first = works[0]
    parts = tuple(dict.fromkeys(one.part for one in works if one.part))
    return AtTree(first.tree, first.tree_name, first.id, parts, first.counted)


def _reasons(works: Sequence[WorkView]) -> tuple[tuple[str, ...], tuple[CautionOf, ...]]:
    """The reasons that all have alike; and what else is one, each with its trees."""
    by_text: dict[str, list[WorkView]] = {}
    cold = one_cold(works)
    for work in works:
        gathered = bool(cold) and work.cold is not None
        said = (cold,) if gathered else (work.said,) if work.said else ()
        # What gathers the figures of the trees stands for each one's own.
        reasons = (one.text for one in work.reasons if not (gathered and one.sort == "datum"))
        for text in dict.fromkeys((*said, *reasons)):
            by_text.setdefault(text, []).append(work)
    common = tuple(text for text, those in by_text.items() if len(those) == len(works))
    own = tuple(
        CautionOf(text, _names(those)) for text, those in by_text.items() if text not in common
    )
    return common, own


def _cautions(works: Sequence[WorkView]) -> tuple[CautionOf, ...]:
    """Each caution once."""
    by_text: dict[str, list[WorkView]] = {}
    for work in works:
        for text in work.cautions:
            by_text.setdefault(text, []).append(work)
    return tuple(
        CautionOf(text, () if len(those) == len(works) else _names(those))
        for text, those in by_text.items()
    )


def _there(work: WorkView) -> tuple[str, str]:
    """Where one walks for it: the place and its name, which tell what is away from here apart."""
    return work.place, work.place_name


def _names(works: Iterable[WorkView]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(work.tree_name for work in works))


# ------------------------------------------------------------------ no more than one can read


def _most(found: ByHeading) -> tuple[ByHeading, list[list[AtBench]]]:
    """The rounds that are shown, and those that go by place, where there are too many."""
    if sum(map(len, found.values())) <= MOST_ROWS:
        return found, []
    room = MOST_ROWS
    while True:
        shown, over = _cut(found, room)
        places = len({_there(one.work) for those in over for one in those})
        if room <= FEWEST_ROUNDS or room + places <= MOST_ROWS:
            return shown, over
        room = max(MOST_ROWS - places, FEWEST_ROUNDS)


def _cut(found: ByHeading, room: int) -> tuple[ByHeading, list[list[AtBench]]]:
    """As many rounds as there is room for, the last of the least pressing headings gone first."""
    shown = {heading: list(rounds) for heading, rounds in found.items()}
    over: list[list[AtBench]] = []
    for heading in _FIRST_TO_GO:
        too_many = sum(map(len, shown.values())) - room
        if too_many > 0:
            kept = max(len(shown[heading]) - too_many, 0)
            over += shown[heading][kept:]
            shown[heading] = shown[heading][:kept]
    return shown, over


def _rest(over: Iterable[Sequence[AtBench]]) -> tuple[Rest, ...]:
    """What found no row, by place, the place with most to do first."""
    found: dict[tuple[str, str], list[AtBench]] = {}
    for one in chain.from_iterable(over):
        found.setdefault(_there(one.work), []).append(one)
    rests = [
        Rest(
            place,
            place_name,
            _wanted(those),
            len(those),
            sum(one.work.minutes for one in those),
        )
        for (place, place_name), those in found.items()
    ]
    return tuple(sorted(rests, key=lambda one: (-one.works, one.place)))


def _wanted(those: Iterable[AtBench]) -> tuple[tuple[str, int], ...]:
    """Each work by the beginning of its title, `check for pests`, with its number of trees."""
    trees: dict[str, set[str]] = {}
    for one in those:
        trees.setdefault(_MORE.split(one.title, maxsplit=1)[0], set()).add(one.work.tree)
    return tuple(sorted(((title, len(some)) for title, some in trees.items()), key=lambda w: -w[1]))


# ------------------------------------------------------------------ the weather that matters


def _frost(frosts: Frosts, today: date) -> FrostToday | None:
    """While frost may still come this winter or has not yet come in all; None in between."""
    known, winters = [one for one in frosts.odds if one.day <= today], frosts.winters
    if not known:
        return None
    now = known[-1]
    ahead = now.come_percent >= 100 or now.to_come_percent < now.come_percent
    percent = now.to_come_percent if ahead else now.come_percent
    if not percent:
        return None
    # What came needs no odds any more.
    first = None if ahead else frosts.this.first
    return FrostToday(ahead, round(percent * winters / 100), winters, first)
