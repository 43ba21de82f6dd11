"""Places days in a drawing of the year ahead, and draws what its drawings share.

Lines are drawn a thousand steps across and then stretched, letters and buds stand at percents; so
they keep their size on a telephone and on paper. Upwards all is in pixels.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from datetime import date, timedelta
from itertools import pairwise

from backbud.words import MONTHS

ACROSS = 1000.0


def stretched(height: float, paths: str) -> str:
    """What is drawn a thousand steps across, as wide as its place on the page."""
    return (
        f'<svg width="100%" height="{height:.0f}" viewBox="0 0 {ACROSS:.0f} {height:.0f}" '
        f'preserveAspectRatio="none" overflow="visible">{paths}</svg>'
    )


def swelling(points: Sequence[tuple[float, float]], centre: float) -> str:
    """The outline of a piece of wood about a level line: half as thick at each point as told."""
    upper = [(x, centre - half) for x, half in points]
    lower = [(x, centre + half) for x, half in reversed(points)]
    return f"M{_point(upper[0])}{_curve(upper)}L{_point(lower[0])}{_curve(lower)}Z"


def _curve(points: Sequence[tuple[float, float]]) -> str:
    """On through the points, level at each."""
    parts = []
    for (x0, y0), (x1, y1) in pairwise(points):
        middle = (x0 + x1) / 2
        parts.append(
            f"H{x1:.0f}"
            if y0 == y1
            else f"C{middle:.0f} {y0:.1f} {middle:.0f} {y1:.1f} {x1:.0f} {y1:.1f}"
        )
    return "".join(parts)


def _point(point: tuple[float, float]) -> str:
    return f"{point[0]:.0f} {point[1]:.1f}"


def month_marks(first: date, end: date, height: float) -> str:
    """Where each month begins: one path, for a stretched drawing."""
    lines = "".join(
        f"M{x * ACROSS / 100:.0f} 0V{height:.0f}" for x in _begins(first, end) if 0 < x < 100
    )
    return f'<path class="months" d="{lines}"/>'


def month_letters(first: date, end: date, at: float) -> str:
    """The first letter of each month, in the middle of it."""
    begins = [0.0, *(x for x in _begins(first, end) if x > 0), 100.0]
    firsts = [first, *_firsts(first, end)]
    placed = [
        (MONTHS[day.month - 1][0], (left + right) / 2)
        for day, (left, right) in zip(firsts, pairwise(begins), strict=True)
        if right - left > 3
    ]
    across = " ".join(f"{x:.1f}%" for _, x in placed)
    letters = "".join(letter for letter, _ in placed)
    return f'<text class="letters" x="{across}" y="{at:.0f}" aria-hidden="true">{letters}</text>'


def _begins(first: date, end: date) -> Iterator[float]:
    for day in _firsts(first, end):
        yield 100 * (day - first).days / (end - first).days


def _firsts(first: date, end: date) -> Iterable[date]:
    """The first days of the months after the first day."""
    at = first
    while (at := (at.replace(day=1) + timedelta(days=31)).replace(day=1)) < end:
        yield at
