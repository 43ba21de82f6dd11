"""What days of the forecast ask for: in time for the first of them, and until the last."""

from __future__ import annotations

from datetime import timedelta

from backbud.climate.ahead import DaysAhead
from backbud.climate.datum import Datum
from backbud.species import CARE, Foretold, ForetoldWhat, Proposal, Window, Year
from backbud.words import day as day_of
from backbud.words import weekday
from backbud_grammar.act_words import ActWord, SettledBy

_IN_TIME = timedelta(days=2)
# Under these rain and wind still come.
_OPEN = ("open", "shade net")


def stands_open(year: Year) -> bool:
    """Whether rain and wind come to the tree's place."""
    return not year.cover or year.cover.casefold().startswith(_OPEN)


def said_day(found: DaysAhead, year: Year) -> str:
    """`Sunday 7 March`: the first of the days."""
    return f"{weekday(found.first)} {day_of(found.first, year.today.year)}"


def against_days(
    act: ActWord,
    found: DaysAhead,
    against: ForetoldWhat,
    figure: str,
    *,
    what: str,
    because: str,
    datum: str,
    cautions: tuple[str, ...] = (),
    settled_by: tuple[SettledBy, ...] = (),
) -> Proposal:
    """The work that days of a forecast ask for. `figure`: the most of them, with its unit; whoever
    moves the tree has done it too."""
    first = found.first
    return Proposal(
        act,
        Window(first - _IN_TIME, first, found.last),
        what=what,
        because=because,
        datum=Datum(datum, True),
        cautions=cautions,
        settled_by=(*(settled_by or (act,)), "moved"),
        early_days=0,
        weight=CARE,
        foretold=Foretold(against, first, figure),
    )
