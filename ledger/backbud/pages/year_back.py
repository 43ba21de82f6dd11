"""Lays out the year back."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from msgspec import Struct

from backbud import words
from backbud.pages.drawings import frost, years_apart
from backbud.pages.drawings.axes import Drawing
from backbud.pages.drawings.buds import row_of_buds
from backbud.pages.links import link, tree_page
from backbud.pages.pictures import Pair, pair_of
from backbud.pages.work import kept_together
from backbud.pages.year import NO_KIND
from backbud.tongue import act_phrase, phrase
from backbud.views.sky import Sum
from backbud.views.sums import BASE_C
from backbud.views.year_back import (
    ForeseenView,
    LapsedView,
    PassingView,
    TreePairView,
    YearBackView,
)


class DoneRow(Struct, frozen=True):
    """A work: how much of it was done, drawn and in words, and what became of the rest."""

    task: str
    buds: str
    done: str
    rest: str


class LapsedRow(Struct, frozen=True):
    """A work that came to nothing on trees of one kind: when its time was over, and why it was
    asked for."""

    task: str
    kind: str
    by: str
    reason: str
    trees: tuple[tuple[str, str], ...]
    more: str


class PassingRow(Struct, frozen=True):
    """A tree that came or went."""

    name: str
    page: str
    kind: str
    told: str


class PairOfTree(Struct, frozen=True):
    """A tree, then and now."""

    name: str
    page: str
    pair: Pair


class YearBackSheet(Struct, frozen=True):
    """All that the page shows. `hours`: by work, what it took."""

    span: str
    short: str
    done: tuple[DoneRow, ...]
    missed: tuple[LapsedRow, ...]
    let_go: tuple[LapsedRow, ...]
    gained: tuple[PassingRow, ...]
    lost: tuple[PassingRow, ...]
    total: str
    hours: tuple[tuple[str, str], ...]
    heat: str
    heat_said: str
    frost: Drawing | None
    pairs: tuple[PairOfTree, ...]


def sheet(back: YearBackView, today: date) -> YearBackSheet:
    """The year back as its page shows it."""
    lapsed = [(one.missed, _lapsed(one, today)) for one in back.lapsed]
    heat, frosts = back.heat, back.frosts
    return YearBackSheet(
        words.between(back.first, back.last, today.year),
        _short(back),
        tuple(map(_done, back.foreseen)),
        tuple(row for missed, row in lapsed if missed),
        tuple(row for missed, row in lapsed if not missed),
        tuple(_passing(one, today) for one in back.gained),
        tuple(_passing(one, today) for one in back.lost),
        words.minutes(back.all_minutes) if back.minutes else "",
        tuple(_hours(back)),
        years_apart.draw("heat-years", phrase("Heat sum of each year by this day"), heat)
        if heat
        else "",
        _heat_said(heat, back.warmer_years, today) if heat else "",
        frost.draw("frost-years", phrase("First and last frost of each winter"), frosts, today)
        if frosts and frosts.seasons
        else None,
        tuple(map(_pair, back.pairs)),
    )


def _short(back: YearBackView) -> str:
    asked, done, missed = back.asked_done_missed
    if not asked:
        return phrase("Nothing was asked for in these twelve months.")
    said = phrase(
        "{done} of {works} that the trees asked for were done",
        done=done,
        works=words.number(asked, "work"),
    )
    return (
        phrase("{said}; {missed} were missed.", said=said, missed=missed) if missed else f"{said}."
    )


def _task(called: str) -> str:
    return words.sentence(act_phrase(called))


def _done(one: ForeseenView) -> DoneRow:
    rest = (
        (one.skipped, phrase("skipped")),
        (one.missed, phrase("missed")),
        (one.let_go, phrase("let go")),
        (one.still_open, phrase("still to do")),
    )
    return DoneRow(
        _task(one.work),
        row_of_buds(one.done, one.foreseen),
        phrase("{done} of {foreseen}", done=one.done, foreseen=one.foreseen),
        ", ".join(f"{count} {what}" for count, what in rest if count),
    )


def _lapsed(one: LapsedView, today: date) -> LapsedRow:
    return LapsedRow(
        _task(one.work),
        one.kind or phrase(NO_KIND),
        kept_together(
            phrase("time over {between}", between=words.between(one.first, one.last, today.year))
        ),
        one.reason,
        tuple((name, link(tree_page(handle))) for handle, name in one.trees),
        words.number(one.more, "more tree") if one.more else "",
    )


def _passing(one: PassingView, today: date) -> PassingRow:
    return PassingRow(
        one.tree_name,
        link(tree_page(one.tree)),
        one.kind or phrase(NO_KIND),
        f"{one.how} {words.day(one.day, today.year)}",
    )


def _hours(back: YearBackView) -> Iterator[tuple[str, str]]:
    for act, minutes in back.minutes:
        yield _task(act) if act else phrase("No work told"), words.minutes(minutes)


def _heat_said(heat: Sum, warmer: int, today: date) -> str:
    """`1653 degree-days over 5 °C by 29 November; 2 of 7 years on record had more by then.`"""
    said = phrase(
        "{name}: {now:.0f} degree-days over {base_c:g} °C",
        name=heat.name,
        now=heat.now,
        base_c=BASE_C,
    )
    said += phrase(" by {day}", day=words.day(today, today.year))
    if not heat.years:
        return phrase("{said}; no other year is on record.", said=said)
    return phrase(
        "{said}; {warmer} of {years} on record had more by then.",
        said=said,
        warmer=warmer,
        years=words.number(len(heat.years), "year"),
    )


def _pair(one: TreePairView) -> PairOfTree:
    return PairOfTree(one.tree_name, link(tree_page(one.tree)), pair_of(one.pair, one.tree_name))
