"""Draws the years of a tree: one line of wood a year, and on it what was done.

A leaf is a cut, a half disc below the line is work on the roots, a coil is wire from the day it
went on to the day it came off, a dot is feed, a triangle below is a move, a bud is a stage that was
seen. What is only roughly known is a soft band over the days it can mean; what is foreseen is
unfilled.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from datetime import date, timedelta
from functools import cache, lru_cache

from msgspec import Struct

from backbud.pages.history import OfDate
from backbud.tongue import phrase, spoken
from backbud.views.history import DateView
from backbud.views.life import Sign, WireView
from backbud.views.work import WorkView

# How many of the latest years are drawn.
MOST_YEARS = 30
HEIGHT = 30
_LINE = 15
# The signs, drawn about the point on the line where they stand; they are moved down to it once.
_SIGNS: dict[Sign, str] = {
    "cut": "M0 0q-9-5-1-13q10 6 1 13z",
    "roots": "M-7 1h14a7 7 0 0 1-14 0z",
    "feed": "M-3 0a3 3 0 0 1 6 0a3 3 0 0 1-6 0z",
    "move": "M0 2l6 10h-12z",
    "seen": "M-4 0q0-6 4-11q4 5 4 11z",
}
SIGN_WORDS: dict[Sign, str] = {
    "cut": "cut",
    "roots": "roots",
    "feed": "feed",
    "move": "move",
    "seen": "stage seen",
}


class YearLine(Struct, frozen=True):
    """A year and its line."""

    year: int
    svg: str


class YearsDrawn(Struct, frozen=True):
    """The lines, the newest first; `signs`: what they are made from; `keys`: a sign, and its words.

    `more`: how many years before them have no line of their own.
    """

    signs: str
    keys: tuple[tuple[str, str], ...]
    lines: tuple[YearLine, ...]
    more: int


def years_drawn(
    by_year: Mapping[int, Iterable[OfDate]],
    wires: Sequence[WireView],
    due: Sequence[WorkView],
    today: date,
) -> YearsDrawn | None:
    """The years from the first that is written of to the one of the last work that is foreseen
    within a year; None where nothing has a mark. `by_year`: the history."""
    ahead = [one for one in due if one.sign and today <= one.best <= today + timedelta(365)]
    last = max(today.year, *(one.best.year for one in ahead), 0)
    done, signs = _marked(by_year, last)
    if not (done or wires or ahead):
        return None
    first = min([today.year, *done, *(one.on.year for one in wires)])
    years = range(last, first - 1, -1)
    shown = years[:MOST_YEARS]
    foreseen = ahead[0].sign if ahead else ""
    used = frozenset(signs.union([one.sign for one in ahead]))
    wired = [(one.on.toordinal(), (one.off or today).toordinal()) for one in wires]
    return YearsDrawn(
        _signs(used),
        _keys(used, foreseen, bool(wires), spoken()),
        tuple([YearLine(year, _line(year, done.get(year, ()), wired, ahead, today))
               for year in shown]),
        len(years) - len(shown),
    )  # fmt: skip


def _marked(
    by_year: Mapping[int, Iterable[OfDate]], last: int
) -> tuple[dict[int, list[str]], set[Sign]]:
    """What was done as it is drawn, by each year up to the `last` that its date can mean, in the
    order of the history; and the signs it is drawn with."""
    drawn: dict[int, list[str]] = {}
    marks: dict[Sign, tuple[str, ...]] = {}
    for year, dates in by_year.items():
        if year == 1:
            continue
        begins = date(year, 1, 1).toordinal()
        of_year: list[str] = drawn.get(year, [])
        # Of one sort and place one is seen, so one is drawn.
        seen: set[str] = set()
        for when, entries in dates:
            at = -1
            for one in entries:
                sign = one.sign
                if not (sign and one.done):
                    continue
                if sign not in marks:
                    marks[sign] = _marks(sign)
                if at < 0 and when.exact:
                    at = when.first.toordinal() - begins
                if at < 0:
                    of_year.extend(_rough(when, sign, year))
                    for each in range(year + 1, min(when.last.year, last) + 1):
                        drawn.setdefault(each, []).extend(_rough(when, sign, each))
                elif (mark := marks[sign][at]) not in seen:
                    seen.add(mark)
                    of_year.append(mark)
        if of_year:
            drawn[year] = of_year
    return drawn, set(marks)


# Few sorts of work make few sets of signs, and each tree has one.
@lru_cache(maxsize=256)
def _signs(used: frozenset[Sign]) -> str:
    signs = "".join(
        f'<path id="s-{sign}" transform="translate(0 {_LINE})" d="{d}"/>'
        for sign, d in _SIGNS.items()
        if sign in used
    )
    return (
        f'<svg class="signs" width="0" height="0" aria-hidden="true"><defs>{signs}'
        '<pattern id="coil" y="8" width="9" height="14" patternUnits="userSpaceOnUse">'
        '<path class="coil" d="M0 7c1-8 6-8 6 0s-3 6-2 1s3-4 5-1"/></pattern></defs></svg>'
    )


@lru_cache(maxsize=256)
def _keys(
    used: frozenset[Sign], foreseen: Sign, wired: bool, language: str
) -> tuple[tuple[str, str], ...]:
    """What each sign stands for, in the language spoken. `foreseen`: one that is, "" for none."""
    keys = [
        (f'<svg width="18" height="26" aria-hidden="true"><use href="#s-{sign}" '
         f'x="9" y="-1"/></svg>', phrase(words))
        for sign, words in SIGN_WORDS.items() if sign in used
    ]  # fmt: skip
    if wired:
        keys.append((_coil_key(), phrase("wire, from on to off")))
    if foreseen:
        keys.append((f'<svg width="18" height="26" aria-hidden="true"><use class="ahead" '
                     f'href="#s-{foreseen}" x="9" y="-1"/></svg>',
                     phrase("foreseen")))  # fmt: skip
    return tuple(keys)


def _coil_key() -> str:
    return (
        '<svg width="26" height="26" aria-hidden="true">'
        '<rect x="0" y="8" width="24" height="14" fill="url(#coil)"/></svg>'
    )


# From the day that wire went on to the day it came off, as days are counted from the first of all.
_Span = tuple[int, int]


def _line(
    year: int,
    done: Sequence[str],
    wired: Sequence[_Span],
    ahead: Sequence[WorkView],
    today: date,
) -> str:
    begins = date(year, 1, 1).toordinal()
    drawn = [_WOOD] if year < today.year else [_BEGINS, *_begun(today, year)]
    if wired:
        for first, last in _joined(_in_year(wired, begins, date(year, 12, 31).toordinal())):
            drawn.append(
                f'<rect x="{_AT[first]}" y="8" width="{_WIDE[last - first]}" height="14" '
                'fill="url(#coil)"/>'
            )
    drawn += done
    if year >= today.year:
        seen: set[str] = set()
        for work in ahead:
            if work.best.year != year:
                continue
            mark = _marks(work.sign)[work.best.toordinal() - begins]
            if mark not in seen and mark not in done:
                seen.add(mark)
                drawn.append(mark.replace("<use", '<use class="ahead"'))
    drawn.append("</svg>")
    return "".join(drawn)


_BEGINS = f'<svg class="year" width="100%" height="{HEIGHT}" aria-hidden="true">'
# A year that is over.
_WOOD = f'{_BEGINS}<line class="wood" x1="0" x2="100.0%" y1="{_LINE}" y2="{_LINE}"/>'


def _begun(today: date, year: int) -> Iterator[str]:
    """The line of this year, or of one to come: what of it is past, and what is ahead."""
    end = _x(today, year) if year == today.year else 0.0
    if end:
        yield f'<line class="wood" x1="0" x2="{end:.1f}%" y1="{_LINE}" y2="{_LINE}"/>'
    yield f'<line class="wood ahead" x1="{end:.1f}%" x2="100%" y1="{_LINE}" y2="{_LINE}"/>'


def _rough(when: DateView, sign: Sign, year: int) -> Iterator[str]:
    """A band over the days it can mean, and its sign in the middle of them, both soft."""
    first = _x(max(when.first, date(year, 1, 1)), year)
    last = _x(min(when.last, date(year, 12, 31)), year)
    yield f'<line class="rough" x1="{first:.1f}%" x2="{last:.1f}%" y1="{_LINE}" y2="{_LINE}"/>'
    yield f'<use class="rough" href="#s-{sign}" x="{(first + last) / 2:.1f}%"/>'


def _x(day: date, year: int) -> float:
    """How far across its year a day stands, in percent, a little in from both ends."""
    return _across((day - date(year, 1, 1)).days)


def _across(days: int) -> float:
    return 1.0 + 98.0 * days / 366


# The same of each day of a year, and how wide a span of so many days is, as they are written.
_AT = tuple(f"{_across(days):.1f}%" for days in range(366))
_WIDE = tuple(f"{max(98.0 * days / 366, 1):.1f}%" for days in range(366))


# Every page has dozens of them, and there are few.
@cache
def _marks(sign: Sign) -> tuple[str, ...]:
    """A sign where each day of a year stands."""
    return tuple([f'<use href="#s-{sign}" x="{at}"/>' for at in _AT])


def _in_year(wired: Iterable[_Span], begins: int, ends: int) -> list[_Span]:
    """What of these lies in a year, from its first day, which is 0."""
    return [
        (on - begins if on > begins else 0, (off if off < ends else ends) - begins)
        for on, off in wired
        if on <= ends and begins <= off
    ]


def _joined(spans: list[_Span]) -> list[_Span]:
    """Spans that touch as one."""
    if len(spans) < 2:
        return spans
    found: list[_Span] = []
    for first, last in sorted(spans):
        if found and first <= found[-1][1]:
            found[-1] = (found[-1][0], max(found[-1][1], last))
        else:
            found.append((first, last))
    return found
