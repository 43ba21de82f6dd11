"""Draws when each kind of work may be done, and in which weeks it stands.

A row for each act: a twig, the thicker the more works have their window then, and each week in
which it stands bears a leaf, the taller the more hours it takes. Windows of several trees are never
told as one, since none of them may have it. The rows follow one another as the year does.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterable, Iterator, Sequence
from datetime import date, timedelta
from functools import partial
from html import escape
from itertools import chain, pairwise
from typing import NamedTuple

from msgspec import Struct

from backbud import words
from backbud.memo import NO_MEMO, Identical, Memo
from backbud.pages.drawings.axes import Drawing, Key, Table
from backbud.plan.season import WEEK, Week, WeeksAhead, Work
from backbud.words import MONTHS

# Pixels.
HEAD, ROW, FOOT = 22.0, 26.0, 6.0
SMALLEST_LEAF, TALLEST_LEAF = 8.0, 20.0
LEAST_WIDE = 0.4  # percent of the year
THINNEST_TWIG, THICKEST_TWIG = 1.5, 5.0
# So many windows of one kind of work are told one by one; of more only how far they reach.
MOST_TOLD = 6
# A leaf as the buds of the headings are: two corners round, two pointed.
LEAF = "M0 10Q0 0 10 0Q10 10 0 10Z"
KEYS = (
    Key("twig", "may be done; the thicker, the more works"),
    Key("leaf", "stands in this week; the taller, the more hours"),
)


Stretch = tuple[date, date]


class InWeek(NamedTuple):
    """Of an act in a week: how many works have each window, how many are late, and the minutes."""

    windows: Counter[Stretch]
    late: int
    minutes: int


class ActRow(Struct, frozen=True):
    """An act: its bare form, each window with how many works have it, in order, how many works are
    past theirs, and the minutes by week."""

    name: str
    windows: tuple[tuple[Stretch, int], ...]
    late: int
    minutes: tuple[int, ...]


def rows_of(
    season: WeeksAhead, bare: Callable[[str], str], kept: Memo = NO_MEMO
) -> tuple[ActRow, ...]:
    """A row for each act, that which stands first first. `bare`: an act as a work is called.

    `kept`: what an earlier run of this process left of each week.
    """
    by_week = [
        kept.once(("windows in", n), (Identical(week),), partial(_in_week, week))
        for n, week in enumerate(season.weeks)
    ]
    rows = []
    for act in dict.fromkeys(chain.from_iterable(by_week)):
        windows: Counter[Stretch] = Counter()
        for week in by_week:
            if act in week:
                windows.update(week[act].windows)
        late = sum(week[act].late for week in by_week if act in week)
        minutes = tuple(week[act].minutes if act in week else 0 for week in by_week)
        rows.append(ActRow(bare(act), tuple(sorted(windows.items())), late, minutes))
    return tuple(sorted(rows, key=lambda row: (_first_week(row), row.name)))


def _in_week(week: Week) -> dict[str, InWeek]:
    by_act: dict[str, list[Work]] = {}
    for placed in week.works:
        by_act.setdefault(placed.work.act, []).append(placed.work)
    return {
        act: InWeek(
            Counter(work.window for work in works if not work.late),
            sum(work.late for work in works),
            sum(max(work.minutes, 1) for work in works),
        )
        for act, works in by_act.items()
    }


def _first_week(row: ActRow) -> int:
    return next(n for n, minutes in enumerate(row.minutes) if minutes)


def _open_by_day(row: ActRow) -> Iterator[tuple[Stretch, int]]:
    """How many windows of a row are open from a day to a day, for each such time."""
    changes: Counter[date] = Counter()
    for (opens, closes), works in row.windows:
        changes[opens] += works
        changes[closes + timedelta(days=1)] -= works
    days = sorted(changes)
    open_now = 0
    for first, after in pairwise(days):
        open_now += changes[first]
        if open_now:
            yield (first, after - timedelta(days=1)), open_now


def draw(ident: str, season: WeeksAhead, rows: Sequence[ActRow], today: date) -> Drawing:
    """Draw the rows over the season's weeks."""
    first, end = season.weeks[0].monday, season.weeks[-1].monday + WEEK
    height = HEAD + ROW * len(rows) + FOOT
    days = (end - first).days
    tallest = max((minutes for row in rows for minutes in row.minutes), default=1)
    twigs = [list(_open_by_day(row)) for row in rows]
    most = max((works for twig in twigs for _, works in twig), default=1)

    def x(day: date) -> float:
        return 100.0 * (min(max(day, first), end) - first).days / days

    marks = "".join(
        _name(row, HEAD + ROW * (n + 1))
        + _twig(twig, HEAD + ROW * (n + 1), x, most)
        + _leaves(row, HEAD + ROW * (n + 1), 100.0 * WEEK.days / days, tallest)
        for n, (row, twig) in enumerate(zip(rows, twigs, strict=True))
    )
    about = "; ".join(f"{row.name}: {_said(row, today)}" for row in rows)
    return Drawing(
        f'<svg class="drawing windows" role="img" aria-labelledby="{ident}-title" '
        f'aria-describedby="{ident}-about" '
        f'width="100%" height="{height:.0f}">'
        f'<title id="{ident}-title">When each kind of work may be done</title>'
        f'<desc id="{ident}-about">{escape(about)}.</desc>'
        f"{''.join(_months(first, end, height, x))}{marks}</svg>",
        KEYS,
        Table(
            ("Work", "May be done", "Stands in the week of"),
            tuple((row.name, _said(row, today), _weeks(row, first, today)) for row in rows),
        ),
    )


