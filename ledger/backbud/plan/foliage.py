"""Says how dense a tree's foliage is on any day, since a bare tree drinks less than one in leaf.

The densities are those of `bench.water.CANOPY_FACTORS`, common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta

from msgspec import Struct

from backbud.bench.water import CANOPY_FACTORS
from backbud.climate.air import DAY
from backbud.collection.state import Tree
from backbud.plan.year import Seen, Years, stages_seen
from backbud.species import Species
from backbud_grammar.dates import growing_year_days

# The first stage a species has of these opens its leaves, and of those drops them (BBCH).
LEAF_OUT = (10, 7, 1)
LEAF_FALL = (95, 93, 97)
# So long after its leaves were cut a tree is bare; common practice, no source.
BARE_AFTER_DEFOLIATION = timedelta(weeks=5)

IN_LEAF = CANOPY_FACTORS["medium"]
BARE = CANOPY_FACTORS["bare"]
THINNED = CANOPY_FACTORS["thin"]


class Foliage(Struct, frozen=True):
    """When a tree is in leaf: from a day on and before another, each year; () is all year.

    `cut`: when leaves were last cut. `after_cut`: how dense it is for five weeks then.
    """

    leaves: tuple[tuple[date, date], ...] = ()
    cut: date | None = None
    after_cut: float = BARE

    def factor(self, day: date) -> float:
        """The canopy factor on a day: water lost over ET0 for each m² of canopy."""
        if self.leaves and not any(out <= day < fall for out, fall in self.leaves):
            return BARE
        if self.cut is not None and self.cut <= day < self.cut + BARE_AFTER_DEFOLIATION:
            return self.after_cut
        return IN_LEAF


class Foliages:
    """The foliage of trees over some days; trees of a kind at a place share its seasons."""

    def __init__(self, years: Years, southern: bool, first: date, last: date) -> None:
        self._years = years
        self._begins = tuple(_growing_years(first, last, southern))
        self._seasons: dict[tuple[type[Species], str, Seen], tuple[tuple[date, date], ...]] = {}

    def of(self, tree: Tree, species: Species | None) -> Foliage:
        """Return a tree's foliage.

        A kind that no species knows, or whose leaves no stage opens or drops, counts as in leaf
        all year, the thirsty side.
        """
        leaves: tuple[tuple[date, date], ...] = ()
        if species is not None and not species.evergreen:
            seen = stages_seen(tree.history)
            key = (type(species), tree.place, seen)
            if key not in self._seasons:
                self._seasons[key] = tuple(self._leaves(tree, species, seen))
            leaves = self._seasons[key]
        done = tree.last_of("defoliated")
        if done is None or not done.exact:
            return Foliage(leaves)
        whole = done.says("full") or not done.details
        return Foliage(leaves, done.day, BARE if whole else THINNED)

    def _leaves(self, tree: Tree, species: Species, seen: Seen) -> Iterator[tuple[date, date]]:
        for first in self._begins:
            year = self._years.at(tree, tree.place, first, species, seen)
            out, fall = (
                next((s.day for code in codes if (s := year.stage(code)) is not None), None)
                for codes in (LEAF_OUT, LEAF_FALL)
            )
            if out is not None and fall is not None:
                yield out, fall


def _growing_years(first: date, last: date, southern: bool) -> Iterator[date]:
    """The first days of the growing years that hold the days from the first to the last."""
    at = first
    while at <= last:
        begins, ends = growing_year_days(at, southern)
        yield begins
        at = ends + DAY
