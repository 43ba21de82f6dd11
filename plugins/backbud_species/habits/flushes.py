"""A trimming of its own for a later flush of the same year.

An act counts as done up to four weeks before its window, so a trim of the first flush would stand
for the next one too. In the weeks of great heat growth stands still and cut leaves scorch: there it
waits until they are over. Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator
from datetime import timedelta
from typing import Any

from msgspec.structs import replace

from backbud.species import Proposal, Rule, Species, Tree, Window, Year, joined
from backbud_species.habits.figures import GREAT_HEAT_OVER
from backbud_species.habits.works import Time, trims

# What is cut so shortly before is the flush that is meant.
EARLY_DAYS = 7


def trims_again(
    rule_id: str, when: Time, *, what: str, because: str, cautions: tuple[str, ...] = ()
) -> Rule:
    """A flush shortened that follows one that was shortened before in the same year."""
    rule = trims(rule_id, when, what=what, because=because, cautions=cautions)

    def function(species: Species, tree: Tree, given: Any, year: Year) -> Iterator[Proposal]:
        for proposal in rule.function(species, tree, given, year):
            yield replace(_after_great_heat(proposal, year), early_days=EARLY_DAYS)

    return replace(rule, function=function)


def _after_great_heat(proposal: Proposal, year: Year) -> Proposal:
    """The trimming, from the end of the great heat on where its best day lies in it; trees of warm
    countries grow on."""
    hot = None if year.comes_in_below_c else year.hot_days(GREAT_HEAT_OVER.of(year))
    window = proposal.window
    if hot is None or not hot.first <= window.best <= hot.last:
        return proposal
    days = (hot.last + timedelta(days=n) for n in (1, 8, 22))
    said = joined(
        f"{hot.because.removesuffix('.')} until {hot.last}; growth stands still in it "
        f"({GREAT_HEAT_OVER.name}, a setting of ours).",
        hot.because,
    )
    return replace(proposal, window=year.rounded(Window(*days)), datum=said)
