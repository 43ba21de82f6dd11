"""Lays out the year ahead: its hours, what comes first, a sprig for each kind, then the months."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from datetime import date
from itertools import groupby

from msgspec import Struct

from backbud import words
from backbud.memo import NO_MEMO, Memo
from backbud.pages.drawings import bough, sprig
from backbud.pages.drawings.axes import Key
from backbud.pages.links import anchor_of, kind_page, link, tree_page
from backbud.pages.work import kept_together
from backbud.tongue import act_phrase, phrase
from backbud.views.nursery import Nursery
from backbud.views.twigs import SprigView
from backbud.views.year import MonthView, NamedView, NearWeekView, RowView, YearView, year_view

NO_KIND = "no kind written down"
# In the months after, a row names so many trees; which these are stands on their pages.
FEW_NAMED = 3


class Kind(Struct, frozen=True):
    """A kind of tree as it is called, and its page; "" where it has none."""

    name: str
    page: str


class NamedTree(Struct, frozen=True):
    """A tree of a row: name, way to why, and beside it how often and where it was moved from."""

    name: str
    page: str
    aside: str


class YearRow(Struct, frozen=True):
    """A work on trees of one kind: when and for how long, and which trees; `more`: those that are
    not named."""

    task: str
    kind: Kind
    by: str
    trees: tuple[NamedTree, ...]
    more: str


class RestOfKind(Struct, frozen=True):
    """What has no row, of a kind."""

    kind: Kind
    what: str


class NearWeek(Struct, frozen=True):
    """A week that comes first: what it is called, its hours against what it has, its rows.
    `at_bench`: what of it stands at the bench, in words."""

    ident: str
    heading: str
    hours: str
    full: bool
    ahead: bool
    at_bench: str
    rows: tuple[YearRow, ...]
    rest: tuple[RestOfKind, ...]


class WorkInMonth(Struct, frozen=True):
    """A work of a kind in a month: what, and which trees, when, and for how long."""

    task: str
    told: str


class KindInMonth(Struct, frozen=True):
    """The works of a kind in a month."""

    kind: Kind
    works: tuple[WorkInMonth, ...]


class YearMonth(Struct, frozen=True):
    """A month after those that come first; `full`: in words its weeks that are too full."""

    ident: str
    heading: str
    total: str
    full: str
    kinds: tuple[KindInMonth, ...]


class SprigDrawn(Struct, frozen=True):
    """The drawing of a kind."""

    kind: Kind
    about: str
    svg: str


class YearSheet(Struct, frozen=True):
    """All that the year's page shows. `short`: the year in a sentence; `said`: what was moved."""

    works: int
    short: str
    late: bool
    said: tuple[str, ...]
    bough: str
    keys: tuple[Key, ...]
    near: tuple[NearWeek, ...]
    sprigs: tuple[SprigDrawn, ...]
    months: tuple[YearMonth, ...]


def sheet(view: Nursery, kept: Memo = NO_MEMO) -> YearSheet:
    """The year ahead as its page shows it."""
    year, today = year_view(view, kept), view.today
    if not year.works:
        return YearSheet(0, "", False, (), "", (), (), (), ())
    kinds = _kinds(view)
    drawn, keys = bough.draw(year, today)
    return YearSheet(
        year.works,
        _short(year, today),
        year.full > 0,
        tuple(_said(year)),
        drawn,
        keys,
        tuple(_near(week, year, kinds, today) for week in year.near),
        tuple(_sprigs(year, kinds, today)),
        tuple(_month(month, kinds, today) for month in year.months),
    )


def _kinds(view: Nursery) -> Mapping[str, Kind]:
    """Each kind by its words in the journal."""
    found: dict[str, Kind] = {"": Kind(phrase(NO_KIND), "")}
    for tree in view.trees:
        if tree.kind and tree.kind not in found:
            facts = view.species.get(tree.handle)
            page = link(kind_page(facts.title)) if facts is not None and facts.facts else ""
            found[tree.kind] = Kind(tree.kind, page)
    return found


# ------------------------------------------------------------------ the year in short


def _short(year: YearView, today: date) -> str:
    """All hours, and the fullest week."""
    most = bough.fullest(year)
    long = _hours(most.minutes)
    if year.limit_minutes:
        long += phrase(" of {minutes}", minutes=words.minutes(year.limit_minutes))
    is_now = most is year.weeks[0]
    named = (
        phrase("this one")
        if is_now
        else phrase("that of {day}", day=words.day(most.monday, today.year))
    )
    return phrase(
        "{minutes} of work in the year ahead. The fullest week is {named}, {kept_together}.",
        minutes=words.minutes(year.minutes),
        named=named,
        kept_together=kept_together(long),
    )


def _hours(minutes: int) -> str:
    return words.minutes(minutes) if minutes else phrase("nothing")


