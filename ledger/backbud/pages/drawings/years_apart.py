"""Draws a sum of each year on record as a dot on one line, and this year's as a bud."""

from __future__ import annotations

from html import escape

from backbud.pages.drawings.axes import tick
from backbud.tongue import phrase
from backbud.views.sky import Sum

HEIGHT, LEVEL, RADIUS = 74.0, 40.0, 5.0
# Pixels from one dot to the next above it.
STEP = 12.0
# So near to this year's bud a dot lies under its name on a phone, in percent.
UNDER_NAME = 10.0
# From where to where the dots stand, in percent: their names have room beside them.
LEFT, RIGHT = 8.0, 92.0
# So near to another dot one stands above it, in percent.
NEAR = 3.0


def draw(ident: str, title: str, found: Sum) -> str:
    """The sums by the day of today; "" where no year is on record."""
    if not found.years:
        return ""
    values = [(one.name, one.by_now) for one in found.years]
    every = [*(value for _, value in values), found.now, found.average_now]
    low, high = min(every), max(every)

    def x(value: float) -> float:
        return LEFT + (RIGHT - LEFT) * ((value - low) / (high - low) if high > low else 0.5)

    placed: list[tuple[str, float, int]] = []
    ordered = sorted(values, key=lambda one: one[1])
    for name, value in ordered:
        at = x(value)
        placed.append((name, at, sum(abs(at - other) < NEAR for _, other, _ in placed)))
    now = x(found.now)
    higher = STEP * max((level for _, at, level in placed if abs(at - now) < UNDER_NAME), default=0)
    ground = LEVEL + higher
    marks = [
        f'<line class="axis" x1="0" x2="100%" y1="{ground}" y2="{ground}"/>',
        f'<line class="mean" x1="{x(found.average_now):.1f}%" x2="{x(found.average_now):.1f}%" '
        f'y1="{ground - 16}" y2="{ground + 8}"/>',
    ]
    for name, at, level in placed:
        cy = ground - STEP * level
        marks.append(f'<circle class="dot" cx="{at:.1f}%" cy="{cy:.0f}" r="{RADIUS:.0f}"/>')
        if name in (ordered[0][0], ordered[-1][0]):
            marks.append(f'<text class="month" x="{at:.1f}%" y="{ground + 22:.0f}">{name}</text>')
    marks.append(f'<use class="bud" href="#bud" x="{now:.1f}%" y="{ground - 2:.0f}"/>')
    marks.append(
        f'<text class="month this-year" x="{now:.1f}%" y="{LEVEL - 18:.0f}">{found.name}</text>'
    )
    about = phrase(
        "{name} has {tick}; {ordered} had the least, {tick_2}, {ordered_2} the most, {tick_3}.",
        name=found.name,
        tick=tick(round(found.now)),
        ordered=ordered[0][0],
        tick_2=tick(round(ordered[0][1])),
        ordered_2=ordered[-1][0],
        tick_3=tick(round(ordered[-1][1])),
    )
    return (
        f'<svg class="drawing years-apart" role="img" aria-labelledby="{ident}-title" '
        f'aria-describedby="{ident}-about" width="100%" height="{HEIGHT + higher:.0f}">'
        f'<title id="{ident}-title">{escape(title)}</title>'
        f'<desc id="{ident}-about">{escape(about)}</desc>{"".join(marks)}</svg>'
    )
