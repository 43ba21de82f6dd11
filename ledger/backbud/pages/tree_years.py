"""Lays out a tree's years side by side; what nobody wrote down of any year has no column."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

from msgspec import Struct

from backbud import words
from backbud.tongue import decimal, phrase
from backbud.views.sums import BASE_C
from backbud.views.tree_years import DoneInYear, TreeYearView

# An act that was done more often than this in a year is counted.
MOST_DAYS = 3


class YearBeside(Struct, frozen=True, gc=False):
    """A year: its cells in the order of the heads, and what was done, in words."""

    name: str
    cells: tuple[str, ...]
    done: str


class YearsBeside(Struct, frozen=True, gc=False):
    """Years side by side; `heads`: of the cells that any of them has."""

    heads: tuple[str, ...]
    years: tuple[YearBeside, ...]


def years_beside(years: Sequence[TreeYearView], today: date) -> YearsBeside | None:
    """Lay out the years; None where in none of them the tree's answer was written down."""
    if not any(one.bloom or one.growth or one.girth or one.vigour for one in years):
        return None
    columns = {
        phrase("Degree-days over {base_c:g} °C", base_c=BASE_C): [_heat(one) for one in years],
        phrase("Last frost"): [_day(one.air.last_frost if one.air else None) for one in years],
        phrase("Flowers"): [_day(one.bloom) for one in years],
        phrase("Growth"): [_size(one.growth) for one in years],
        phrase("Vigour of 5"): [_vigour(one) for one in years],
        phrase("Girth"): [_size(one.girth) for one in years],
    }
    shown = {head: cells for head, cells in columns.items() if any(cells)}
    return YearsBeside(
        tuple(shown),
        tuple(
            YearBeside(
                one.year,
                tuple(cells[n] for cells in shown.values()),
                "; ".join(map(_done, one.done)),
            )
            for n, one in enumerate(years)
        ),
    )


def _heat(one: TreeYearView) -> str:
    if one.air is None:
        return ""
    return f"{one.air.heat:.0f}" + ("" if one.air.whole else phrase(" so far"))


def _day(found: date | None) -> str:
    return words.day(found, found.year) if found else ""


def _size(said: str) -> str:
    """`trunk 12.9 cm`, in the language spoken."""
    what, _, measure = said.partition(" ")
    return f"{phrase(what)} {decimal(words.sizes(measure))}" if said else ""


def _vigour(one: TreeYearView) -> str:
    return "" if one.vigour is None else words.figure(one.vigour, "g")


def _done(one: DoneInYear) -> str:
    """`repotted 9 March`; `fed 6 times, 22 April to 3 September`."""
    days = one.days
    if len(days) <= MOST_DAYS:
        return f"{phrase(one.act)} {', '.join([words.day(day, day.year) for day in days])}"
    return phrase(
        "{act} {days} times, {days_2} to {days_3}",
        act=phrase(one.act),
        days=len(days),
        days_2=words.day(days[0], days[0].year),
        days_3=words.day(days[-1], days[-1].year),
    )