def _name(row: ActRow, ground: float) -> str:
    return f'<text class="tick" x="-1.75rem" y="{ground - 2:.1f}">{escape(row.name)}</text>'


def _twig(
    twig: Iterable[tuple[Stretch, int]], ground: float, x: Callable[[date], float], most: int
) -> str:
    """The twig, below the ground of its row."""
    parts = []
    for (opens, closes), works in twig:
        left, right = min(x(opens), 100 - LEAST_WIDE), x(closes + timedelta(days=1))
        thick = THINNEST_TWIG + (THICKEST_TWIG - THINNEST_TWIG) * works / most
        parts.append(
            f'<rect class="twig" x="{left:.3f}%" y="{ground - 1.5:.1f}" '
            f'width="{max(right - left, LEAST_WIDE):.3f}%" height="{thick:.2f}"/>'
        )
    return "".join(parts)


def _leaves(row: ActRow, ground: float, week: float, tallest: int) -> str:
    """A leaf for each week in which the row stands."""
    parts = []
    for n, minutes in enumerate(row.minutes):
        if minutes:
            tall = SMALLEST_LEAF + (TALLEST_LEAF - SMALLEST_LEAF) * minutes / tallest
            parts.append(
                f'<svg x="{n * week + week * 0.06:.3f}%" y="{ground - tall:.1f}" '
                f'width="{week * 0.88:.3f}%" height="{tall:.1f}" viewBox="0 0 10 10" '
                f'preserveAspectRatio="none"><path class="leaf" d="{LEAF}"/></svg>'
            )
    return "".join(parts)


def _months(first: date, end: date, height: float, x: Callable[[date], float]) -> Iterator[str]:
    """A line where each month begins, and its name above."""
    begins = [first]
    while (after := (begins[-1].replace(day=1) + timedelta(days=31)).replace(day=1)) < end:
        begins.append(after)
    for n, (one, nxt) in enumerate(zip(begins, [*begins[1:], end], strict=True)):
        left, right = x(one), x(nxt)
        if n:
            yield (
                f'<line class="grid" x1="{left:.3f}%" x2="{left:.3f}%" y1="{HEAD - 6}" '
                f'y2="{height:.0f}"/>'
            )
        if right - left > 50 / 12:
            every = "month" if n % 2 == 0 else "month between"
            yield (
                f'<text class="{every}" x="{(left + right) / 2:.3f}%" y="12">'
                f"{MONTHS[one.month - 1][:3]}</text>"
            )


def _weeks(row: ActRow, first: date, today: date) -> str:
    """The Mondays of the weeks in which a row stands."""
    weeks = (first + n * WEEK for n, minutes in enumerate(row.minutes) if minutes)
    return ", ".join(words.day(monday, today.year) for monday in weeks)


def _said(row: ActRow, today: date) -> str:
    """When the works of a row may be done, in words."""
    told = [f"{words.number(row.late, 'work')} past the time for it"] if row.late else []
    if len(row.windows) <= MOST_TOLD:
        told += [
            words.between(*window, today.year) + (f" ({works} works)" if works > 1 else "")
            for window, works in row.windows
        ]
    else:
        first = min(opens for (opens, _), _ in row.windows)
        last = max(closes for (_, closes), _ in row.windows)
        told.append(
            f"{len(row.windows)} windows, the first from {words.day(first, today.year)}, the last "
            f"until {words.day(last, today.year)}"
        )
    return ", ".join(told)
