"""Says when a hard surface has to be opened, and tries afterwards whether it takes water.

Common practice; how slow is slow is ours, no source.
"""

from __future__ import annotations

from backbud.species import (
    CARE,
    PRESSING,
    SLOW_DRAIN_FROM,
    Event,
    Proposal,
    Proposals,
    Rule,
    Species,
    Tree,
    Year,
    days_after,
    phrase,
    weeks_after,
)
from backbud_species.habits.rules import hung_after
from backbud_species.habits.signs import is_slow


def opens_hard_surface(rule_id: str) -> Rule:
    """Water that stands on top or runs off does not reach the roots."""

    def ask(species: Species, tree: Tree, done: Event, year: Year) -> Proposals:
        datum = _why_hard(done, year)
        if not datum:
            return
        yield Proposal(
            "opened",
            days_after(done.day, 0, 2, 10),
            what=phrase("the hard surface with a wooden stick"),
            because=phrase(
                "A hard surface sheds water and is opened with a wooden stick, not a "
                "metal hook: the roots are very fine."
            ),
            datum=datum,
            settled_by=("opened", "repotted"),
            weight=PRESSING,
        )

    return hung_after(rule_id, ("drained", "checked"), ask)


def tries_opened_surface(rule_id: str) -> Rule:
    """A can of water on a surface that was hard and was opened."""

    def ask(species: Species, tree: Tree, done: Event, year: Year) -> Proposals:
        if not done.says("hard surface"):
            return
        with_metal = done.mentions("hook", "metal", "metal hook", "a metal hook", "rake")
        yield Proposal(
            "drained",
            weeks_after(done.day, 1, 2, 4),
            what=phrase("a can of water again"),
            because=phrase(
                "A surface that was hard is tried again: if water still stands, root work is due."
            ),
            datum=phrase("The hard surface was opened on {day}.", day=done.day),
            cautions=(phrase("A metal hook tears the fine roots: use a wooden stick."),)
            if with_metal
            else (),
            weight=CARE,
        )

    return hung_after(rule_id, ("opened",), ask)


def _why_hard(done: Event, year: Year) -> str:
    if done.act != "drained":
        hard = done.says("surface") and done.says("hard")
        return phrase("The surface was found hard on {day}.", day=done.day) if hard else ""
    if not is_slow(done, year):
        return ""
    return phrase(
        "A can took {measure} to pass; {of:g} s is slow ({name}, a setting of ours).",
        measure=done.measure("time"),
        of=SLOW_DRAIN_FROM.of(year),
        name=SLOW_DRAIN_FROM.name,
    )
