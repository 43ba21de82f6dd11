"""Flower buds thinned towards a show that the diary names. Common practice, no source."""

from __future__ import annotations

from datetime import date, timedelta

from backbud.species import (
    ROUTINE,
    Event,
    Proposal,
    Proposals,
    Rule,
    Species,
    Tree,
    Window,
    Year,
    phrase,
)
from backbud_species.habits.rules import hung_after

_WEEK = timedelta(weeks=1)
# A show so long before the first flower, or after the last, is not for its flowers.
_NEAR = 2 * _WEEK


def thins_for_show(rule_id: str, *, what: str, because: str) -> Rule:
    """Nine to three weeks before the day of `planned show, to 2027-06-05`, if it flowers then."""

    def ask(species: Species, tree: Tree, done: Event, year: Year) -> Proposals:
        on = _day_of_show(done)
        if on is None or not _is_in_flower(year, on):
            return
        days = (max(on - weeks * _WEEK, done.day) for weeks in (9, 6, 3))
        yield Proposal(
            "disbudded",
            Window(*days),
            what=phrase("{what}, for the show of {on}", what=phrase(what), on=on),
            because=because,
            datum=phrase("A show on {on} is planned.", on=on),
            part="show",
            weight=ROUTINE,
        )

    return hung_after(rule_id, ("planned",), ask)


def _day_of_show(done: Event) -> date | None:
    """The day that a planned show names; None for any other plan, or a rough day."""
    when = done.first("when")
    if when is None or done.named != "shown":
        return None
    try:
        return date.fromisoformat(when.date)
    except ValueError:
        return None


def _is_in_flower(year: Year, on: date) -> bool:
    for one in (year, year.following):
        first, last = one.stage(60), one.stage(69)
        if first and last and first.first - _NEAR <= on <= last.last + _NEAR:
            return True
    return False
