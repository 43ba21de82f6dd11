"""The ids of the rules that hold for every tree: no plugin may give them to a rule of its own."""

from __future__ import annotations

from functools import cache


@cache
def ids_for_every_tree() -> frozenset[str]:
    """The ids; the rules are loaded only where somebody asks."""
    from backbud.plan.common import RULES
    from backbud.species import rules_of

    return frozenset(rule.id for module in RULES for rule in rules_of(module))
