"""Summer shade comes off once the days are cool, or while the rains cloud them."""

from __future__ import annotations

from datetime import date, timedelta

from backbud.plan.common.seasons import coming
from backbud.species import (
    PRESSING,
    Event,
    Figure,
    Proposal,
    Proposals,
    Schedule,
    Tree,
    Window,
    Year,
    a_year_later,
    after,
)
from backbud.tongue import phrase

SHADE_OFF_UNDER = Figure(
    "shade_off_under_c", 28.0, "Mean high of the day in °C under which summer shade comes off."
)
_BEST, _CLOSES = timedelta(weeks=1), timedelta(weeks=4)
_A_DAY = timedelta(days=1)
_AUTUMN = (10, 1)


@after("shaded", rule="shade-off")
def summer_is_over(tree: Tree, done: Event, year: Year) -> Proposals:
    """By months, and not before the heat is over where that is later: or where rains part it, once
    the first of it is. Common practice, no source."""
    if not tree.on("shade"):
        return
    window = coming(year, done.day, (9, 1), (9, 15), (10, 15))
    datum = year.by_months
    because = phrase("The low sun of autumn hardens the wood and the buds.")
    ahead = [s for s in year.hot_spells(SHADE_OFF_UNDER.of(year)) if s.last >= done.day]
    late = done.day >= year.on(_AUTUMN)
    if ahead and (late or len(ahead) > 1 or ahead[0].last >= window.best):
        window, datum = _after(ahead[0].last, year), ahead[0].because
        if len(ahead) > 1:
            because = phrase("Under cloud and rain shade keeps wood and leaves soft.")
    elif late:
        return
    yield Proposal(
        "unshaded",
        window,
        datum=datum,
        because=because,
        weight=PRESSING,
        schedule=Schedule(again=a_year_later(window)),
    )


def _after(last: date, year: Year) -> Window:
    """Four weeks from the last hot day on."""
    opens = last + _A_DAY
    return year.rounded(Window(opens, opens + _BEST, opens + _CLOSES))
