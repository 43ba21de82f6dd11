"""Finds what a feeding took of the feed itself, or what to write down where it does not say."""

from __future__ import annotations

from typing import NamedTuple

from backbud.plan.stores.values import Material
from backbud_grammar.measures import Measure, convert
from backbud_grammar.syntax import Detail


class Untold(NamedTuple):
    """A feeding that does not tell how much of its feed it took, and what to write down."""

    material: Material | None
    what: str
    to_write: str


def of_the_feed(detail: Detail, strength: Measure | None) -> Measure | None:
    """The measure of the feed itself; None where it is of the water, and nobody says how strong."""
    measure = detail.measure
    if measure is None or measure.sort != "volume":
        return measure
    if strength is None or strength.sort != "rate":
        return None
    try:
        times = convert(measure.number, measure.unit, strength.per)
    except ValueError:
        return None
    for unit, sort in (("g", "mass"), ("mL", "volume")):
        try:
            return Measure((convert(strength.number, strength.unit, unit) * times,), unit, sort)
        except ValueError:
            continue
    return None


def by_what(detail: Detail) -> str:
    if words := detail.words.split():
        return words[0].rstrip("s")
    sort = detail.measure.sort if detail.measure is not None else ""
    return {"mass": "gram", "volume": "litre"}.get(sort, "piece")
