"""A tree whose roots heat up fast is shaded before the hot days of a forecast."""

from __future__ import annotations

from datetime import timedelta

from backbud.climate.ahead import celsius, days_over
from backbud.climate.datum import Datum
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

HEAT_OVER = Figure(
    "heat_over_c", 33.0, "Day in °C from which roots in a shallow pot, or cut lately, want shade."
)
SHALLOW_CM = 8.0
# So long cut roots cannot make up for the sun; common practice, no source.
_ROOTS_REST = timedelta(days=28)
_IN_TIME = timedelta(days=2)
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
    if found is None:
        return
    first = found.first
    yield Proposal(
        "shaded",
        Window(first - _IN_TIME, first, found.last),
        what=phrase(
            "against the heat from {weekday} {day_of} on, {celsius}",
            weekday=weekday(first),
            day_of=day_of(first, year.today.year),
            celsius=celsius(found.figure),
        ),
        because=phrase(
            "The sun on a pot kills roots at its wall first, and shallow or cut ones sooner."
        ),
        datum=Datum(
            phrase("The hottest of the days foretold is {worst}.", worst=found.worst), True
        ),
        settled_by=("shaded", "moved"),
        early_days=0,
        weight=CARE,
        foretold=Foretold("heat", first, celsius(found.figure)),
    )


def _heats_up(tree: Tree, year: Year) -> bool:
    cut = tree.last_with("cuts_roots")
    if cut is not None and cut.day >= year.today - _ROOTS_REST:
        return True
    return year.pot is not None and year.pot.depth_cm < SHALLOW_CM
