"""A tree that stands in the open is made fast before the storm of a forecast."""

from __future__ import annotations

from backbud.climate.ahead import days_over
from backbud.climate.forecast import ForecastDay
from backbud.plan.common.spell_ahead import against_days, said_day, stands_open
from backbud.species import Figure, Proposals, Season, Tree, Year, foretold
from backbud.tongue import phrase

GUST_OVER = Figure(
    "gust_over_m_s", 20.0, "Gust in m/s from which what stands in the open is made fast."
)
# Where a forecast tells no gusts: they reach about this times the mean wind; from memory.
GUST_FACTOR = 1.6


@foretold("year", rule="wind-ahead")
def fast_before_the_storm(tree: Tree, season: Season, year: Year) -> Proposals:
    """Common practice, no source."""
    if year.ahead is None or tree.planted_out or not stands_open(year):
        return
    found = days_over(year.ahead.days, GUST_OVER.of(year), gust_of)
    if found is not None:
        figure = f"{found.figure:.0f} m/s"
        yield against_days(
            "protected",
            found,
            "wind",
            figure,
            what=phrase(
                "against the wind of {said_day}, gusts of {figure}",
                said_day=said_day(found, year),
                figure=figure,
            ),
            because=phrase("What falls breaks its branches and its pot."),
            datum=phrase("The strongest is foretold for {worst}.", worst=found.worst),
            cautions=(
                phrase("Set tall trees on the ground, and go nowhere near glass in a storm."),
            ),
        )


def gust_of(said: ForecastDay) -> float | None:
    """The strongest gust of a day, as told or made of its wind."""
    if said.gust_m_per_s is not None:
        return said.gust_m_per_s
    return None if said.wind_m_per_s is None else said.wind_m_per_s * GUST_FACTOR
