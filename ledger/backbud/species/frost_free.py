"""How long roots that were cut, or that bear little, still want to be kept from frost."""

from __future__ import annotations

from datetime import date, timedelta
from typing import NamedTuple

from backbud.climate.coldest_night import LEAN_K
from backbud.climate.datum import joined
from backbud.collection.cut_roots import last_cut_of_roots
from backbud.collection.state import Tree
from backbud.species.windows import Window
from backbud.species.year import Year
from backbud.tongue import phrase

# So long cut roots are kept from frost whatever they bear; common practice, no source.
ROOTS_REST = timedelta(weeks=4)
# Ours, no source.
_LEAST_TIME = timedelta(days=14)


class FrostToCome(NamedTuple):
    """The last day by which nights at or under a temperature are to be expected, one year in ten;
    whether ones nearly so cold come in half of the years yet; and how that is known."""

    last: date
    likely: bool
    because: str


def frost_to_come(year: Year, limit_c: float, first: date, last: date) -> FrostToCome | None:
    """The nights at or under a temperature (°C), in the open, that come between two days; None
    where none is to be expected.

    By months where nothing is known of the weather but what a card may say of the coldest night:
    from mid-October to the middle of May; common practice, no source.
    """
    if year.outlook is None:
        said = year.coldest_said
        if said is not None and said.against(limit_c) == "does not come":
            return None
        for one in (year, year.following):
            if first < one.on((5, 15)) and (one is year or last >= year.on((10, 15))):
                return FrostToCome(one.on((5, 15)), True, year.no_weather)
        return None
    spring = year.cold_nights_end(limit_c)
    if spring is not None and first < spring.last:
        nearly = year.cold_nights_end(limit_c + LEAN_K) or spring
        return FrostToCome(spring.last, first < nearly.day, spring.because)
    autumn = year.cold_nights_begin(limit_c)
    if autumn is None or autumn.first > last:
        return None
    over = year.following.cold_nights_end(limit_c)
    return FrostToCome(over.last if over else autumn.last, True, autumn.because)


def held_in(tree: Tree, window: Window, datum: str, year: Year) -> tuple[Window, str]:
    """The window and the datum of a way out from under cover: not before the nights let out roots
    that were cut within four weeks, or those four weeks are over."""
    cut = last_cut_of_roots(tree)
    bears = None if cut is None else year.bears(tree, cut.day)
    if cut is None or bears is None or window.opens >= cut.day + ROOTS_REST:
        return window, datum
    rested = cut.day + ROOTS_REST
    frost = frost_to_come(year, bears.celsius, window.opens, rested)
    if frost is None:
        return window, datum
    said = phrase(
        "Its roots were cut on {day}, and want no frost for four weeks. {because}",
        day=cut.day,
        because=frost.because,
    )
    held = _from(window, min(rested, frost.last), year)
    return held, joined(f"{datum} {said}", datum, frost.because)


def out_of_frost(
    tree: Tree, day: date, window: Window, datum: str, year: Year
) -> tuple[Window, str]:
    """The window and the datum of a way out from where it was taken for some weeks after a work of
    a day: not before nights are over that its roots do not bear."""
    bears = year.bears(tree, day)
    frost = (
        None if bears is None else frost_to_come(year, bears.celsius, window.opens, window.closes)
    )
    if bears is None or frost is None:
        return window, datum
    said = joined(f"{datum} {bears.because} {frost.because}", datum, frost.because)
    return _from(window, frost.last, year), said


def _from(window: Window, opens: date, year: Year) -> Window:
    """The window from a later day on, and never so short that nobody finds the time."""
    best = max(window.best, opens)
    return year.rounded(Window(opens, best, max(window.closes, best, opens + _LEAST_TIME)))
