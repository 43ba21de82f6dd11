"""A tree's years side by side: what was done, how the weather was, and how the tree answered."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from datetime import date
from functools import lru_cache

from msgspec import Struct

from backbud.collection.state import Entry
from backbud.collection.zones import zone_scores
from backbud.journal.events import Event
from backbud.plan.year import BLOOM_STAGES
from backbud.views.life import sign_of
from backbud.views.sky import YearAir
from backbud_grammar.act_words import ActWord, DetailName, as_act, as_word
from backbud_grammar.dates import growing_year, growing_year_days
from backbud_grammar.forms import ActForm
from backbud_grammar.measures import Measure

# So many years stand side by side, the latest.
MOST_YEARS = 6
# What is told of a trunk, the first that was measured; and of growth.
_GIRTHS: tuple[DetailName, ...] = ("girth", "trunk")
_GROWTHS: tuple[DetailName, ...] = ("candles", "shoots")
_SIZES = frozenset({*_GIRTHS, *_GROWTHS})
_FULL = BLOOM_STAGES[as_word("full")]
_ANSWERS: frozenset[ActWord] = frozenset({"bloomed", "measured", "vigour", "checked"})
_UNTOLD = frozenset({"seen", "move"})


class DoneInYear(Struct, frozen=True, gc=False):
    """An act, and the days on which it was done in a year, oldest first."""

    act: str
    days: tuple[date, ...]


class TreeYearView(Struct, frozen=True, gc=False):
    """A growing year of a tree.

    `done`: by act, as they were done. `air`: of the home place, None where nothing is known of
    that year. `bloom`: the day of full flower, else the first on which flowers were told of.
    `growth`: of candles or shoots, and `girth`: of the trunk, as last measured in that year, with
    what was measured; "" where nothing was. `vigour`: the mean of all scores of the year, 1
    (weakest) to 5; `looks`: how many scores these are.
    """

    year: str
    done: tuple[DoneInYear, ...]
    air: YearAir | None
    bloom: date | None
    growth: str
    girth: str
    vigour: float | None
    looks: int


def tree_years(
    beside: Sequence[Entry], airs: Iterable[YearAir], southern: bool
) -> tuple[TreeYearView, ...]:
    """The years of a tree in which something was written of it on a known day and of which there is
    something to set beside another, the latest first; none where that is one year alone.

    `beside`: what of its history may stand beside another year, in the order of days.
    """
    by_name = {air.name: air for air in airs}
    told: list[TreeYearView] = []
    for name, written in _latest_first(beside, southern):
        one = _year(name, written, by_name.get(name))
        if one is not None:
            told.append(one)
            if len(told) == MOST_YEARS:
                break
    return tuple(told) if len(told) > 1 else ()


def _latest_first(beside: Sequence[Entry], southern: bool) -> Iterator[tuple[str, _OfYear]]:
    """What was written in each growing year, the latest first."""
    first, last, name = date.max, date.min, ""
    of_year = _OfYear([], [])
    for entry in reversed(beside):
        event = entry.event
        day = event.when.first
        if not first <= day <= last:
            if name:
                yield name, of_year
            name, first, last = _year_of(day.year, day.month, southern)
            of_year = _OfYear([], [])
        (of_year.answers if event.act in _ANSWERS else of_year.works).append(event)
    if name:
        yield name, of_year


# The same few years are asked for of thousands of trees.
@lru_cache(maxsize=4096)
def _year_of(year: int, month: int, southern: bool) -> tuple[str, date, date]:
    """The growing year of the days of a month: its name, its first and its last day."""
    day = date(year, month, 1)
    return growing_year(day, southern), *growing_year_days(day, southern)


class _OfYear(Struct, frozen=True, gc=False):
    """What was written in a growing year, the latest first: how the tree answered, and what was
    done."""

    answers: list[Event]
    works: list[Event]


def stands_beside(row: ActForm) -> bool:
    """Whether anything that an act tells can stand beside another year."""
    act, sign = as_act(row.word), sign_of(row)
    return act in _ANSWERS or act == "wired" or (sign != "" and sign not in _UNTOLD)


def _year(name: str, written: _OfYear, air: YearAir | None) -> TreeYearView | None:
    """A growing year; None of which nothing can be set beside another."""
    bloomed: dict[int, date] = {}
    sizes: dict[DetailName, Measure] = {}
    scores: list[int] = []
    for event in reversed(written.answers):
        act = event.act
        if act == "bloomed":
            # What says no more than that it flowered is full flower.
            said = [stage for word, stage in BLOOM_STAGES.items() if event.says(word)]
            for stage in () if event.says("none") else said or (_FULL,):
                bloomed.setdefault(stage, event.day)
        elif act == "measured":
            sizes |= _sizes(event)
        else:
            scores += [score for _, score in zone_scores(event)]
    growth, girth = (_first_of(_GROWTHS, sizes), _first_of(_GIRTHS, sizes)) if sizes else ("", "")
    if not (air or bloomed or growth or girth or scores):
        return None
    done: dict[str, list[date]] = {}
    for event in reversed(written.works):
        day, days = event.when.first, done.get(event.act)
        if days is None:
            done[event.act] = [day]
        elif days[-1] != day:
            days.append(day)
    return TreeYearView(
        name,
        tuple([DoneInYear(act, tuple(days)) for act, days in done.items()]),
        air,
        bloomed.get(_FULL) or min(bloomed.values(), default=None),
        growth,
        girth,
        round(sum(scores) / len(scores), 1) if scores else None,
        len(scores),
    )


def _sizes(event: Event) -> dict[DetailName, Measure]:
    """What a line measured of trunk and growth: of each the first."""
    first = {one.name: one.measure for one in reversed(event.details) if one.name in _SIZES}
    return {name: measure for name, measure in first.items() if measure is not None}


def _first_of(names: Iterable[DetailName], sizes: Mapping[DetailName, Measure]) -> str:
    return next((f"{name} {sizes[name]}" for name in names if name in sizes), "")
