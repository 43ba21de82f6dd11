"""Feed is given again when it is used up, as long as the tree's season of feeding lasts.

Common practice, no source, where the feed's card does not say how long it lasts. Flowers, heat and
fresh roots put it off; what else makes it rest, and when it goes on, is in plan/feed_pauses.py.
"""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date, timedelta

from backbud.species import (
    ROUTINE,
    Event,
    Proposal,
    Proposals,
    Tree,
    Window,
    Year,
    after,
    grows_all_year,
    out_of_the_heat,
)
from backbud.tongue import phrase

FEED_AGAIN = "feed-again"
# Days that a feed lasts by its form, where its card does not say; common practice, no source.
LIQUID_DAYS, CAKES_DAYS, SLOW_DAYS, ANY_DAYS = 14, 35, 90, 28
_BLOOMS, _FADED = 60, 69
_TO_SPARE = timedelta(days=14)
_A_WEEK = timedelta(days=7)


@after("fed", rule=FEED_AGAIN)
def when_it_is_used_up(tree: Tree, done: Event, year: Year) -> Proposals:
    season = year.times("fed")
    if not season:
        return
    days, known = lasts(done, year.feed_days)
    day, why = _past_the_flowers(done.day + timedelta(days=days), year)
    ends = max(window.closes for window in season)
    frost = year.cold_nights_begin(0.0)
    if frost is not None and year.comes_in_below_c is None:
        # None goes into winter.
        ends = min(ends, frost.day)
    if grows_all_year(year):
        ends = day + _TO_SPARE
    elif not min(window.opens for window in season) <= day <= ends - _A_WEEK:
        return
    wanted = Window(day, day, min(day + _TO_SPARE, ends))
    window, datum = out_of_the_heat(year, wanted, why, again=True)
    if window.opens > ends:
        return
    yield Proposal(
        "fed",
        window,
        what="again",
        because=phrase(
            "The feed of {day} lasts about {days} days ({known}).",
            day=done.day,
            days=days,
            known=known,
        ),
        datum=datum,
        weight=ROUTINE,
        early_days=7,
    )


def lasts(done: Event, feed_days: Mapping[str, int]) -> tuple[int, str]:
    """For how many days what was given lasts, and how that is known."""
    for detail in done.all("with"):
        if detail.handle in feed_days:
            return feed_days[detail.handle], phrase("as its card says")
    quantity = done.measure("quantity")
    if done.says("liquid", "foliar") or (quantity is not None and quantity.sort == "volume"):
        days = LIQUID_DAYS
    elif done.says("slow release"):
        days = SLOW_DAYS
    elif done.says("cakes", "cake", "solid"):
        days = CAKES_DAYS
    else:
        days = ANY_DAYS
    return days, phrase("common practice, no source")


def _past_the_flowers(day: date, year: Year) -> tuple[date, str]:
    """The day, or the end of the flowers where it falls among them."""
    blooms, faded = year.stage(_BLOOMS), year.stage(_FADED)
    if blooms is None or faded is None or not blooms.first <= day <= faded.last:
        return day, ""
    return faded.last, phrase("No feed while it flowers: {because}", because=faded.because)
