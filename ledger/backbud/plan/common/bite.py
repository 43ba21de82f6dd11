"""A wire and a year's heat go in; the day it is reckoned to bite, and the datum, come out."""

from __future__ import annotations

from datetime import date
from typing import NamedTuple

from backbud.bench.bite import girth_growth_mm, share_until_it_bites
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
    wanted = share_until_it_bites(girth_mm, wire_mm)
    for first in (year.first, year.first.replace(year=year.first.year + 1)):
        trace = year.outlook.heat(first, year.wants.base_c)
        season = trace.sums[-1]
        if season <= 0:
            return None
        passed = trace.at(wired) / season
        # Heat beyond the season's makes no more wood.
        day = trace.reaches((passed + wanted) * season) if passed + wanted <= 1 else None
        if day is not None:
            because = (
                f"{wire_mm:g} mm wire is reckoned to bite about {day}: by the heat sum of the "
                f"season, at {girth_mm:g} mm of girth a year (vigour {vigour} of 5; common "
                "practice, no source)."
            )
            return Bite(day, because)
        wanted -= 1 - passed
    return None


def _vigour(tree: Tree) -> int:
    """The strongest zone's vigour: where wire bites first; fair where nobody looked."""
    return max((zone.score for zone in tree.zones), default=_FAIR)
