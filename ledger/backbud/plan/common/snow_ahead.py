"""Wet snow is taken off what stands in the open before it breaks it or freezes on."""

from __future__ import annotations

from backbud.climate.ahead import days_over
from backbud.climate.forecast import ForecastDay
from backbud.plan.common.spell_ahead import against_days, said_day, stands_open
from backbud.species import Proposals, Season, Tree, Year, foretold
from backbud.tongue import phrase

# So much precipitation on a day that is no warmer falls as snow, and most of it wet; from memory.
SNOW_MM, SNOW_UNDER_C = 8.0, 2.0


@foretold("winter", rule="snow-ahead")
def off_before_it_freezes_on(tree: Tree, season: Season, year: Year) -> Proposals:
    """Common practice, no source."""
    if year.ahead is None or tree.planted_out or not stands_open(year):
        return
    found = days_over(year.ahead.days, SNOW_MM, snow_of)
    if found is not None:
        figure = f"{found.figure:.0f} mm"
        yield against_days(
            "cleaned",
            found,
            "snow",
            figure,
            what=phrase("snow off, from {said_day} on", said_day=said_day(found, year)),
            because=phrase("Wet snow bends branches until they tear, and freezes on overnight."),
            datum=phrase(
                "Foretold are {figure} on {worst}, in frost or little over it.",
                figure=figure,
                worst=found.worst,
            ),
            cautions=(
                phrase("Lift it off from below; frozen branches snap when they are shaken."),
            ),
            settled_by=("cleaned snow off",),
        )


def snow_of(said: ForecastDay) -> float | None:
    """The precipitation of a day in mm, where it falls as snow."""
    if said.high_c is None or said.high_c > SNOW_UNDER_C:
        return None
    return said.rain_mm
