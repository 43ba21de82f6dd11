"""Feeding keeps out of the hot weeks of a place."""

from __future__ import annotations

from datetime import timedelta

from backbud.climate.datum import joined
from backbud.species.facts import FEED_RESTS_OVER
from backbud.species.windows import Window
from backbud.species.year import Year
from backbud.tongue import phrase


def out_of_the_heat(year: Year, window: Window, datum: str) -> tuple[Window, str]:
    """A window for feeding, moved out of the hot weeks of a place, and the datum that says so.

    It ends before them where it opened before, else it begins after them.
    """
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
