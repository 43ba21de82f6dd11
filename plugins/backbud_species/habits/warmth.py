"""Whether a place is cool, or its summer warm, and the figure that says so."""

from __future__ import annotations

from datetime import date
from typing import NamedTuple

from backbud.species import Figure, Temperature, Year, continued, joined, phrase
from backbud.species.year import NO_WEATHER
from backbud_species.habits.figures import SHELTER_BELOW, WARM_SUMMER_FROM

UNKNOWN = NO_WEATHER

THREE_WEEKS = 21
SUMMER_DAYS = 92


class Warmth(NamedTuple):
    """Whether it is cool, None where nothing is known, and the figure that decided."""

    cool: bool | None
    datum: str

    def after(self, clause: str) -> str:
        """One sentence of a clause and the datum."""
        return joined(f"{clause}; {continued(self.datum)}", self.datum)


def three_weeks_ahead(year: Year, day: date) -> Warmth:
    """Whether the three weeks from a day are too cool for soft growth to harden by itself."""
    return mean_against(year, day, THREE_WEEKS, SHELTER_BELOW)


def summer(year: Year) -> Warmth:
    """Whether the summer of this place is cool."""
    return summer_against(year, WARM_SUMMER_FROM)


def summer_against(year: Year, figure: Figure) -> Warmth:
    """Whether the mean of June, July and August (north) is under the figure, in usual years."""
    return _against(year, year.usual_mean(year.on((6, 1)), SUMMER_DAYS), figure)


def mean_against(year: Year, day: date, days: int, figure: Figure) -> Warmth:
    """Whether the mean of so many days from a day is under the figure."""
    return _against(year, year.expected_mean(day, days), figure)


def _against(year: Year, expected: Temperature | None, figure: Figure) -> Warmth:
    if expected is None:
        return Warmth(None, UNKNOWN)
    limit = figure.of(year)
    cool = expected.celsius < limit
    seen = expected.because.removesuffix(".")
    side = phrase("under") if cool else phrase("not under")
    said = phrase(
        "{seen}, {side} {limit:g} °C ({name}, a setting of ours).",
        seen=seen,
        side=side,
        limit=limit,
        name=figure.name,
    )
    return Warmth(cool, joined(said, expected.because))


def under_cover(year: Year, *covers: str) -> bool:
    """Whether the place has one of these covers."""
    return year.cover.casefold().startswith(covers)
