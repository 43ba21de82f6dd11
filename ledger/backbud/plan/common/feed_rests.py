"""After root work feeding waits until new roots can take it up."""

from __future__ import annotations

from datetime import timedelta

from backbud.species import (
    ROUTINE,
    Event,
    Proposal,
    Proposals,
    Tree,
    Window,
    Year,
    after,
    days_after,
    out_of_the_heat,
)
from backbud.tongue import phrase

# Its species asks for feed itself where its roots were cut so long before; habits/yearly.py.
SIX_WEEKS = timedelta(weeks=6)


FEED_RESTS = "feed-rests"


@after(having=("root_work",), rule=FEED_RESTS)
def feeding_begins(tree: Tree, done: Event, year: Year) -> Proposals:
    """Common practice, no source: about four weeks, and only in the growing season.

    Where its species is fed later only, or asks for it by itself, nothing is said here.
    """
    if done.has("no root work"):
        return
    window = days_after(done.day, 28, 35, 56)
    ends = year.on((9, 30))
    if not year.on((4, 1)) <= window.best <= ends:
        return
    window = Window(window.opens, window.best, min(window.closes, ends))
    own = min(year.times("fed"), key=lambda one: one.opens, default=None)
    if own is not None and own.opens > window.opens:
        if done.day < own.best - SIX_WEEKS:
            return
        best = max(window.best, own.opens)
        window = Window(own.opens, best, max(window.closes, best))
    window, datum = out_of_the_heat(year, window, "", again=True)
    yield Proposal(
        "fed",
        window,
        datum=datum,
        what="again",
        because=phrase("Cut roots take up no feed for about four weeks."),
        cautions=(phrase("Half strength at first."),),
        weight=ROUTINE,
    )
