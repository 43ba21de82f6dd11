"""Draws how a sum of this year, of heat or of chill, runs against the years on record."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, timedelta

from msgspec import Struct

from backbud.pages.drawings.axes import Drawing, Key, Table, axes_for, band, drawing, line, tick
from backbud.tongue import phrase
from backbud.views.sky import Against
from backbud.words import day, sentence


class Words(Struct, frozen=True):
    """What a drawing says: its title, the unit of its axis, who is `this` ("this year"), of which
    years the least and most are, and whose the `average` is."""

    title: str
    unit: str
    this: str
    years: str
    average: str


def draw(
    ident: str, words: Words, points: Sequence[Against], today: date, known_until: date | None
) -> Drawing:
    """Draw the sums; what lies after `known_until` is expected. ValueError for no points."""
    first, end = points[0].day, points[-1].day + timedelta(days=1)
    record = [p for p in points if p.least is not None and p.most is not None]
    values = [value for p in points for value in (p.this, p.average, p.most or 0.0)]
    axes = axes_for(first, end, values, words.unit, 0.0)
    known = known_until or date.min
    come = [(p.day, p.this) for p in points if p.day <= known]
    ahead = [(p.day, p.this) for p in points if p.day > known]
    marks = ""
    keys: list[Key] = []
    if record:
        least = [(p.day, p.least or 0.0) for p in record]
        most = [(p.day, p.most or 0.0) for p in record]
        marks += band(axes, most, least, "years")
        marks += line(axes, least, "edge") + line(axes, most, "edge")
        keys.append(Key("edge", phrase("least and most of {years}", years=words.years)))
    marks += line(axes, [(p.day, p.average) for p in points], "average")
    marks += line(axes, come, "this")
    marks += line(axes, come[-1:] + ahead, "ahead")
    keys.append(Key("average", words.average))
    if come:
        keys.insert(0, Key("this", phrase("{this} so far", this=words.this)))
    if ahead:
        keys.insert(1 if come else 0, Key("ahead", phrase("{this}, expected", this=words.this)))
    about = phrase(
        "{this} ends at {tick}, {average} at {tick_2} {unit}.",
        this=sentence(words.this),
        tick=tick(points[-1].this),
        average=words.average,
        tick_2=tick(points[-1].average),
        unit=words.unit,
    )
    return Drawing(
        drawing(ident, words.title, about, axes, marks, today),
        tuple(keys),
        _table(words, points, today),
    )


def _table(words: Words, points: Sequence[Against], today: date) -> Table:
    return Table(
        (phrase("Until"), sentence(words.this), phrase("Average"), phrase("Least"), phrase("Most")),
        tuple(
            (
                day(p.day, today.year),
                *(
                    "" if value is None else tick(value)
                    for value in (p.this, p.average, p.least, p.most)
                ),
            )
            for p in points
        ),
    )
