"""A figure of a species with its source, and a number of ours that the settings may change."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING, Generic, NamedTuple, TypeVar

from msgspec import Struct

if TYPE_CHECKING:
    from backbud.species.year import Year

T = TypeVar("T")
COMMON_PRACTICE = "common practice, no source"
FROM_MEMORY = "from memory"


class Fact(Struct, Generic[T], frozen=True):
    """A figure and where it comes from: a published source, COMMON_PRACTICE or FROM_MEMORY."""

    value: T
    source: str


class Figure(NamedTuple):
    """A number of ours and not the trade's: its name in the settings, its default, its meaning."""

    name: str
    default: float
    about: str

    def among(self, figures: Mapping[str, float]) -> float:
        """The number as set, or its default."""
        return figures.get(self.name, self.default)

    def of(self, year: Year) -> float:
        """The number as set where the tree stands."""
        return self.among(year.figures)


class RepotInterval(NamedTuple):
    """Least, usual and most years between repottings of a young and of an old tree.

    Young is a tree known to be under `young_until_years` years old, old one that is known to be
    `old_from_years` or more; every other goes by the species' `repot_years`.
    """

    young: tuple[int, int, int]
    old: tuple[int, int, int]
    young_until_years: int = 10
    old_from_years: int = 40


SLOW_DRAIN_FROM = Figure(
    "slow_drain_from_s", 60.0, "Seconds a can of water takes to pass from which soil drains slowly."
)
FEED_RESTS_OVER = Figure(
    "feed_rests_over_c", 32.0, "Mean high of the day in °C from which roots take up no feed."
)
FEED_RESTS_TENDER_OVER = Figure(
    "feed_rests_tender_over_c",
    38.0,
    "Mean high of the day in °C from which a tree of warm countries takes up no feed.",
)
FEED_AGAIN_UNDER = Figure(
    "feed_again_under_c", 28.0, "Mean high of the day in °C under which the feed of autumn begins."
)
