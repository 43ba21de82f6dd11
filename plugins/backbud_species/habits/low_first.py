"""Trimming a shrub that is strongest at its base: low shoots first, so that the top catches up.

Common practice, no source.
"""

from __future__ import annotations

from msgspec.structs import replace

from backbud.species import Proposals, Rule, Species, Stage, Tree, Year, phrase
from backbud_species.habits.balance import LOW, TOP
from backbud_species.habits.gates import Gate
from backbud_species.habits.times import Time
from backbud_species.habits.works import LIGHT_WORK, trims


def trims_low_first(rule_id: str, when: Time, *, because: str, gate: Gate = LIGHT_WORK) -> Rule:
    """Strong low shoots shortened, unless the top was seen to grow as well as they do."""
    rule = trims(
        rule_id,
        when,
        what="low shoots first",
        because=because,
        gate=gate,
        only_if=lambda tree, day, year: not _is_level(tree),
    )

    def ask(species: Species, tree: Tree, stage: Stage, year: Year) -> Proposals:
        low, top = _score(tree, LOW), _score(tree, TOP)
        seen = phrase("Low branches grow {low} of 5, the top {top} of 5.", low=low, top=top)
        for proposal in rule.function(species, tree, stage, year):
            yield proposal if low is None or top is None else replace(proposal, datum=seen)

    return replace(rule, function=ask)


def _is_level(tree: Tree) -> bool:
    low, top = _score(tree, LOW), _score(tree, TOP)
    return low is not None and top is not None and low <= top


def _score(tree: Tree, names: frozenset[str]) -> int | None:
    """How a zone of one of these names grows, 1 to 5; None where nobody has looked."""
    return next((zone.score for zone in tree.zones if zone.name in names), None)
