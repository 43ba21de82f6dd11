"""Draws the odds of frost by date: a line for autumn's first, a line for spring's last."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, timedelta

from backbud.pages.drawings.axes import Drawing, Key, Table, axes_for, drawing, line, tick
from backbud.views.sky import Odds
from backbud.words import day

KEYS = (
    Key("this", "winters in which a frost had come"),
    Key("rust", "winters in which one was still to come"),
)


def draw(ident: str, title: str, odds: Sequence[Odds], winters: int, today: date) -> Drawing:
    """Draw the odds of one cold season; ValueError for no day."""
    end = odds[-1].day + timedelta(days=7)
    axes = axes_for(odds[0].day, end, [0.0, 100.0], "of 100 winters", 0.0)
    marks = line(axes, [(o.day, o.come_percent) for o in odds], "this")
    marks += line(axes, [(o.day, o.to_come_percent) for o in odds], "rust")
    about = (
        f"Two lines from {winters} winters: one rises as first frosts come in autumn, the other "
        "falls as last frosts pass in spring."
    )
    table = Table(
        ("On", "Had come, of 100", "Still to come, of 100"),
        tuple(
            (day(o.day, today.year), tick(o.come_percent), tick(o.to_come_percent)) for o in odds
        ),
    )
    return Drawing(drawing(ident, title, about, axes, marks, today), KEYS, table)
