"""Draws a window as one line: its days in ink, a leaf on the best, and today.

All lines have one scale, six weeks back and six ahead, so that today stands at the same place in
every row. What reaches beyond is cut off there; the words beside it tell the days.
"""

from __future__ import annotations

from datetime import date
from functools import lru_cache

from backbud.words import WindowDays

WIDTH, HEIGHT = 280, 20
DAYS = 42
_MIDDLE = HEIGHT // 2


def window_line(window: WindowDays, today: date, late: bool) -> str:
    """The drawing; it says nothing that the row does not say in words."""
    days = (window.opens - today).days, (window.best - today).days, (window.closes - today).days
    return _from_today(*days, late)


# Works of thousands of trees have windows of the same days.
@lru_cache(maxsize=4096)
def _from_today(opens_in: int, best_in: int, closes_in: int, late: bool) -> str:
    """The drawing of a window that opens, is best and closes in so many days."""
    opens, closes = _x(opens_in), _x(closes_in)
    best = _leaf(_x(best_in)) if abs(best_in) <= DAYS else ""
    # A day is as wide as a day: the last one is included.
    end = min(closes + WIDTH / (2 * DAYS), WIDTH)
    last = _diamond(closes) if late else ""
    return (
        f'<svg class="window" width="{WIDTH}" height="{HEIGHT}" viewBox="0 0 {WIDTH} {HEIGHT}" '
        f'aria-hidden="true"><path class="wood" d="M0 {_MIDDLE}H{WIDTH}"/>'
        f'<path class="days" d="M{opens:.0f} {_MIDDLE}H{end:.0f}"/>{best}{last}'
        f'<path class="today" d="M{WIDTH // 2} 1V{HEIGHT - 1}"/></svg>'
    )


def year_line(window: WindowDays, first: date, today: date) -> str:
    """The same over the twelve months from a first day on. What reaches beyond them comes back at
    their start, since it is so every year."""

    def x(day: date) -> float:
        return (day - first).days * WIDTH / 365

    opens, closes = x(window.opens) % WIDTH, x(window.closes) % WIDTH
    end = closes + WIDTH / 365
    days = f"M{opens:.0f} {_MIDDLE}H{end:.0f}"
    if closes < opens:
        days = f"M{opens:.0f} {_MIDDLE}H{WIDTH}M0 {_MIDDLE}H{end:.0f}"
    return (
        f'<svg class="window" width="{WIDTH}" height="{HEIGHT}" viewBox="0 0 {WIDTH} {HEIGHT}" '
        f'aria-hidden="true"><path class="wood" d="M0 {_MIDDLE}H{WIDTH}"/>'
        f'<path class="days" d="{days}"/>{_leaf(x(window.best) % WIDTH)}'
        f'<path class="today" d="M{x(today) % WIDTH:.0f} 1V{HEIGHT - 1}"/></svg>'
    )


def _x(days: int) -> float:
    """How far across the day in so many days stands, in pixels: within the line."""
    return min(max(days + DAYS, 0), 2 * DAYS) * WIDTH / (2 * DAYS)


def _leaf(x: float) -> str:
    """A leaf with its stem on the line."""
    return f'<path class="best" d="M{x:.0f} {_MIDDLE}q-7-4 0-10q7 6 0 10z"/>'


def _diamond(x: float) -> str:
    x = min(max(x, 5), WIDTH - 5)
    return f'<path class="late" d="M{x:.0f} {_MIDDLE - 5}l5 5l-5 5l-5-5z"/>'
