"""Lays out the first page: the day, the weather that matters, and the rounds in their order."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date

from msgspec import Struct

from backbud import words
from backbud.pages import ahead
from backbud.pages.drawings.window_line import window_line
from backbud.pages.links import anchor_of, link, place_page, tree_page
from backbud.pages.work import kept_together
from backbud.tongue import full_day, phrase
from backbud.views.bench import (
    MOST_ROWS,
    AtPlace,
    AtTree,
    BenchView,
    CautionOf,
    FrostToday,
    Lean,
    Rest,
    Round,
)
from backbud.words import number

# A row names so many trees; the rest stand on their place's page.
MOST_TREES = 6
MOST_PARTS = 2
MOST_OWN_REASONS = 4
# Of a place whose works have no row, so many sorts are told.
MOST_WANTED = 6
# A caution that is for more trees than these tells how many.
MOST_OF = 3
NO_PLACE = "no place written down"


class LinkedTree(Struct, frozen=True):
    """A tree of a round, the way to its reasons; how many it is, and the parts it is for."""

    name: str
    page: str
    parts: str


class TreesAt(Struct, frozen=True):
    """A place of a round, its trees that are named, and how many more there are."""

    name: str
    page: str
    trees: tuple[LinkedTree, ...]
    more: str


class BenchRow(Struct, frozen=True):
    """One row: what, where, by when, for how long; its window drawn; why, and what to beware of.

    `elsewhere`: in words the trees that are not named at other places, which are `beyond`.
    """

    late: bool
    task: str
    by: str
    line: str
    places: tuple[TreesAt, ...]
    elsewhere: str
    beyond: tuple[TreesAt, ...]
    reasons: tuple[str, ...]
    cautions: tuple[str, ...]


class BenchGroup(Struct, frozen=True):
    """Rows under a heading; `about`: what the heading asks of them, "" where it says it itself."""

    ident: str
    heading: str
    about: str
    late: bool
    rows: tuple[BenchRow, ...]


class RestRow(Struct, frozen=True):
    """A place where more wants doing than has a row: what, and how long it takes."""

    name: str
    page: str
    what: str
    minutes: str


class BenchSheet(Struct, frozen=True):
    """All that the first page shows. `weather`: what matters of it, in words."""

    day: str
    weather: tuple[str, ...]
    groups: tuple[BenchGroup, ...]
    rest: tuple[RestRow, ...]
    further: tuple[RestRow, ...]
    ahead: bool


_ABOUT = {"given word": "promises more than a season old: close them, or plan them again"}


def sheet(view: BenchView) -> BenchSheet:
    """Lay out the first page."""
    today = view.today
    groups = tuple(
        BenchGroup(
            heading.replace(" ", "-"),
            words.sentence(phrase(heading)),
            phrase(_ABOUT.get(heading, "")),
            heading == "past its time",
            tuple(_row(one, today) for one in rounds),
        )
        for heading, rounds in view.groups
    )
    room = max(MOST_ROWS - sum(len(group.rows) for group in groups), 1)
    rest = tuple(map(_rest, view.rest))
    return BenchSheet(
        f"{words.weekday(today)} {full_day(today)}",
        tuple(_weather(view)),
        groups,
        rest[:room],
        rest[room:],
        view.ahead > 0,
    )


# ------------------------------------------------------------------ the weather


def _weather(view: BenchView) -> Iterator[str]:
    if view.frost:
        yield _frost(view.frost, view.today)
    if view.lean:
        yield _lean(view.lean)
    yield from ahead.in_brief(view.sky, view.today)


def _frost(frost: FrostToday, today: date) -> str:
    """`frost after this day in 4 of 24 winters`: odds as one counts them."""
    if frost.first is not None:
        return phrase("the first frost came on {day}", day=words.day(frost.first, today.year))
    of = phrase(
        "in {winters} of {winters_2}",
        winters=frost.winters,
        winters_2=number(frost.among, "winter"),
    )
    return (
        phrase("frost still came after this day {of}", of=of)
        if frost.ahead
        else phrase("frost had come by now {of}", of=of)
    )


def _lean(lean: Lean) -> str:
    of = (
        phrase("the average of {years}", years=number(lean.among, "year"))
        if lean.among
        else phrase("the average year")
    )
    days = words.days(abs(lean.days))
    if lean.days > 0:
        return phrase("the year is {days} ahead of {of}", days=days, of=of)
    return phrase("the year is {days} behind {of}", days=days, of=of)


# ------------------------------------------------------------------ a row


def _row(one: Round, today: date) -> BenchRow:
    late = one.first.state == "overdue"
    places, beyond = _places(one.places)
    unnamed = sum(len(place.trees) for place in one.places[len(places) :])
    return BenchRow(
        late,
        words.sentence(one.title),
        ", ".join(map(kept_together, _by(one, today))),
        window_line(one.first.window, today, late),
        places,
        number(unnamed, "more tree") if unnamed else "",
        beyond,
        tuple(_reasons(one)),
        tuple(map(_caution, one.cautions)),
    )


def _by(one: Round, today: date) -> Iterator[str]:
    first, year = one.first, today.year
    closes = words.day(first.closes, year)
    if first.state in ("overdue", "promised"):
        yield phrase("was due {closes}", closes=closes)
    else:
        yield words.closing(first.act, first, today)
        if first.best == today:
            yield phrase("best today")
        elif first.best > today:
            yield phrase("best {day}", day=words.day(first.best, year))
    if one.last_closes != first.closes and one.trees > 1:
        yield phrase("the last {day}", day=words.day(one.last_closes, year))
    if one.minutes:
        yield words.minutes(one.minutes)


def _places(
    places: Sequence[AtPlace],
) -> tuple[tuple[TreesAt, ...], tuple[TreesAt, ...]]:
    """The places of the first six trees, and those of which no tree is named."""
    shown: list[TreesAt] = []
    room = MOST_TREES
    for place in places:
        if room:
            shown.append(_trees_at(place, room))
            room -= len(shown[-1].trees)
    return tuple(shown), tuple(_trees_at(place, 0) for place in places[len(shown) :])


def _trees_at(place: AtPlace, room: int) -> TreesAt:
    more = len(place.trees) - room
    return TreesAt(
        words.sentence(place.place_name or phrase(NO_PLACE)),
        way_to(place.place, place.place_name),
        tuple(map(_tree, place.trees[:room])),
        phrase("{more} more", more=more) if more > 0 else "",
    )


def _tree(tree: AtTree) -> LinkedTree:
    parts = ", ".join(tree.parts[:MOST_PARTS])
    if len(tree.parts) > MOST_PARTS:
        parts += phrase(" and {parts} more", parts=len(tree.parts) - MOST_PARTS)
    told = ", ".join(filter(None, (tree.counted, parts)))
    return LinkedTree(tree.tree_name, link(tree_page(tree.tree), "", anchor_of(tree.id)), told)


def _reasons(one: Round) -> Iterator[str]:
    """Those of all first; then the trees' own, as far as one reads them in passing."""
    yield from one.reasons
    for own in one.own_reasons[:MOST_OWN_REASONS]:
        yield f"{_of(own)}: {own.text}"
    if len(one.own_reasons) > MOST_OWN_REASONS:
        yield phrase("The reasons of each tree stand on its page.")


