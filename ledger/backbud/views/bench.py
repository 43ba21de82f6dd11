"""What must be done at the bench today: one row a round, those at stake first, and where one walks.

A round is the same work wanted of several trees. What is still to come stands in the year.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from datetime import date, timedelta
from typing import Literal

from msgspec import Struct

from backbud.views.day import Urgency, stands, urgency
from backbud.views.sky import Odds, Weather
from backbud.views.work import WorkView

Heading = Literal[
    "past its time", "closes soon", "the round to look at", "not pressing", "given word"
]
# As they stand on the page.
HEADINGS: tuple[Heading, ...] = (
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
)
# Ours, no source: within so many days a window closes soon.
SOON_DAYS = 10
MOST_ROWS = 30
# However many places have something over, so many rounds are shown.
FEWEST_ROUNDS = 12


class AtTree(Struct, frozen=True):
    """A tree of a round.

    `id`: of the work on it that closes first; `parts`: of the tree, where it is for parts of it.
    `works`: how many it is, and the `minutes` of all.
    """

    tree: str
    tree_name: str
    id: str
    parts: tuple[str, ...]
    works: int
    minutes: int


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
    """What found no row of its own, of one place: the titles of its rounds, works and minutes."""

    place: str
    place_name: str
    titles: tuple[str, ...]
    works: int
    minutes: int


class FrostToday(Struct, frozen=True):
    """Of how many winters on record frost had come by this day, or still came after it."""

    ahead: bool
    winters: int
    among: int


class Lean(Struct, frozen=True):
    """How many days the year is ahead of the average one (behind it: negative), and of how many
    years that is the average; 0 where it is that of monthly means."""

    days: int
    among: int


class BenchView(Struct, frozen=True):
    """A day at the bench: what matters of the weather, the rounds under their headings, and by
    place what found no row. `ahead`: how many works are still to come."""

    today: date
    frost: FrostToday | None
    lean: Lean | None
    groups: tuple[tuple[Heading, tuple[Round, ...]], ...]
    rest: tuple[Rest, ...]
    ahead: int


def bench_view(
    works: Iterable[WorkView], walk: Sequence[str], weather: Weather, today: date
) -> BenchView:
    """Lay out a day. `works`: all that are open. `walk`: the handles of the trees in the order in
    which one walks past them."""
    some = list(works)
    order = {handle: at for at, handle in enumerate(walk)}
    open_now = [one for one in some if stands(one, today) != "coming"]
    found = _rounds(open_now, order, today)
    shown, over = _most(found)
    sky = weather.skies[0] if weather.home_known and weather.skies else None
    return BenchView(
        today,
        _frost(sky.frosts.odds, sky.frosts.winters, today) if sky and sky.frosts else None,
        Lean(sky.heat.ahead_days, sky.heat.among) if sky and sky.heat.ahead_days else None,
        tuple((heading, tuple(shown[heading])) for heading in HEADINGS if shown[heading]),
        _rest(over),
        len(some) - len(open_now),
    )


def heading_of(work: WorkView, today: date) -> Heading:
    """What a work that is late or can be done now stands under."""
    if work.state == "promised":
        return "given word"
    if work.state == "overdue":
        return "past its time"
    if work.look:
        return "the round to look at"
    # What a tree may die without waits for no last day.
    is_soon = work.at_stake == "life" or work.closes <= today + timedelta(SOON_DAYS)
    return "closes soon" if is_soon else "not pressing"


def plain_title(work: WorkView) -> str:
    """What is to be done, without the part of the tree that it is done to."""
    return work.title.removesuffix(f" on {work.part}") if work.part else work.title


# ------------------------------------------------------------------ rounds


def _rounds(
    works: Iterable[WorkView], order: dict[str, int], today: date
) -> dict[Heading, list[Round]]:
    """The rounds under each heading, in order."""
    alike: dict[tuple[Heading, str, str], list[WorkView]] = {}
    for work in works:
        key = (heading_of(work, today), work.act, plain_title(work))
        alike.setdefault(key, []).append(work)
    found: dict[Heading, list[tuple[Urgency, Round]]] = {}
    for (heading, _, title), those in alike.items():
        those.sort(key=urgency)
        one = _round(title, those, order)
        found.setdefault(heading, []).append((urgency(those[0]), one))
    return {
        heading: [one for _, one in sorted(found.get(heading, ()), key=lambda pair: pair[0])]
        for heading in HEADINGS
    }


def _round(title: str, works: Sequence[WorkView], order: dict[str, int]) -> Round:
    """`works`: the most urgent first."""
    common, own = _reasons(works)
    return Round(
        title,
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
    by_place: dict[str, dict[str, list[WorkView]]] = {}
    for work in works:
        by_place.setdefault(work.place, {}).setdefault(work.tree, []).append(work)
    return tuple(
        AtPlace(
            place,
            next(iter(by_tree.values()))[0].place_name,
            tuple(
                _tree(by_tree[tree]) for tree in sorted(by_tree, key=lambda one: (order[one], one))
            ),
        )
        for place, by_tree in by_place.items()
    )


def _tree(works: Sequence[WorkView]) -> AtTree:
    first = works[0]
    parts = tuple(dict.fromkeys(one.part for one in works if one.part))
    minutes = sum(one.minutes for one in works)
    return AtTree(first.tree, first.tree_name, first.id, parts, len(works), minutes)


def _reasons(works: Sequence[WorkView]) -> tuple[tuple[str, ...], tuple[CautionOf, ...]]:
    """The reasons that all have alike; and what else is one, each with its trees."""
    by_text: dict[str, list[WorkView]] = {}
    for work in works:
        for text in dict.fromkeys(reason.text for reason in work.reasons):
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


def _names(works: Iterable[WorkView]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(work.tree_name for work in works))


# ------------------------------------------------------------------ no more than one can read


def _most(
    found: dict[Heading, list[Round]],
) -> tuple[dict[Heading, list[Round]], list[Round]]:
    """The rounds that are shown, and those that go by place, where there are too many."""
    count = sum(map(len, found.values()))
    if count <= MOST_ROWS:
        return found, []
    room = MOST_ROWS
    while True:
        shown, over = _cut(found, room)
        places = len({place.place for one in over for place in one.places})
        if room <= FEWEST_ROUNDS or room + places <= MOST_ROWS:
            return shown, over
        room = max(MOST_ROWS - places, FEWEST_ROUNDS)


def _cut(
    found: dict[Heading, list[Round]], room: int
) -> tuple[dict[Heading, list[Round]], list[Round]]:
    """As many rounds as there is room for, the last of the least pressing headings gone first."""
    shown = {heading: list(rounds) for heading, rounds in found.items()}
    over: list[Round] = []
    for heading in _FIRST_TO_GO:
        too_many = sum(map(len, shown.values())) - room
        if too_many > 0:
            kept = max(len(shown[heading]) - too_many, 0)
            over += shown[heading][kept:]
            shown[heading] = shown[heading][:kept]
    return shown, over


def _rest(over: Iterable[Round]) -> tuple[Rest, ...]:
    """What found no row, by place, the place with most to do first."""
    found: dict[str, list[tuple[Round, AtPlace]]] = {}
    for one in over:
        for place in one.places:
            found.setdefault(place.place, []).append((one, place))
    rests = [
        Rest(
            handle,
            those[0][1].place_name,
            tuple(dict.fromkeys(one.title for one, _ in those)),
            sum(tree.works for _, place in those for tree in place.trees),
            sum(tree.minutes for _, place in those for tree in place.trees),
        )
        for handle, those in found.items()
    ]
    return tuple(sorted(rests, key=lambda one: (-one.works, one.place)))


# ------------------------------------------------------------------ the weather that matters


def _frost(odds: Sequence[Odds], winters: int, today: date) -> FrostToday | None:
    """While frost may still come this winter or has not yet come in all; None in between."""
    known = [one for one in odds if one.day <= today]
    if not known:
        return None
    now = known[-1]
    ahead = now.come_percent >= 100 or now.to_come_percent < now.come_percent
    percent = now.to_come_percent if ahead else now.come_percent
    return FrostToday(ahead, round(percent * winters / 100), winters) if percent else None
