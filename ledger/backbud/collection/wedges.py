"""The wedges that root work opened go in; the root map, turned with the tree's front, comes out.

Seen from above with the front at the bottom: S or front, N or back, E or right, W or left; or the
hours of the clock with 6 at the front.
"""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date

from msgspec import Struct

COMPASS = ("N", "NE", "E", "SE", "S", "SW", "W", "NW")
_HOURS = 12


class Opening(Struct, frozen=True, gc=False):
    """A part of the root ball and the day it was last opened.

    `degrees`: clockwise from the back, None for what has no direction (the underside). `points`:
    how many names go round the ball in the way it was written: 8, or the 12 hours.
    """

    name: str
    day: date
    degrees: float | None = None
    points: int = len(COMPASS)


def openings(words: str, day: date) -> list[Opening]:
    """Read the wedges of one detail, as the grammar leaves them: `N E S`, `3 6`."""
    return [_opening(word, day) for word in words.split()]


def _opening(word: str, day: date) -> Opening:
    if word.upper() in COMPASS:
        word = word.upper()
        return Opening(word, day, COMPASS.index(word) * 45.0)
    if word.isdecimal():
        return Opening(word, day, int(word) % _HOURS * 30.0, _HOURS)
    return Opening(word, day)


def opened(before: Iterable[Opening], now: Iterable[Opening]) -> tuple[Opening, ...]:
    """Return the root map after more of it was opened."""
    after = list(before)
    for one in now:
        after = [old for old in after if not _same(old, one)]
        after.append(one)
    return tuple(after)


def _same(old: Opening, new: Opening) -> bool:
    """Whether two openings are of one wedge, by its name or (E is 3) by where it lies."""
    if old.degrees is None or new.degrees is None or _name(old) == _name(new):
        return _name(old) == _name(new)
    apart = abs(old.degrees - new.degrees) % 360
    return min(apart, 360 - apart) < 180 / _HOURS


def turned(before: Iterable[Opening], degrees: float) -> tuple[Opening, ...]:
    """Return the root map after the tree was turned, clockwise as seen from above.

    By 90 degrees what was on the right (E) comes to the front (S). The angle is kept exactly, so
    that two small turns add up to a wedge.
    """
    return tuple(
        one
        if one.degrees is None
        else Opening(one.name, one.day, (one.degrees + degrees) % 360, one.points)
        for one in before
    )


def root_map(now: Iterable[Opening]) -> tuple[tuple[str, date], ...]:
    """Return each wedge by the name it has now, with the day it was last opened."""
    days: dict[str, date] = {}
    for one in now:
        name = _name(one)
        days[name] = max(one.day, days.get(name, one.day))
    return tuple(days.items())


def _name(one: Opening) -> str:
    if one.degrees is None:
        return one.name
    at = int(one.degrees * one.points / 360 + 0.5) % one.points
    return COMPASS[at] if one.points == len(COMPASS) else str(at or _HOURS)
