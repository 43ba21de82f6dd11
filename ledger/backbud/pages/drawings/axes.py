"""Places days and values in a drawing, and draws what most drawings share: axes and lines.

A drawing is as wide as its place on the page: across it everything is in percent, upwards in
pixels. So letters keep their size on a telephone and on paper, where a scaled drawing's would not.
The figures of the upright axis stand in the page's margin, left of the drawing.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date, timedelta
from html import escape
from math import ceil, floor, log10
from typing import NamedTuple

from msgspec import Struct

from backbud.tongue import phrase
from backbud.words import figure, short_months

# Pixels: the plot stands between the months under it and two lines above: the unit, and today.
TOP, PLOT_HEIGHT, FOOT = 38.0, 200.0, 26.0
HEIGHT = TOP + PLOT_HEIGHT + FOOT
# Lines are drawn on a grid of so many steps across, which is then stretched.
ACROSS = 1000.0
MOST_TICKS = 6


class Table(NamedTuple):
    """The figures of a drawing: a head for each column, and rows; the first column is the day."""

    heads: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]


class Key(NamedTuple):
    """What one kind of mark stands for; `mark` is the class that the stylesheet colours."""

    mark: str
    words: str


class Drawing(NamedTuple):
    """A drawing as SVG, what its marks stand for, and its figures."""

    svg: str
    keys: tuple[Key, ...]
    table: Table


class Axes(Struct, frozen=True):
    """The days across (the last is not included) and the values upwards, with the unit."""

    first: date
    end: date
    low: float
    high: float
    step: float
    unit: str

    def x(self, day: date) -> float:
        """How far across a day begins, in percent."""
        return 100.0 * (day - self.first).days / (self.end - self.first).days

    def y(self, value: float) -> float:
        """How far down a value stands, in pixels."""
        return TOP + PLOT_HEIGHT * (self.high - value) / (self.high - self.low)


def axes_for(
    first: date, end: date, values: Sequence[float], unit: str, floor_at: float | None = None
) -> Axes:
    """Axes that hold all the values between round figures; `floor_at`: the lowest, if set.

    ValueError where there is no day, or no value.
    """
    if not (first < end and values):
        raise ValueError("a drawing needs days and values")
    low = min(values) if floor_at is None else floor_at
    high = max(max(values), low)
    step = _round_step((high - low) / (MOST_TICKS - 1))
    below = floor(low / step) * step
    above = max(ceil(high / step) * step, below + step)
    return Axes(first, end, below, above, step, unit)


def _round_step(least: float) -> float:
    """The smallest of 1, 2, 5, 10 … (and tenths of them) that is not under `least`."""
    if least <= 0:
        return 1.0
    power = 10.0 ** floor(log10(least))
    return float(next(power * n for n in (1, 2, 5, 10) if power * n >= least * (1 - 1e-9)))


def drawing(ident: str, title: str, about: str, axes: Axes, marks: str, today: date) -> str:
    """The whole SVG: its name and what it shows in words, grid, marks, axes, and today."""
    return (
        f'<svg class="drawing" role="img" aria-labelledby="{ident}-title" '
        f'aria-describedby="{ident}-about" '
        f'width="100%" height="{HEIGHT:.0f}">'
        f'<title id="{ident}-title">{escape(title)}</title>'
        f'<desc id="{ident}-about">{escape(about)}</desc>'
        f"{''.join(_grid(axes))}{''.join(_months(axes))}{marks}{_today(axes, today)}</svg>"
    )


def line(axes: Axes, points: Sequence[tuple[date, float]], mark: str) -> str:
    """A line through days and values; nothing for less than two."""
    return _stretched(axes, points, mark, "polyline") if len(points) > 1 else ""


def band(
    axes: Axes, points: Sequence[tuple[date, float]], under: Sequence[tuple[date, float]], mark: str
) -> str:
    """The room between two lines over the same days."""
    return _stretched(axes, [*points, *reversed(under)], mark, "polygon")


def _stretched(axes: Axes, points: Sequence[tuple[date, float]], mark: str, shape: str) -> str:
    placed = " ".join(
        f"{axes.x(day) * ACROSS / 100:.1f},{axes.y(value):.2f}" for day, value in points
    )
    return (
        f'<svg width="100%" height="{HEIGHT:.0f}" viewBox="0 0 {ACROSS:.0f} {HEIGHT:.0f}" '
        f'preserveAspectRatio="none"><{shape} class="{mark}" points="{placed}"/></svg>'
    )


def _grid(axes: Axes) -> Iterator[str]:
    """The unit above, and for each round figure a line across and its number in the margin."""
    yield f'<text class="unit" x="0" y="12">{escape(axes.unit)}</text>'
    for n in range(round((axes.high - axes.low) / axes.step) + 1):
        value = axes.low + n * axes.step
        at = axes.y(value)
        ground = " ground" if abs(value) < axes.step * 1e-6 or n == 0 else ""
        yield f'<line class="grid{ground}" x1="0" x2="100%" y1="{at:.2f}" y2="{at:.2f}"/>'
        yield f'<text class="tick" x="-1.75rem" y="{at + 4:.2f}">{tick(value)}</text>'


def tick(value: float) -> str:
    """A figure of an axis: `-5` with a true minus, `0.5`, `1500`."""
    return figure(value, ".6g")


def _months(axes: Axes) -> Iterator[str]:
    """For each month that begins in the drawing a tick, and its name in the middle of its part."""
    foot = TOP + PLOT_HEIGHT
    begins = [axes.first, *_firsts(axes.first, axes.end)]
    for n, (one, nxt) in enumerate(zip(begins, [*begins[1:], axes.end], strict=True)):
        left, right = axes.x(one), axes.x(nxt)
        yield f'<line class="axis" x1="{left:.3f}%" x2="{left:.3f}%" y1="{foot}" y2="{foot + 5}"/>'
        if right - left > 50 / 12:
            every = "month" if n % 2 == 0 else "month between"
            yield (
                f'<text class="{every}" x="{(left + right) / 2:.3f}%" y="{foot + 20}">'
                f"{short_months()[one.month - 1]}</text>"
            )
    yield f'<line class="axis" x1="0" x2="100%" y1="{foot}" y2="{foot}"/>'


def _firsts(first: date, end: date) -> Iterator[date]:
    """The first days of the months after the first day."""
    at = first.replace(day=1)
    while True:
        at = (at + timedelta(days=31)).replace(day=1)
        if at >= end:
            return
        yield at


def _today(axes: Axes, today: date) -> str:
    if not axes.first <= today < axes.end:
        return ""
    at = axes.x(today + timedelta(days=1))
    side = "before" if at > 85 else "after"
    return (
        f'<line class="today" x1="{at:.3f}%" x2="{at:.3f}%" y1="{TOP}" y2="{TOP + PLOT_HEIGHT}"/>'
        f'<text class="now {side}" x="{at:.3f}%" y="{TOP - 8}">{escape(phrase("today"))}</text>'
    )
