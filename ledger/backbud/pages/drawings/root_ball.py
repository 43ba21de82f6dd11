"""Draws the root ball from above, so that one sees which wedges have been closed the longest.

The tree's front is at the bottom. Each wedge says its name, the year it was last opened, and
whether its turn is next; how dark it is says how long it has been closed.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping, Sequence
from datetime import date
from html import escape
from math import cos, pi, sin

from backbud.collection.wedges import COMPASS, Ring, ring
from backbud.pages.drawings.axes import Drawing, Key, Table
from backbud.words import days as in_days
from backbud.words import full_day

UNDERSIDE = "underside"

_RIM, _CORE = 100.0, 36.0
_SIDES = {"N": "back", "E": "right", "S": "front", "W": "left"}


def sectors(opened: Collection[str], count: int | None) -> Ring:
    """The wedges round the ball, clockwise from the back, by all the names that are written.

    `count`: how many the card says, None where it does not.
    """
    return ring(count, opened)


def root_ball(
    ident: str, opened: Mapping[str, date], coming: Sequence[str], count: int | None, today: date
) -> Drawing:
    """The plan, what its shades mean, and the same in a table, oldest first."""
    around = sectors((*opened, *coming), count)
    names = around.names
    underside = opened.get(UNDERSIDE)
    opened = around.last_opened(opened.items())
    coming = [names[at] for name in coming for at in around.places(name)]
    rows = tuple(_rows(names, opened, underside, coming, today))
    title = "The root ball from above, its front at the bottom"
    about = "; ".join(" ".join(row) for row in rows)
    marks = [
        mark
        for at, name in enumerate(names)
        for mark in _wedge(at, name, len(names), opened.get(name), name in coming, today)
    ]
    svg = (
        f'<svg class="root-ball" role="img" aria-labelledby="{ident}-title {ident}-about" '
        'viewBox="-112 -106 224 226">'
        f'<title id="{ident}-title">{title}</title><desc id="{ident}-about">{escape(about)}</desc>'
        f"{''.join(marks)}{''.join(_core(underside))}"
        '<path class="front" d="M-7 104 L7 104 L0 112 Z"/>'
        '<text class="side" x="12" y="113">front</text></svg>'
    )
    keys = (
        Key("wedge recent", "opened within a year"),
        Key("wedge earlier", "within three"),
        Key("wedge long", "longer ago"),
        Key("wedge never", "never opened"),
        *((Key("wedge coming", "its turn is next"),) if coming else ()),
    )
    heads = ("Wedge", "Last opened", "Ago", "Next")
    return Drawing(svg, keys, Table(heads, rows))


def age_of(opened: date | None, today: date) -> str:
    """How long a wedge has been closed, as the stylesheet's class."""
    if opened is None:
        return "never"
    years = (today - opened).days / 365.25
    return "recent" if years <= 1 else "earlier" if years <= 3 else "long"


def _wedge(
    at: int, name: str, count: int, opened: date | None, is_next: bool, today: date
) -> Iterator[str]:
    half = pi / count
    middle = 2 * half * at
    corners = (
        _point(_CORE, middle - half),
        _point(_RIM, middle - half),
        _point(_RIM, middle + half),
        _point(_CORE, middle + half),
    )
    a, b, c, d = (f"{x:.2f} {y:.2f}" for x, y in corners)
    shade = age_of(opened, today) + (" coming" if is_next else "")
    yield (
        f'<path class="wedge {shade}" d="M{a} L{b} A{_RIM:g} {_RIM:g} 0 0 1 {c} L{d} '
        f'A{_CORE:g} {_CORE:g} 0 0 0 {a} Z"/>'
    )
    x, y = _point((_RIM + _CORE) / 2 + 2, middle)
    yield f'<text class="name" x="{x:.1f}" y="{y - 2:.1f}">{name}</text>'
    year = str(opened.year) if opened else "never"
    said = f"{year}, next" if is_next and count <= len(COMPASS) else year
    yield f'<text class="year" x="{x:.1f}" y="{y + 9:.1f}">{said}</text>'


def _core(underside: date | None) -> Iterator[str]:
    yield f'<circle class="core" r="{_CORE - 4:g}"/>'
    yield '<text class="name" y="-3">below</text>'
    yield f'<text class="year" y="9">{underside.year if underside else "never"}</text>'


def _rows(
    names: Sequence[str],
    opened: Mapping[str, date],
    underside: date | None,
    coming: Collection[str],
    today: date,
) -> Iterator[tuple[str, ...]]:
    """The wedges and the underside: first those never opened, then the longest closed."""
    parts = [*((name, opened.get(name)) for name in names), (UNDERSIDE, underside)]
    for name, day in sorted(parts, key=lambda part: part[1] or date.min):
        side = f"{name}, {_SIDES[name]}" if name in _SIDES else name
        yield (
            side,
            full_day(day) if day else "never",
            in_days((today - day).days) if day else "",
            "next" if name in coming else "",
        )


def _point(radius: float, angle: float) -> tuple[float, float]:
    """Across and down from the middle; the angle goes clockwise from the back, at the top."""
    return radius * sin(angle), -radius * cos(angle)
