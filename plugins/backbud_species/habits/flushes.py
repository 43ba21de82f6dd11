"""A trimming of its own for a later flush of the same year.

An act counts as done up to four weeks before its window, so a trim of the first flush would stand
for the next one too. Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from msgspec.structs import replace

from backbud.species import Proposal, Rule
from backbud_species.habits.works import Time, trims

# What is cut so shortly before is the flush that is meant.
EARLY_DAYS = 7


def trims_again(
    rule_id: str, when: Time, *, what: str, because: str, cautions: tuple[str, ...] = ()
) -> Rule:
    """A flush shortened that follows one that was shortened before in the same year."""
    rule = trims(rule_id, when, what=what, because=because, cautions=cautions)

    def function(*given: Any) -> Iterator[Proposal]:
        for proposal in rule.function(*given):
            yield replace(proposal, early_days=EARLY_DAYS)

    return replace(rule, function=function)
