"""The yearly care of deadwood, for a tree that was carved. Common practice."""

from __future__ import annotations

from datetime import timedelta

from backbud.species import CHANCE, Proposal, Proposals, Rule, Season, Species, Tree, Year
from backbud_species.habits.done import last_of_before

# What was cut from live wood has to dry before it takes anything up.
_FRESH_WOOD_DRIES = timedelta(weeks=6)


def cares_for_deadwood(rule_id: str, *, because: str, cautions: tuple[str, ...] = ()) -> Rule:
    """Lime sulphur once a year in dry heat, on a tree that has deadwood by its diary."""

    def ask(species: Species, tree: Tree, season: Season, year: Year) -> Proposals:
        window = year.months((6, 20), (7, 10), (8, 20))
        carved = last_of_before(tree, window.opens, "carved")
        treated = last_of_before(tree, window.opens, "treated-deadwood")
        last = max(filter(None, (carved, treated)), key=lambda done: done.day, default=None)
        if last is None or last.day > window.best - _FRESH_WOOD_DRIES:
            return
        yield Proposal(
            "treated-deadwood",
            window,
            what="with lime sulphur, cleaned and wetted first",
            because=because,
            datum=f"It was last {last.act} {last.when.text}.",
            cautions=("Cover soil and live bark: it kills both.", *cautions),
            weight=CHANCE,
        )

    return Rule(rule_id, "season", (), "summer", -1, ask)
