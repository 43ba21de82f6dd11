"""Builds any work of the year, from which the builders of works.py make theirs."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date

from backbud.species import (
    ActWord,
    Extent,
    Proposal,
    Proposals,
    Rule,
    SettledBy,
    Species,
    Tree,
    Weight,
    Window,
    Year,
)
from backbud_species.habits.frozen_wood import thawed
from backbud_species.habits.gates import (
    LIGHT_WORK,
    Gate,
    strength_first,
)
from backbud_species.habits.heat import after_great_heat
from backbud_species.habits.rules import yearly
from backbud_species.habits.times import Time
from backbud_species.habits.weights import usual_weight

OnlyIf = Callable[[Tree, date, Year], bool]


def work(
    rule_id: str,
    act: ActWord,
    when: Time,
    *,
    because: str,
    what: str = "",
    cautions: tuple[str, ...] = (),
    gate: Gate = LIGHT_WORK,
    settled_by: tuple[SettledBy, ...] = (),
    only_if: OnlyIf | None = None,
    extent: Extent = "usual",
    datum: str = "",
    weight: Weight | None = None,
) -> Rule:
    """A work that comes round every year, where its gate is open and `only_if` agrees.

    `datum`: what decided, where that is not the time of year. `weight`: how much it matters; None
    takes what its act weighs (weights.py).
    """

    def ask(species: Species, tree: Tree, year: Year, window: Window, by_time: str) -> Proposals:
        if only_if is not None and not only_if(tree, window.opens, year):
            return
        reason = gate.shut(tree, window.opens, year)
        if reason:
            if gate.speaks:
                yield strength_first(window, act, reason)
            return
        if act == "pruned":
            window = thawed(window, year)
        elif act == "trimmed":
            window, by_time = after_great_heat(year, window, by_time)
        yield Proposal(
            act,
            window,
            what=what,
            because=because,
            datum=datum or by_time,
            cautions=cautions,
            settled_by=settled_by,
            extent=extent,
            weight=weight or usual_weight(act),
        )

    return yearly(rule_id, when, ask, act)
