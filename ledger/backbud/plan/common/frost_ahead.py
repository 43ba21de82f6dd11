"""A tree that does not bear the nights of the forecast is protected, or taken in, before they come.

One work for a tree and a winter: it is always about the next spell of such nights, so when a night
shifts it moves, and when the frost does not come it goes. Once the tree was taken in or covered,
the next spell is a work of its own: a task that was ticked off is not asked for again.
"""

from __future__ import annotations

from datetime import date, timedelta

from backbud.climate.ahead import FrostSpell, celsius, colder_later
from backbud.climate.degrees import degrees
from backbud.collection.places import is_winter_cover
from backbud.plan.common.winter_quarters import WARMED
from backbud.species import (
    PROTECTION,
    Figure,
    Foretold,
    Proposal,
    Proposals,
    Season,
    Temperature,
    Tree,
    Window,
    Year,
    foretold,
)
from backbud.tongue import phrase
from backbud.words import day as day_of
from backbud.words import weekday

# Whoever has many trees wants a few days; ours, no source.
_IN_TIME = timedelta(days=3)
# It raises no night by itself; what hangs under it does (climate/cold_turns.py).
THERMOMETER = (
    "How much this cover holds off, a thermometer under it tells: once its nights are written "
    "down, only those that reach the roots are told."
)
_A_YEAR = timedelta(days=365)
_EVENING_BEFORE = timedelta(days=1)
# So far over what its roots bear a single night already sends a tender tree in, and at this it goes
# in where nobody knows what they bear; ours, to the cold side.
TENDER_SPARED_K = 2.0
TENDER_IN_BELOW = Figure(
    "tender_in_below_c", 2.0, "Night in °C at which a tender tree goes in for the night."
)


@foretold("winter", rule="frost-ahead")
def before_the_frost(tree: Tree, season: Season, year: Year) -> Proposals:
    """By the forecast's nights, at the tree's place and under its cover."""
    tender = year.comes_in_below_c is not None
    bears = _bears(tree, year)
    if bears is None or tree.planted_out or tree.on("protection"):
        return
    if year.ahead is None or (tender and year.cover.casefold().startswith(WARMED)):
        return
    # Under a cover that raises no night nobody carries it in and out: once, with all such nights.
    covered = is_winter_cover(year.cover)
    ahead = year.ahead
    spell = ahead.every_frost(bears.celsius) if covered else ahead.frost(bears.celsius)
    if spell is None:
        return
    evening = spell.first.day - _EVENING_BEFORE
    yield Proposal(
        "moved" if tender else "protected",
        Window(evening - _IN_TIME, evening, spell.last.day - _EVENING_BEFORE),
        what=phrase("in for {night}", night=night_said(spell, year.today))
        if tender
        else phrase("against frost in {night}", night=night_said(spell, year.today)),
        because=bears.because,
        datum=spell.because,
        cautions=(
            *((THERMOMETER,) if covered else ()),
            phrase("A heater under glass needs fresh air, and is kept clear of fleece."),
        ),
        settled_by=("protected", "moved"),
        covers="warm" if tender else "any",
        part=_after_the_last(tree, year),
        early_days=0,
        weight=PROTECTION,
        foretold=Foretold(
            "cold" if tender else "frost",
            spell.first.day,
            celsius(spell.first.low_c),
            spell.coldest.day,
            spell.coldest.low_c,
        ),
    )


def _after_the_last(tree: Tree, year: Year) -> str:
    """Which spell of the winter it is: "" up to the first shelter, then the day of the last one, or
    of its end. It is part of an id, so it is the same in every language."""
    autumn = year.on((9, 1))
    winter = autumn if autumn <= year.today else autumn - _A_YEAR
    last = tree.last_of("protected", "unprotected", "moved")
    return f"after {last.day}" if last is not None and last.day >= winter else ""


def _bears(tree: Tree, year: Year) -> Temperature | None:
    """The night that sends this tree under cover."""
    bears = year.bears(tree, year.today)
    if year.comes_in_below_c is None:
        return bears
    if bears is None:
        limit = TENDER_IN_BELOW.of(year)
        return Temperature(
            limit,
            phrase(
                "It is tender: at {degrees} it goes in ({name}, ours).",
                degrees=degrees(limit),
                name=TENDER_IN_BELOW.name,
            ),
        )
    limit = min(bears.celsius + TENDER_SPARED_K, year.comes_in_below_c)
    return Temperature(
        limit,
        phrase(
            "It is tender, and goes in at {degrees}: {because}",
            degrees=degrees(limit),
            because=bears.because,
        ),
    )


def night_said(spell: FrostSpell, today: date) -> str:
    """`the night to Sunday 7 March, −5 °C`: the first of several nights, and a colder one."""
    first = spell.first
    to = f"{weekday(first.day)} {day_of(first.day, today.year)}"
    figure = celsius(first.low_c)
    colder = colder_later(first.day, figure, spell.coldest)
    return phrase(
        "the night to {to}, {figure}{colder}", to=to, figure=figure, colder=colder and f", {colder}"
    )
