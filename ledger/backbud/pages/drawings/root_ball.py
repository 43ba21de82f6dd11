"""Draws the root ball from above in its pot, so that one sees which wedges to open next.

The tree's front is at the bottom, and the outline is the pot's own, to scale. The denser a wedge is
hatched, the longer it has been closed; one that was never opened is the densest, and one whose turn
is next is outlined twice.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from datetime import date
from functools import cache, lru_cache
from math import atan2, cos, hypot, pi, sin

from msgspec import Struct

from backbud.collection.wedges import Ring, ring
from backbud.pages.drawings.axes import Drawing, Key, Table
from backbud.tongue import full_day, phrase, spoken
from backbud.views.outline import OutlineView
from backbud.words import days as in_days

UNDERSIDE = "underside"

# Pixels: half the ball's longer side, how far the pot stands out round it, the middle, and how
# narrow a ball may be to have its years written into it.
_HALF, _RIM, _CORE, _NARROW = 122.0, 8.0, 27.0, 80.0
# With more wedges than these their years stand in the table alone.
_MOST_NAMED = 8
_SIDES = {"N": "back", "E": "right", "S": "front", "W": "left"}
# The hatching of each age: how far apart its lines are, in pixels; none of what was just opened.
_HATCHED = {"earlier": 11, "long": 6, "never": 3}


def sectors(opened: Collection[str], count: int | None) -> Ring:
    """The wedges round the ball, clockwise from the back, by all the names that are written.

    `count`: how many the card says, None where it does not.
    """
    return ring(count, opened)


def root_ball(
    ident: str,
    opened: Mapping[str, date],
    coming: Sequence[str],
    count: int | None,
    today: date,
    outline: OutlineView | None = None,
) -> Drawing:
    """The plan, what its hatching means, and the same in a table, oldest first.

    `outline`: the pot's; a round one where nobody wrote it down.
    """
    around = sectors((*opened, *coming), count)
    names = around.names
    underside = opened.get(UNDERSIDE)
    opened = around.last_opened(opened.items())
    coming = [names[at] for name in coming for at in around.places(name)]
    shape = _shape(outline)
    known = phrase(", in its {shape} pot", shape=phrase(outline.shape)) if outline else ""
    title = phrase("The root ball from above{known}, its front at the bottom", known=known)
    never = phrase("never")
    drawn: list[str] = []
    outlined: list[str] = []
    said: list[str] = []
    for name, cut in zip(names, _cuts(shape, len(names)), strict=True):
        day, path = opened.get(name), cut.path
        age = age_of(day, today)
        fill = f' fill="url(#{ident}-{age})"' if age in _HATCHED else ""
        if name in coming:
            drawn.append(f'<path class="wedge {age} coming"{fill} d="{path}"/>')
            # Twice: a broad line, and one of paper on it.
            outlined.append(
                f'<path class="next" d="{path}"/><path class="next between" d="{path}"/>'
            )
        else:
            drawn.append(f'<path class="wedge {age}"{fill} d="{path}"/>')
        said.append(f'<text class="name" {cut.name_at}>{name}</text>')
        if cut.year_at:
            year = day.year if day else never
            said.append(f'<text class="year" {cut.year_at}>{year}</text>')
    high = shape.half_width + _RIM + 4
    width, height = 2 * (_HALF + _RIM + 4), 2 * high + 20
    marks = "".join([*drawn, *outlined, _core(underside.year if underside else never, spoken())])
    svg = (
        f'<svg class="root-ball" role="img" aria-labelledby="{ident}-title" '
        f'width="{width:g}" height="{height:.0f}" '
        f'viewBox="{-width / 2:g} {-high:.0f} {width:g} {height:.0f}">'
        f'<title id="{ident}-title">{title}</title>'
        f"{_hatching(ident)}{shape.pot()}{marks}{''.join(said)}"
        f'<path class="front" d="M-7 {high:.0f}h14l-7 9z"/>'
        f'<text class="side" x="12" y="{high + 11:.0f}">{phrase("front")}</text></svg>'
    )
    rows = _rows(names, opened, underside, coming, today)
    return Drawing(svg, _keys_of_wedges(bool(coming), spoken()), Table(_heads(spoken()), rows))


@cache
def _keys_of_wedges(some_come: bool, language: str) -> tuple[Key, ...]:
    """What each hatching stands for, in the language spoken. `some_come`: the turn of some."""
    keys = (
        Key("wedge recent", phrase("opened within a year")),
        Key("wedge earlier", phrase("within three")),
        Key("wedge long", phrase("longer ago")),
        Key("wedge never", phrase("never opened")),
    )
    return (*keys, Key("wedge coming", phrase("its turn is next"))) if some_come else keys


@cache
def _heads(language: str) -> tuple[str, ...]:
    return phrase("Wedge"), phrase("Last opened"), phrase("Ago"), phrase("Next")


def age_of(opened: date | None, today: date) -> str:
    """How long a wedge has been closed, as the stylesheet's class."""
    if opened is None:
        return "never"
    years = (today - opened).days / 365.25
    return "recent" if years <= 1 else "earlier" if years <= 3 else "long"


