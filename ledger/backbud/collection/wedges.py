"""Keeps the root map: which wedges of the root ball were opened, and when.

Seen from above with the front at the bottom: S or front, N or back, E or right, W or left; or the
hours of the clock with 6 at the front. Names may change from year to year, and the number of
wedges with the card: where an opening lies, and so its wedge (`Ring`), goes by its angle.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable
from datetime import date
from fractions import Fraction
from functools import lru_cache
from typing import NamedTuple

from msgspec import Struct

COMPASS = ("N", "NE", "E", "SE", "S", "SW", "W", "NW")
_HOURS = 12
_MINUTES = 60


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
    turn = _turn(word)
    if turn is None:
        return Opening(word, day)
    points = _HOURS if _by_clock(word) else len(COMPASS)
    return Opening(word.upper(), day, float(360 * turn), points)


def opened(before: Iterable[Opening], now: Iterable[Opening]) -> tuple[Opening, ...]:
    """Return the root map after more of it was opened."""
    after = list(before)
    for one in now:
        after = [old for old in after if not _of_one_wedge(old, one)]
        after.append(one)
    return tuple(after)


def _of_one_wedge(old: Opening, new: Opening) -> bool:
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


# ------------------------------------------------------------------ the wedges of a ball


class Wedge(NamedTuple):
    """A wedge of the root ball: its name, and where its middle lies, clockwise from the back."""

    name: str
    degrees: float


class Ring(Struct, frozen=True, gc=False):
    """The wedges that go round a root ball, clockwise from the one at the back."""

    wedges: tuple[Wedge, ...]

    @property
    def names(self) -> tuple[str, ...]:
        return tuple(wedge.name for wedge in self.wedges)

    def places(self, name: str) -> tuple[int, ...]:
        """Which wedges, from 0, an opening of this name lies in.

        Two where it lies just between them, none where it has no direction (the underside).
        """
        return _places(len(self.wedges), name)

    def parts(self, names: Iterable[str]) -> dict[int, float]:
        """How much of each wedge these openings are, 0 to 1; one that lies between is half each."""
        parts: defaultdict[int, float] = defaultdict(float)
        for name in names:
            places = self.places(name)
            for at in places:
                parts[at] = min(1.0, parts[at] + 1 / len(places))
        return dict(parts)

    def last_opened(self, openings: Iterable[tuple[str, date]]) -> dict[str, date]:
        """Each wedge that was ever opened, all or part of it, with the last day."""
        days: dict[str, date] = {}
        for written, day in openings:
            for at in self.places(written):
                name = self.wedges[at].name
                days[name] = max(day, days.get(name, day))
        return days


# Thousands of trees are told of by the same few names.
@lru_cache(maxsize=1024)
def _places(count: int, name: str) -> tuple[int, ...]:
    turn = _turn(name)
    if turn is None:
        return ()
    at, rest = divmod(turn * count, 1)
    if rest == Fraction(1, 2):
        return at % count, (at + 1) % count
    return (round(turn * count) % count,)


def ring(count: int | None, written: Iterable[str]) -> Ring:
    """Return the wedges of a root ball by the number on its card and the openings written of it.

    None, where the card does not say: 12 where an hour was ever written, else 8. They are named
    by the compass where there are 4 or 8 and no hour was ever written, else by the clock: `2`,
    `2:24`. ValueError for fewer than two.
    """
    by_clock = any(_by_clock(name) for name in written)
    if count is None:
        count = _HOURS if by_clock else len(COMPASS)
    if count < 2:
        raise ValueError("Give the number of wedges, 2 or more.")
    return _ring(count, by_clock)


@lru_cache(maxsize=64)
def _ring(count: int, by_clock: bool) -> Ring:
    if count in (4, len(COMPASS)) and not by_clock:
        names = COMPASS[:: len(COMPASS) // count]
    else:
        names = tuple(_clock(Fraction(at, count)) for at in range(count))
    return Ring(tuple(Wedge(name, 360 * at / count) for at, name in enumerate(names)))


def wedges_in(words: str) -> tuple[str, ...]:
    """The words that name a wedge, each in one way; others, as `underside`, are left out."""
    return tuple(word.upper() for word in words.split() if _turn(word) is not None)


def _turn(name: str) -> Fraction | None:
    """The part of the round at which a name lies; None where it has no direction."""
    if name.upper() in COMPASS:
        return Fraction(COMPASS.index(name.upper()), len(COMPASS))
    if not _by_clock(name):
        return None
    hour, _, minutes = name.partition(":")
    return Fraction(int(hour) % _HOURS * _MINUTES + int(minutes or 0), _HOURS * _MINUTES)


def _by_clock(name: str) -> bool:
    return all(part.isdecimal() for part in name.split(":", 1))


def _clock(turn: Fraction) -> str:
    """Where on the clock a part of the round lies: `12`, `3`, `2:24`; to the minute."""
    hour, minutes = divmod(round(turn * _HOURS * _MINUTES), _MINUTES)
    return f"{hour or _HOURS}:{minutes:02d}" if minutes else f"{hour or _HOURS}"
