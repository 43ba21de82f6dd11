"""A wire and a year's heat go in; the day it is reckoned to bite, and the datum, come out."""

from __future__ import annotations

from datetime import date
from typing import NamedTuple

from backbud.bench.bite import bites_on, girth_growth_mm, radial_growth_since_mm
from backbud.climate.heat import Trace
from backbud.species import Tree, Year

_FAIR = 3


class Bite(NamedTuple):
    """The day a wire is reckoned to begin to bite, and how that is known, in one sentence."""

    day: date
    because: str


def bite_of(tree: Tree, year: Year, wired: date, wire_mm: float) -> Bite | None:
    """When a wire put on that day bites; None where nothing is known of the weather, or where it
    does not in this season and the next."""
    if year.outlook is None or wire_mm <= 0:
        return None
    vigour = _vigour(tree)
    girth_mm = girth_growth_mm(vigour, year.girth_growth_mm)
    grown_mm = 0.0
    for first in (year.first, year.first.replace(year=year.first.year + 1)):
        trace = year.outlook.heat(first, year.wants.base_c)
        sums, season = _season(trace), trace.sums[-1]
        if season <= 0:
            return None
        since = max(wired, first)
        day = bites_on(since, sums, season, girth_mm, wire_mm, grown_before_mm=grown_mm)
        if day is not None:
            because = (
                f"{wire_mm:g} mm wire is reckoned to bite about {day}: by the heat sum of the "
                f"season, at {girth_mm:g} mm of girth a year (vigour {vigour} of 5; common "
                "practice, no source)."
            )
            return Bite(day, because)
        grown_mm += radial_growth_since_mm(since, sums, season, girth_mm)
    return None


def _season(trace: Trace) -> list[tuple[date, float]]:
    first = trace.first.toordinal()
    return [(date.fromordinal(first + n), total) for n, total in enumerate(trace.sums)]


def _vigour(tree: Tree) -> int:
    """The strongest zone's vigour: where wire bites first; fair where nobody looked."""
    return max((zone.score for zone in tree.zones), default=_FAIR)
