"""A pine and its year go in; whether its candles rest, were kept or were broken comes out.

Two years of cutting and one of rest: common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date, timedelta

from msgspec.structs import replace

from backbud.species import Proposal, Rule, Species, Stage, Tree, Year
from backbud_species.habits.done import since
from backbud_species.habits.gates import DECANDLING, short_summer


def with_rest(rule: Rule) -> Rule:
    """The rule, except after two years in which the candles were cut, and where no summer does.

    Where the summer is always too short nobody needs to be told so every year.
    """

    def ask(species: Species, tree: Tree, stage: Stage, year: Year) -> Iterable[Proposal]:
        if _two_years_running(tree, year) or short_summer(tree, stage.day, year):
            return ()
        return rule.function(species, tree, stage, year)

    return replace(rule, function=ask)


def keeps_candles(tree: Tree, day: date, year: Year) -> bool:
    """Whether its candles are not cut this summer, so that they are evened out in spring."""
    return bool(DECANDLING.shut(tree, day, year)) or _two_years_running(tree, year)


def candles_left_whole(tree: Tree, day: date, year: Year) -> bool:
    """Whether its candles were not broken this spring, so that its shoots may be cut later."""
    return not since(tree, year.first, day, lambda done: done.act == "pinched")


def _two_years_running(tree: Tree, year: Year) -> bool:
    """Whether its candles were cut in both of the years before this one."""
    one, two = year.first - timedelta(days=365), year.first - timedelta(days=730)
    return all(
        since(tree, first, before, lambda done: done.act == "decandled")
        for first, before in ((one, year.first), (two, one))
    )
