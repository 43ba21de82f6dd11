"""A tender tree that was moved out while nights are too cold for it goes in again at once."""

from __future__ import annotations

from datetime import date, timedelta

from backbud.collection.places import is_warm_cover
from backbud.species import (
    PROTECTION,
    Event,
    Proposal,
    Proposals,
    Tree,
    Window,
    Year,
    after,
    joined,
    phrase,
    summer_outside,
)

# So much sooner it does no harm; ours, no source.
_SOONER = timedelta(days=14)
# So long after its summer a tree that is out was not brought in yet (tender.py); ours, no source.
_AUTUMN = timedelta(days=42)


@after("moved", rule="tender-out")
def in_again_from_cold_nights(tree: Tree, done: Event, year: Year) -> Proposals:
    """By the nights of the place; by months, common practice, where nothing is known of them."""
    if year.comes_in_below_c is None or is_warm_cover(year.cover):
        return
    mild, why = _mild_from(done.day, year)
    if mild is None or done.day >= mild - _SOONER:
        return
    out = phrase(
        "It was moved out on {day}, and nights are too cold until {mild}.", day=done.day, mild=mild
    )
    yield Proposal(
        "moved",
        Window(done.day, done.day, mild),
        what=phrase("in, to a warm and light place"),
        because=phrase("Cold nights stop its roots and drop its leaves."),
        datum=joined(f"{out} {why}", why),
        settled_by=("moved",),
        covers="warm",
        part="in",
        weight=PROTECTION,
    )


def _mild_from(day: date, year: Year) -> tuple[date | None, str]:
    """From when on it may stand outside, seen from a day; and why. None where it may stand there on
    that day, or where no night sends it in."""
    if year.outlook is None:
        first, last = year.on((5, 15)), year.on((10, 15))
        return (first, year.no_weather) if day < first else _next_spring(day, last, year)
    summer = summer_outside(year)
    if summer is not None and summer.always:
        return None, ""
    if summer is None or not summer.worth_it:
        # It has the warm days alone; in them nobody is told that they are cold.
        first, last = year.on((6, 1)), year.on((9, 20))
        return (first, year.by_months) if day < first else _next_spring(day, last, year)
    if day < summer.first:
        return summer.first, summer.because
    return _next_spring(day, summer.last, year)


def _next_spring(day: date, last: date, year: Year) -> tuple[date | None, str]:
    """From a day well after the last of its summer: the next; before that autumn's rule asks."""
    if day <= last + _AUTUMN:
        return None, ""
    return year.following.on((5, 15)), year.by_months
