"""Feeding keeps out of the hot weeks of a place."""

from __future__ import annotations

from datetime import date, timedelta

from backbud.climate.datum import joined
from backbud.climate.outlook import Span
from backbud.species.facts import FEED_AGAIN_UNDER, FEED_RESTS_OVER, FEED_RESTS_TENDER_OVER
from backbud.species.windows import Window
from backbud.species.year import Year
from backbud.tongue import phrase

_AUGUST = (8, 1)
_SPRING_ENDS, _FLOWERING_ENDS = (6, 15), 69
_BEFORE, _FOUR_WEEKS = timedelta(days=14), timedelta(days=28)
_A_WEEK = timedelta(days=7)
# Leaves that the heat finds so far on take up feed in the three weeks before it; ours, no source.
_HARD_ENOUGH, _THREE_WEEKS = timedelta(days=35), timedelta(days=21)


def hot_on(day: date, year: Year, high_c: float) -> Span | None:
    """The hot time of the year in which a day lies; None where it lies in none."""
    return next((s for s in year.hot_spells(high_c) if s.first <= day <= s.last), None)


def out_of_the_heat(year: Year, window: Window, datum: str) -> tuple[Window, str]:
    """A window for feeding, moved out of the hot weeks of a place, and the datum that says so.

    It ends before them where it opened before, else it begins after them; but spring's first feed
    is given before a summer that lasts for months. The feed of autumn waits until the days are
    cool. Trees of warm countries grow and feed on in what others rest in.
    """
    autumn = _once_cooled(year, window)
    if autumn is not None:
        return autumn
    rests = FEED_RESTS_OVER if year.comes_in_below_c is None else FEED_RESTS_TENDER_OVER
    hot = hot_on(window.best, year, rests.of(year))
    if hot is None:
        return window, datum
    said = joined(
        phrase(
            "{removesuffix}, and feed rests from {first} to {last} ({name}, a setting of ours).",
            removesuffix=hot.because.removesuffix("."),
            first=hot.first,
            last=hot.last,
            name=rests.name,
        ),
        hot.because,
    )
    if window.opens < hot.first:
        before = hot.first - timedelta(days=1)
        return Window(min(window.opens, before - _A_WEEK), before, before), said
    blooms_on = (over := year.stage(_FLOWERING_ENDS)) is not None and over.day >= hot.first
    soon = window.opens < hot.first + _HARD_ENOUGH and window.best < year.on(_SPRING_ENDS)
    if soon and not blooms_on:
        before = hot.first - timedelta(days=1)
        return Window(hot.first - _THREE_WEEKS, hot.first - _BEFORE, before), said
    after = hot.last + timedelta(days=1)
    return Window(after, after, max(window.closes, after + timedelta(days=21))), said


def _once_cooled(year: Year, window: Window) -> tuple[Window, str] | None:
    """The window of autumn's feed in a warm place, and why; None of any other. Trees of warm
    countries are fed on. Common practice, no source."""
    if year.comes_in_below_c is not None or window.best < year.on(_AUGUST):
        return None
    warm = hot_on(window.best, year, FEED_AGAIN_UNDER.of(year))
    if warm is None:
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
    return Window(opens, best, max(window.closes, best + _FOUR_WEEKS)), said
