"""The works of a season go in; when each kind may be done, and when it stands, come out as SVG.

A row for each act: its open windows are a twig, and each week in which it stands bears a leaf, the
taller the more hours it takes. The rows follow one another as the year does.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from datetime import date, timedelta
from functools import partial
from html import escape
from itertools import chain

from msgspec import Struct

from backbud import words
from backbud.kept import KEEP_NOTHING, Is, Kept
from backbud.pages.drawings.axes import Drawing, Key, Table
from backbud.plan.season import WEEK, Season, Week, Work
from backbud.words import MONTHS

# Pixels.
HEAD, ROW, FOOT = 22.0, 26.0, 6.0
SMALLEST_LEAF, TALLEST_LEAF = 8.0, 20.0
# A leaf as the buds of the headings are: two corners round, two pointed.
LEAF = "M0 10Q0 0 10 0Q10 10 0 10Z"
KEYS = (
    Key("twig", "may be done"),
    Key("leaf", "stands in this week; the taller, the more hours"),
)


Stretch = tuple[date, date]
# Of each act: its open stretches, and its minutes.
InWeek = dict[str, tuple[list[Stretch], int]]


class Row(Struct, frozen=True):
    """An act: its bare form, its open stretches (first and last day), and the minutes by week."""

    name: str
    stretches: tuple[Stretch, ...]
    minutes: tuple[int, ...]


def rows_of(
    season: Season, bare: Callable[[str], str], kept: Kept = KEEP_NOTHING
) -> tuple[Row, ...]:
    """A row for each act, that which stands first first. `bare`: an act as a work is called.

    `kept`: what an earlier run of this process left of each week.
    """
    end = season.weeks[-1].monday + WEEK
    by_week = [
        kept.once(("windows in", n), (Is(week), end), partial(_in_week, week, end))
        for n, week in enumerate(season.weeks)
    ]
    rows = []
    for act in dict.fromkeys(chain.from_iterable(by_week)):
        stretches = (stretch for week in by_week if act in week for stretch in week[act][0])
        minutes = tuple(week[act][1] if act in week else 0 for week in by_week)
        rows.append(Row(bare(act), tuple(_stretches(stretches)), minutes))
    return tuple(sorted(rows, key=lambda row: (_first_week(row), row.name)))


def _in_week(week: Week, end: date) -> InWeek:
    by_act: dict[str, list[Work]] = {}
    for placed in week.works:
        by_act.setdefault(placed.work.act, []).append(placed.work)
    return {
        act: (
            list(_stretches((work.opens, min(work.closes, end)) for work in works)),
            sum(max(work.minutes, 1) for work in works),
        )
        for act, works in by_act.items()
    }


def _first_week(row: Row) -> int:
    return next(n for n, minutes in enumerate(row.minutes) if minutes)


def _stretches(windows: Iterable[Stretch]) -> Iterator[Stretch]:
    """Windows that touch become one."""
    open_now: Stretch | None = None
    for opens, closes in sorted(set(windows)):
        if open_now is not None and opens <= open_now[1] + timedelta(days=1):
            open_now = (open_now[0], max(open_now[1], closes))
            continue
        if open_now is not None:
            yield open_now
        open_now = (opens, closes)
    if open_now is not None:
        yield open_now


def draw(ident: str, season: Season, rows: Sequence[Row], today: date) -> Drawing:
    """Draw the rows over the season's weeks."""
    first, end = season.weeks[0].monday, season.weeks[-1].monday + WEEK
    height = HEAD + ROW * len(rows) + FOOT
    days = (end - first).days
    tallest = max((minutes for row in rows for minutes in row.minutes), default=1)

    def x(day: date) -> float:
        return 100.0 * (min(max(day, first), end) - first).days / days

    marks = "".join(
        _row(row, HEAD + ROW * (n + 1), x, 100.0 * WEEK.days / days, tallest)
        for n, row in enumerate(rows)
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


def _row(row: Row, ground: float, x: Callable[[date], float], week: float, tallest: int) -> str:
    """The name in the margin, the twigs, and the leaves on them."""
    parts = [f'<text class="tick" x="-1.75rem" y="{ground - 2:.1f}">{escape(row.name)}</text>']
    for opens, closes in row.stretches:
        left, right = x(opens), x(closes + timedelta(days=1))
        parts.append(
            f'<line class="twig" x1="{left:.3f}%" x2="{max(right, left + 0.4):.3f}%" '
            f'y1="{ground:.1f}" y2="{ground:.1f}"/>'
        )
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


def _weeks(row: Row, first: date, today: date) -> str:
    """The Mondays of the weeks in which a row stands."""
    weeks = (first + n * WEEK for n, minutes in enumerate(row.minutes) if minutes)
    return ", ".join(words.day(monday, today.year) for monday in weeks)


def _said(row: Row, today: date) -> str:
    """When a row stands, in words."""
    return ", ".join(words.between(*stretch, today.year) for stretch in row.stretches)
