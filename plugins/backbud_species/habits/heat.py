"""Shade in the hot weeks for trees of cool mountains, where the summer is warm."""

from __future__ import annotations

from backbud.species import CARE, Proposal, Proposals, Rule, Season, Species, Tree, Year
from backbud_species.habits.warmth import summer


def shades_in_heat(rule_id: str, *, because: str) -> Rule:
    """Shade in the afternoon of the hot weeks, only in a place whose summer is warm."""

    def ask(species: Species, tree: Tree, season: Season, year: Year) -> Proposals:
        warmth = summer(year)
        if warmth.cool is not False:
            return
        yield Proposal(
            "shaded",
            year.months((6, 25), (7, 10), (8, 20)),
            what="from noon on, while it is hot",
            because=because,
            datum=warmth.datum,
            settled_by=("shaded", "moved"),
            weight=CARE,
        )

    return Rule(rule_id, "season", (), "summer", -1, ask)
