"""Whether a tree's flowers were all taken off in bud this year."""

from __future__ import annotations

from datetime import date

from backbud.species import Tree, Year
from backbud_species.habits.done import last_of_before


def flowers_are_off(tree: Tree, day: date, year: Year) -> bool:
    """Whether all flower buds came off this year, so that no seed can follow."""
    done = last_of_before(tree, day, "disbudded")
    if done is None or done.day < year.first:
        return False
    return not done.details or done.says("all")
