"""Draws frost as one dot a winter: above the line each winter's first, below it each one's last."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from datetime import date, timedelta
from html import escape

from backbud.pages.drawings.axes import Drawing, Key, Table
from backbud.pages.drawings.year_line import month_letters, month_marks, stretched
from backbud.tongue import phrase
from backbud.views.sky import FrostOfWinter, Frosts
from backbud.words import day, number

# Pixels: a dot and its room, and the names of the winters beyond the first and the last.
RADIUS, ROOM = 5.0, 13.0
# Dots nearer than so many days stand one on the other.
NEAR_DAYS = 11
# What a winter's name takes of the width on a phone, in percent.
NAME_ROOM = 18.0
SEASON_DAYS = 365
LETTERS = 20.0


def draw(ident: str, title: str, found: Frosts, today: date) -> Drawing:
    """Draw the winters on record, and the one that is on."""
    begins = found.begins
    end = begins + timedelta(days=SEASON_DAYS)
    firsts = list(_dots(((one.name, one.first) for one in found.seasons), begins))
    lasts = list(_dots(((one.name, one.last) for one in found.seasons), begins))
    highest = max((level for *_, level in firsts), default=0)
    above = ROOM * (highest + 2) + 4
    below = ROOM * (max((level for *_, level in lasts), default=0) + 1) + 4
    height = above + below + LETTERS
    marks = [
        f'<circle class="dot" cx="{x:.1f}%" cy="{above + side * ROOM * (level + 0.75):.1f}" '
        f'r="{RADIUS:.0f}"/>'
        for side, dots in ((-1, firsts), (1, lasts))
        for _, x, level in dots
    ]
    # Above all dots, so that no name lies on one.
    marks += _names(firsts, above - ROOM * (highest + 0.75) - RADIUS - 5)
    if found.this.first is not None:
        x = _across(found.this.first, begins)
        marks.append(f'<use class="bud" href="#bud" x="{x:.1f}%" y="{above - 3:.1f}"/>')
    shown = f"{100 * (today - begins).days / SEASON_DAYS:.1f}%"
    lines = (
        f'<line class="axis" x1="0" x2="100%" y1="{above:.0f}" y2="{above:.0f}"/>'
        f'<line class="today" x1="{shown}" x2="{shown}" y1="8" y2="{height - LETTERS:.0f}"/>'
    )
    return Drawing(
        f'<svg class="drawing frosted" role="img" aria-labelledby="{ident}-title" '
        f'aria-describedby="{ident}-about" width="100%" height="{height:.0f}">'
        f'<title id="{ident}-title">{escape(title)}</title>'
        f'<desc id="{ident}-about">{escape(_about(found, today))}</desc>'
        f"{stretched(height, month_marks(begins, end, height - LETTERS))}"
        f"{lines}{''.join(marks)}{month_letters(begins, end, height - 4)}</svg>",
        tuple(_keys(found, today)),
        _table(found, today),
    )


def _dots(
    winters: Iterable[tuple[str, date | None]], begins: date
) -> Iterator[tuple[str, float, int]]:
    """Name, how far across in percent, and how many dots stand below it."""
    placed: list[tuple[float, int]] = []
    near = 100 * NEAR_DAYS / SEASON_DAYS
    for name, x in sorted(
        ((name, _across(on, begins)) for name, on in winters if on is not None),
        key=lambda dot: dot[1],
    ):
        level = 0
        while any(at == level and x - other < near for other, at in placed):
            level += 1
        placed.append((x, level))
        yield name, x, level


def _across(on: date, begins: date) -> float:
    """Where a day of any winter stands, in percent."""
    years = begins.year - on.year + (1 if (on.month, on.day) < (begins.month, begins.day) else 0)
    return 100 * ((on - begins).days + round(years * 365.25)) / SEASON_DAYS


def _names(dots: Sequence[tuple[str, float, int]], y: float) -> list[str]:
    """The earliest and the latest winter by name."""
    if not dots:
        return []
    (first, x, _), (last, end, _) = dots[0], dots[-1]
    named = [(first, x, "before" if x > NAME_ROOM else "after")]
    # Each begins at its dot and goes outwards; where there is no room for two, the first stands.
    if len(dots) > 1 and (x > NAME_ROOM or end > x + NAME_ROOM):
        named.append((last, end, "after" if end < 100 - NAME_ROOM else "before"))
    return [
        f'<text class="now {side}" x="{x:.1f}%" y="{y:.0f}">{name}</text>'
        for name, x, side in named
    ]


def _keys(found: Frosts, today: date) -> Iterator[Key]:
    yield Key("dot", phrase("above the line a winter's first frost, below it its last"))
    if found.this.first is not None:
        yield Key(
            "leaf", phrase("this winter's first, {day}", day=day(found.this.first, today.year))
        )


def _about(found: Frosts, today: date) -> str:
    known = [one for one in found.seasons if one.first is not None]
    said = phrase("{winters} with frost on record.", winters=number(len(known), "winter"))
    if found.this.first is not None:
        said += phrase(
            " The first of this winter was on {day}.", day=day(found.this.first, today.year)
        )
    return said


def _table(found: Frosts, today: date) -> Table:
    return Table(
        ("Winter", phrase("First frost"), phrase("Last frost")),
        tuple(map(_row, reversed(found.seasons))),
    )


def _row(one: FrostOfWinter) -> tuple[str, ...]:
    return one.name, _on(one.first), _on(one.last)


def _on(found: date | None) -> str:
    return phrase("none") if found is None else day(found, found.year)