def _said(year: YearView) -> Iterable[str]:
    """What was moved, and what that was good for."""
    if not year.limit_minutes:
        yield (
            phrase(
                "Nothing is moved: how many hours a week has is not written. In "
                "backbud.toml: hours_per_week = 10"
            )
        )
        return
    if year.moved:
        over = year.over_minutes
        less = (
            phrase("{minutes} over", minutes=words.minutes(over))
            if over
            else phrase("no hour over")
        )
        yield (
            phrase(
                "With every work on its best day, {weeks} would be too full, {minutes} "
                "over in all. {works} moved inside {value}: {less}.",
                weeks=words.number(year.unmoved_full, "week"),
                minutes=words.minutes(year.unmoved_over_minutes),
                works=words.number(year.moved, "work"),
                value=phrase("its window") if year.moved == 1 else phrase("their windows"),
                less=less,
            )
        )
        yield phrase("Only this page moves them: calendars keep every work on its best day.")
    elif year.over_minutes:
        yield phrase(
            "What is in the weeks that are too full cannot wait, or has no lighter week to go to."
        )
    else:
        yield phrase("Every work stands on its best day.")


# ------------------------------------------------------------------ the weeks that come first


def _near(week: NearWeekView, year: YearView, kinds: Mapping[str, Kind], today: date) -> NearWeek:
    shown = week.week
    over = shown.over_minutes
    hours = _hours(shown.minutes)
    if over:
        hours += phrase(", {minutes} more than the week has", minutes=words.minutes(over))
    elif year.limit_minutes:
        hours += phrase(" of {minutes}", minutes=words.minutes(year.limit_minutes))
    return NearWeek(
        f"week-{shown.monday.isoformat()}",
        words.week(shown.monday, today),
        hours,
        over > 0,
        shown.monday > today,
        words.number(week.at_bench, "work") if week.at_bench else "",
        tuple(_row(row, kinds, today) for row in week.rows),
        tuple(
            RestOfKind(
                kinds[one.kind],
                f"{words.number(one.works, 'more work')}, {words.minutes(one.minutes)}",
            )
            for one in week.rest
        ),
    )


def _row(row: RowView, kinds: Mapping[str, Kind], today: date) -> YearRow:
    moved = {one.moved_from for one in row.named}
    alike = moved.pop() if len(moved) == 1 else None
    by = [words.between(row.first, row.last, today.year)]
    by += [words.minutes(row.minutes)] if row.minutes else []
    by += [phrase("moved from {day}", day=words.day(alike, today.year))] if alike else []
    return YearRow(
        _task(row),
        kinds[row.kind],
        ", ".join(map(kept_together, by)),
        tuple(_named(one, alike, today) for one in row.named),
        words.number(row.more, "more tree") if row.more else "",
    )


def _task(row: RowView) -> str:
    return words.sentence(act_phrase(row.work))


def _named(one: NamedView, told: date | None, today: date) -> NamedTree:
    """`told`: the day that all of the row were moved from, which stands there once."""
    asides = [f"× {one.times}"] if one.times > 1 else []
    if one.moved_from and one.moved_from != told:
        asides.append(phrase("from {day}", day=words.day(one.moved_from, today.year)))
    page = link(tree_page(one.tree), "", anchor_of(one.id))
    return NamedTree(one.tree_name, page, ", ".join(asides))


# ------------------------------------------------------------------ a sprig for each kind


def _sprigs(year: YearView, kinds: Mapping[str, Kind], today: date) -> Iterator[SprigDrawn]:
    first = year.weeks[0].monday
    for n, one in enumerate(year.sprigs):
        yield SprigDrawn(
            kinds[one.kind], _of_kind(one), sprig.draw(f"sprig-{n}", one, first, today)
        )


def _of_kind(one: SprigView) -> str:
    return f"{words.number(one.trees, 'tree')}, {words.minutes(one.minutes)}"


# ------------------------------------------------------------------ the months after


def _month(month: MonthView, kinds: Mapping[str, Kind], today: date) -> YearMonth:
    full = " and ".join(words.day(monday, today.year) for monday in month.full)
    by_kind = groupby(month.rows, key=lambda row: row.kind)
    return YearMonth(
        f"{month.first:%Y-%m}",
        words.month(month.first, today.year),
        f"{words.number(month.works, 'work')}, {words.minutes(month.minutes)}",
        phrase(
            "too full: the {value} of {full}",
            value=phrase("week") if len(month.full) == 1 else phrase("weeks"),
            full=full,
        )
        if full
        else "",
        tuple(KindInMonth(kinds[kind], tuple(map(_in_month, rows))) for kind, rows in by_kind),
    )


def _in_month(row: RowView) -> WorkInMonth:
    """`anvil, heron and 2 more, 14 to 28 March, 3 h`."""
    names = [one.tree_name for one in row.named]
    more = row.more + len(names[FEW_NAMED:])
    trees = ", ".join(names[:FEW_NAMED]) + (phrase(" and {more} more", more=more) if more else "")
    told = [trees, words.between(row.first, row.last, row.first.year)]
    told += [words.minutes(row.minutes)] if row.minutes else []
    return WorkInMonth(_task(row), ", ".join((told[0], *map(kept_together, told[1:]))))
