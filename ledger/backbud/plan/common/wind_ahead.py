"""A tree that stands in the open is made fast before the storm of a forecast."""

from __future__ import annotations

from datetime import timedelta

from backbud.climate.ahead import days_over
from backbud.climate.datum import Datum
from backbud.climate.forecast import ForecastDay
from backbud.species import (
    CARE,
    Figure,
    Foretold,
    Proposal,
    Proposals,
    Season,
    Tree,
    Window,
    Year,
    foretold,
)
from backbud.tongue import phrase
from backbud.words import day as day_of
from backbud.words import weekday

GUST_OVER = Figure(
    "gust_over_m_s", 20.0, "Gust in m/s from which what stands in the open is made fast."
)
# Where a forecast tells no gusts: they reach about this times the mean wind; from memory.
GUST_FACTOR = 1.6
_IN_TIME = timedelta(days=2)
_OPEN = ("open", "shade net")


@foretold("year", rule="wind-ahead")
def fast_before_the_storm(tree: Tree, season: Season, year: Year) -> Proposals:
    """Common practice, no source."""
    covered = year.cover and not year.cover.casefold().startswith(_OPEN)
    if year.ahead is None or tree.planted_out or covered:
        return
    found = days_over(year.ahead.days, GUST_OVER.of(year), gust_of)
    if found is None:
        return
    first = found.first
    yield Proposal(
        "protected",
        Window(first - _IN_TIME, first, found.last),
        what=phrase(
            "against the wind of {weekday} {day_of}, gusts of {figure:.0f} m/s",
            weekday=weekday(first),
            day_of=day_of(first, year.today.year),
            figure=found.figure,
        ),
        because=phrase("What falls breaks its branches and its pot."),
        datum=Datum(phrase("The strongest is foretold for {worst}.", worst=found.worst), True),
        cautions=(phrase("Set tall trees on the ground, and go nowhere near glass in a storm."),),
        settled_by=("protected", "moved"),
        early_days=0,
        weight=CARE,
        foretold=Foretold("wind", first, f"{found.figure:.0f} m/s"),
    )


def gust_of(said: ForecastDay) -> float | None:
    """The strongest gust of a day, as told or made of its wind."""
    if said.gust_m_per_s is not None:
        return said.gust_m_per_s
    return None if said.wind_m_per_s is None else said.wind_m_per_s * GUST_FACTOR
