"""Feeding keeps out of the hot weeks of a place."""

from __future__ import annotations

from datetime import timedelta

from backbud.climate.datum import joined
from backbud.species.facts import FEED_AGAIN_UNDER, FEED_RESTS_OVER
from backbud.species.windows import Window
from backbud.species.year import Year
from backbud.tongue import phrase

_AUGUST = (8, 1)
_BEFORE, _FOUR_WEEKS = timedelta(days=14), timedelta(days=28)


def out_of_the_heat(year: Year, window: Window, datum: str) -> tuple[Window, str]:
    """A window for feeding, moved out of the hot weeks of a place, and the datum that says so.

    It ends before them where it opened before, else it begins after them. The feed of autumn waits
    until the days are cool.
    """
    autumn = _once_cooled(year, window)
    if autumn is not None:
        return autumn
    hot = year.hot_days(FEED_RESTS_OVER.of(year))
    if hot is None or not hot.first <= window.best <= hot.last:
        return window, datum
    said = joined(
        phrase(
            "{removesuffix}, and feed rests from {first} to {last} ({name}, a setting of ours).",
            removesuffix=hot.because.removesuffix("."),
            first=hot.first,
            last=hot.last,
            name=FEED_RESTS_OVER.name,
        ),
        hot.because,
    )
    if window.opens < hot.first:
        before = hot.first - timedelta(days=1)
        return Window(window.opens, before, before), said
    after = hot.last + timedelta(days=1)
    return Window(after, after, max(window.closes, after + timedelta(days=21))), said


def _once_cooled(year: Year, window: Window) -> tuple[Window, str] | None:
    """The window of autumn's feed in a warm place, and why; None of any other. Trees of warm
    countries are fed on. Common practice, no source."""
    if year.comes_in_below_c is not None or window.best < year.on(_AUGUST):
        return None
    warm = year.hot_days(FEED_AGAIN_UNDER.of(year))
    if warm is None or not warm.first <= window.best <= warm.last:
        return None
    best = warm.last + timedelta(days=1)
    said = joined(
        phrase(
            "{removesuffix} until {last}, and autumn's feed begins as they cool ({name}, a setting "
            "of ours).",
            removesuffix=warm.because.removesuffix("."),
            last=warm.last,
            name=FEED_AGAIN_UNDER.name,
        ),
        warm.because,
    )
    opens = max(window.opens, best - _BEFORE)
    return year.rounded(Window(opens, best, max(window.closes, best + _FOUR_WEEKS))), said