def _caution(caution: CautionOf) -> str:
    return f"{_of(caution)}: {caution.text}" if caution.trees else caution.text


def _of(one: CautionOf) -> str:
    if len(one.trees) > MOST_OF:
        return phrase(
            "{trees} and {trees_2} more",
            trees=", ".join(one.trees[:MOST_OF]),
            trees_2=len(one.trees) - MOST_OF,
        )
    return ", ".join(one.trees)


def way_to(place: str, place_name: str, base: str = "") -> str:
    """The page of a place, "" for what is away from here."""
    return link(place_page(place), base) if place or not place_name else ""


def _wanted(rest: Rest) -> Iterator[str]:
    """`unwire × 9`, of so many trees; then how many other works there are."""
    for title, trees in rest.wanted[:MOST_WANTED]:
        yield f"{title} × {trees}" if trees > 1 else title
    if len(rest.wanted) > MOST_WANTED:
        yield number(len(rest.wanted) - MOST_WANTED, "more work")


def _rest(rest: Rest) -> RestRow:
    return RestRow(
        words.sentence(rest.place_name or phrase(NO_PLACE)),
        way_to(rest.place, rest.place_name),
        words.sentence(", ".join(_wanted(rest))),
        words.minutes(rest.minutes) if rest.minutes else "",
    )
