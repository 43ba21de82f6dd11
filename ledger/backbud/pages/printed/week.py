"""Lays out the week by place for paper: a box for each tree, a line to write on, and the cautions
by their numbers at the foot."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date

from msgspec import Struct

from backbud import words
from backbud.pages.bench import NO_PLACE, way_to
from backbud.pages.links import anchor_of, link, tree_page
from backbud.pages.printed.running import running
from backbud.pages.work import kept_together
from backbud.tongue import counted_phrase, phrase
from backbud.views.bench import AtTree, Round
from backbud.views.week_on_paper import WeekOnPaper

# A place of so few rows is not parted between two sheets.
KEPT_WHOLE = 6


class BoxedTree(Struct, frozen=True):
    """A tree with a box to tick, and the parts of it that are meant."""

    name: str
    page: str
    parts: str


class WeekRow(Struct, frozen=True):
    """A work of a place: what, by when, for how long, on which trees, and the numbers of the
    cautions that are for it."""

    task: str
    by: str
    late: bool
    care: tuple[int, ...]
    trees: tuple[BoxedTree, ...]


class WeekPlace(Struct, frozen=True):
    """A place with its works; `whole`: it is short, and stands on one sheet."""

    name: str
    page: str
    minutes: str
    rows: tuple[WeekRow, ...]
    whole: bool


class WeekSheet(Struct, frozen=True):
    """All that the week on paper shows. `running`: the style that gives each sheet its title."""

    title: str
    running: str
    places: tuple[WeekPlace, ...]
    cautions: tuple[str, ...]
    waiting: str


def sheet(view: WeekOnPaper, journal: str) -> WeekSheet:
    """Lay out the week. `journal`: what it is called."""
    every = [one for place in view.places for one in place.rounds]
    cautions = tuple(dict.fromkeys(caution.text for one in every for caution in one.cautions))
    title = phrase("The week of {between}", between=words.between(view.first, view.last, 0))
    return WeekSheet(
        title,
        running(f"{journal} · {title[:1].lower()}{title[1:]}"),
        tuple(
            WeekPlace(
                words.sentence(place.place_name or phrase(NO_PLACE)),
                way_to(place.place, place.place_name, "../"),
                _minutes(sum(one.minutes for one in place.rounds)),
                tuple(_row(one, cautions, view.first) for one in place.rounds),
                len(place.rounds) <= KEPT_WHOLE,
            )
            for place in view.places
        ),
        cautions,
        _waiting(view.waiting),
    )


def _row(one: Round, cautions: Sequence[str], today: date) -> WeekRow:
    care = {cautions.index(caution.text) + 1 for caution in one.cautions}
    return WeekRow(
        words.sentence(one.title),
        ", ".join(map(kept_together, _by(one, today))),
        one.first.state == "overdue",
        tuple(sorted(care)),
        tuple(_tree(tree) for place in one.places for tree in place.trees),
    )


def _by(one: Round, today: date) -> Iterator[str]:
    first, year = one.first, today.year
    closes = words.day(first.closes, year)
    if first.state in ("overdue", "promised"):
        yield phrase("was due {closes}", closes=closes)
    elif first.state == "coming":
        yield words.between(first.opens, first.closes, year)
    else:
        yield words.closing(first.act, first, today)
    if one.minutes:
        yield words.minutes(one.minutes)


def _tree(tree: AtTree) -> BoxedTree:
    page = link(tree_page(tree.tree), "../", anchor_of(tree.id))
    return BoxedTree(tree.tree_name, page, ", ".join(tree.parts))


def _minutes(count: int) -> str:
    return words.minutes(count) if count else ""


def _waiting(count: int) -> str:
    if not count:
        return ""
    return counted_phrase(
        count,
        "{count} more work can be done already and is best later.",
        "{count} more works can be done already and are best later.",
    )
