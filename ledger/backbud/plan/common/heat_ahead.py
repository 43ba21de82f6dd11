"""A tree whose roots heat up fast is shaded before the hot days of a forecast."""

from __future__ import annotations

from datetime import timedelta

from backbud.climate.ahead import celsius, days_over
from backbud.plan.common.spell_ahead import against_days, said_day
from backbud.species import Figure, Proposals, Season, Tree, Year, foretold
from backbud.tongue import phrase

HEAT_OVER = Figure(
    "heat_over_c", 33.0, "Day in °C from which roots in a shallow pot, or cut lately, want shade."
)
SHALLOW_CM = 8.0
# So long cut roots cannot make up for the sun; common practice, no source.
_ROOTS_REST = timedelta(days=28)
# What takes the sun off a pot, or holds it under a roof of its own.
_SHADED = ("shade net", "indoors")


@foretold("year", rule="heat-ahead")
def shade_before_the_heat(tree: Tree, season: Season, year: Year) -> Proposals:
    """Under its cover, so sooner under glass. Common practice, no source."""
    if year.ahead is None or tree.planted_out or tree.on("shade"):
        return
    if year.cover.casefold().startswith(_SHADED) or not _heats_up(tree, year):
        return
    shift = year.ahead.shift
    found = days_over(
        year.ahead.days,
        HEAT_OVER.of(year),
        lambda said: None if said.high_c is None else said.high_c + shift.high_c,
    )
    if found is not None:
        figure = celsius(found.figure)
        yield against_days(
            "shaded",
            found,
            "heat",
            figure,
            what=phrase(
                "against the heat from {said_day} on, {figure}",
                said_day=said_day(found, year),
                figure=figure,
            ),
            because=phrase(
                "The sun on a pot kills roots at its wall first, and shallow or cut ones sooner."
            ),
            datum=phrase("The hottest of the days foretold is {worst}.", worst=found.worst),
        )


def _heats_up(tree: Tree, year: Year) -> bool:
    cut = tree.last_with("cuts_roots")
    if cut is not None and cut.day >= year.today - _ROOTS_REST:
        return True
    return year.pot is not None and year.pot.depth_cm < SHALLOW_CM