class _Shape(Struct, frozen=True):
    """The outline of the ball: that of its pot, at the scale of the drawing."""

    form: str
    half_width: float

    def corners(self, grown: float = 0.0) -> list[tuple[float, float]]:
        """Its corners, clockwise from the back; none where it is round."""
        a, b = _HALF + grown, self.half_width + grown
        if self.form == "rectangle":
            return [(a, -b), (a, b), (-a, b), (-a, -b)]
        if self.form == "hexagon":
            return [(a / 2, -b), (a, 0), (a / 2, b), (-a / 2, b), (-a, 0), (-a / 2, -b)]
        return []

    def rim(self, angle: float) -> tuple[float, float]:
        """Where a line from the middle meets the outline; clockwise from the back."""
        x, y = sin(angle), -cos(angle)
        corners = self.corners()
        if not corners:
            far = 1 / hypot(x / _HALF, y / self.half_width)
            return far * x, far * y
        sides = zip(corners, corners[1:] + corners[:1], strict=True)
        far = min(far for one, other in sides if (far := _meets(x, y, one, other)) > 0)
        return far * x, far * y

    def between(self, first: float, last: float) -> str:
        """The way along the outline from an angle to a later one, as a path goes on."""
        end = _at(self.rim(last))
        corners = self.corners()
        if not corners:
            return f"A{_HALF:g} {self.half_width:.1f} 0 0 1 {end}"
        turned = sorted(((atan2(x, -y) - first) % (2 * pi), (x, y)) for x, y in corners)
        passed = "".join(f"L{_at(c)}" for far, c in turned if 1e-9 < far < last - first - 1e-9)
        return f"{passed}L{end}"

    def pot(self) -> str:
        """The inside of the pot round it."""
        corners = self.corners(_RIM)
        if corners:
            return f'<path class="pot" d="M{"L".join(map(_at, corners))}Z"/>'
        return f'<ellipse class="pot" rx="{_HALF + _RIM:g}" ry="{self.half_width + _RIM:.1f}"/>'


def _shape(outline: OutlineView | None) -> _Shape:
    wide = outline.width_cm / outline.length_cm if outline and outline.length_cm else 1.0
    return _Shape(outline.shape if outline else "round", _HALF * min(max(wide, 0.2), 1.5))


def _meets(x: float, y: float, one: tuple[float, float], other: tuple[float, float]) -> float:
    """How far along the direction (x, y) the side from one corner to the other lies; 0 where it is
    not met."""
    (ax, ay), (bx, by) = one, other
    dx, dy = bx - ax, by - ay
    across = x * dy - y * dx
    if abs(across) < 1e-12:
        return 0.0
    along = (ax * y - ay * x) / across
    return (ax * dy - ay * dx) / across if -1e-9 <= along <= 1 + 1e-9 else 0.0


class _Cut(Struct, frozen=True):
    """How a wedge is cut from the ball: its outline, and where its name stands in it; and its year,
    "" where that has no room there."""

    path: str
    name_at: str
    year_at: str


# Thousands of trees stand in pots of the same few outlines.
@lru_cache(maxsize=256)
def _cuts(shape: _Shape, count: int) -> tuple[_Cut, ...]:
    """The wedges of a ball that is told apart in so many, clockwise from the back."""
    return tuple(_cut(shape, 2 * pi * at / count, pi / count, count) for at in range(count))


def _cut(shape: _Shape, middle: float, half: float, count: int) -> _Cut:
    first, last = middle - half, middle + half
    inner, outer = (_at(_point(_CORE, angle)) for angle in (first, last))
    path = (
        f"M{inner}L{_at(shape.rim(first))}{shape.between(first, last)}"
        f"L{outer}A{_CORE:g} {_CORE:g} 0 0 0 {inner}Z"
    )
    x, y = shape.rim(middle)
    far = hypot(x, y)
    x, y = (v * (far + _CORE) / 2 / far for v in (x, y))
    if shape.half_width < _NARROW or count > _MOST_NAMED:
        return _Cut(path, f'x="{x:.1f}" y="{y + 5:.1f}"', "")
    return _Cut(path, f'x="{x:.1f}" y="{y - 2:.1f}"', f'x="{x:.1f}" y="{y + 13:.1f}"')


@cache
def _hatching(ident: str) -> str:
    """Lines as far apart as a wedge is old."""
    patterns = "".join(
        f'<pattern id="{ident}-{age}" width="{apart}" height="{apart}" '
        f'patternUnits="userSpaceOnUse" patternTransform="rotate(45)">'
        f'<path class="hatch" d="M0 0V{apart}"/></pattern>'
        for age, apart in _HATCHED.items()
    )
    return f"<defs>{patterns}</defs>"


@lru_cache(maxsize=256)
def _core(year: int | str, language: str) -> str:
    """The middle, with the year in which it was last opened from below."""
    return (
        f'<circle class="core" r="{_CORE:g}"/><text class="name" y="-2">{phrase("below")}</text>'
        f'<text class="year" y="13">{year}</text>'
    )


def _rows(
    names: Sequence[str],
    opened: Mapping[str, date],
    underside: date | None,
    coming: Collection[str],
    today: date,
) -> tuple[tuple[str, ...], ...]:
    """The wedges and the underside: first those never opened, then the longest closed."""
    parts = [*((name, opened.get(name)) for name in names), (UNDERSIDE, underside)]
    never, is_next, language = phrase("never"), phrase("next"), spoken()
    return tuple(
        [
            (
                _side(name, language),
                full_day(day) if day else never,
                in_days((today - day).days) if day else "",
                is_next if name in coming else "",
            )
            for name, day in sorted(parts, key=lambda part: part[1] or date.min)
        ]
    )


@lru_cache(maxsize=256)
def _side(name: str, language: str) -> str:
    return f"{name}, {phrase(_SIDES[name])}" if name in _SIDES else phrase(name)


def _point(radius: float, angle: float) -> tuple[float, float]:
    """Across and down from the middle; the angle goes clockwise from the back, at the top."""
    return radius * sin(angle), -radius * cos(angle)


def _at(point: tuple[float, float]) -> str:
    return f"{point[0]:.1f} {point[1]:.1f}"
