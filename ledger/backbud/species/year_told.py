"""What is told of a year at a place: its seasons, temperatures, turns of the weather and growth."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from functools import lru_cache
from typing import Literal

from msgspec import Struct

from backbud.climate.outlook import Outlook
from backbud.collection.state import OnTree
from backbud_grammar.dates import growing_year, growing_year_days

SeasonName = Literal["spring", "summer", "autumn", "winter", "year"]
# The first and last northern month and day of each.
SEASON_DAYS: Mapping[SeasonName, tuple[tuple[int, int], tuple[int, int]]] = {
    "spring": ((3, 1), (5, 31)),
    "summer": ((6, 1), (8, 31)),
    "autumn": ((9, 1), (11, 30)),
    "winter": ((1, 1), (2, 29)),
    "year": ((1, 1), (12, 31)),
}


class Season(Struct, frozen=True, gc=False):
    """A season of one growing year at one place, first and last day."""

    name: SeasonName
    first: date
    last: date


class Temperature(Struct, frozen=True, gc=False):
    """A mean temperature over some days, and how that is known, in one sentence."""

    celsius: float
    because: str


class Turn(Struct, frozen=True, gc=False):
    """When the weather turns: in eight of ten years between `first` and `last`; and the datum."""

    first: date
    day: date
    last: date
    because: str


class Growth(Struct, frozen=True):
    """How a tree's wood grows, as it stands today: the weather of its place, the base temperature
    of its heat sum, its vigour from 1 to 5, the girth that a branch of vigour 3 gains in a season,
    and the wire that is on it."""

    outlook: Outlook
    base_c: float
    vigour: int
    girth_mm: float
    wires: tuple[OnTree, ...] = ()


# Each rule of each tree asks for one of a few.
@lru_cache(maxsize=4096)
def growing_year_of(day: date, southern: bool) -> tuple[str, date, date]:
    """The name of the growing year that holds a day, its first day and its last."""
    return growing_year(day, southern), *growing_year_days(day, southern)
