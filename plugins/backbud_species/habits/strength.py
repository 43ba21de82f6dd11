"""Which of several works to ask of a tree, by what is written down of its strength.

Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from msgspec.structs import replace

from backbud.species import Proposal, Rule, Species, Tree
from backbud_species.habits.gates import WRITTEN_WEAK
from backbud_species.habits.times import Time
from backbud_species.habits.works import ALWAYS, work


def by_strength(usual: Rule, *, weak: Rule | None = None, strong: Rule | None = None) -> Rule:
    """The usual rule, and others in its stead for a weak or a strong tree.

    ValueError where they have not one id and one cause.
    """
    for other in filter(None, (weak, strong)):
        if replace(other, function=usual.function, time=usual.time) != usual:
            raise ValueError(f"{other.id} and {usual.id} differ in id or cause")

    def function(species: Species, tree: Tree, *given: Any) -> Iterable[Proposal]:
        other = weak if tree.weak else strong if tree.strength == "strong" else None
        return (other or usual).function(species, tree, *given)

    return replace(usual, function=function)


def left_to_grow(rule_id: str, when: Time, *, because: str) -> Rule:
    """A look at its strength, in the stead of a trimming that a weak tree does not bear."""
    return work(
        rule_id,
        "checked",
        when,
        what="strength before any trimming",
        because=because,
        gate=ALWAYS,
        settled_by=("vigour", "checked strength"),
        datum=WRITTEN_WEAK,
    )
