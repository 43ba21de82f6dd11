"""What fine roots want as soon as they stand in fresh mix: water, moss, and to be held still.

Common practice, no source.
"""

from __future__ import annotations

from backbud.species import (
    CARE,
    ROUTINE,
    ActWord,
    Event,
    Proposal,
    Proposals,
    Rule,
    Species,
    Tree,
    Year,
    days_after,
    is_root_work,
    phrase,
)
from backbud_species.habits.rules import hung_after

_POTTED: tuple[ActWord, ...] = ("repotted", "potted-on")


def soaks_fresh_mix(rule_id: str) -> Rule:
    """Water at once: kanuma is bone-dry, as is any mix from the bag; days later it no longer is."""

    def ask(species: Species, tree: Tree, done: Event, year: Year) -> Proposals:
        if done.has("soaked") or not _has_fresh_mix(done):
            return
        yield Proposal(
            "soaked",
            days_after(done.day, 0, 0, 3),
            what=phrase("at once, two or three cans, until water runs from the bottom"),
            because=phrase(
                "{fresh_from_the_bag} draws the water out of fine roots.",
                fresh_from_the_bag=_fresh_from_the_bag(tree, done),
            ),
            datum=phrase("No soaking is written down with the repotting."),
            weight=CARE,
        )

    return hung_after(rule_id, (*_POTTED, "slipped"), ask)


def moss_on_top(rule_id: str) -> Rule:
    """A moist surface through recovery."""

    def ask(species: Species, tree: Tree, done: Event, year: Year) -> Proposals:
        if done.has("moss") or not _has_fresh_mix(done):
            return
        yield Proposal(
            "top-dressed",
            days_after(done.day, 0, 0, 7),
            what=phrase("with moist sphagnum"),
            because=phrase(
                "Moist sphagnum on top keeps the fine roots at the surface moist through recovery."
            ),
            datum=phrase("No moss is written down with the repotting."),
            weight=ROUTINE,
        )

    return hung_after(rule_id, (*_POTTED, "slipped"), ask)


def ties_in(rule_id: str) -> Rule:
    """Held still: a tree that rocks tears its new roots."""

    def ask(species: Species, tree: Tree, done: Event, year: Year) -> Proposals:
        if done.has("tied") or any(not tie.from_before for tie in tree.on("tie")):
            return
        yield Proposal(
            "tied",
            days_after(done.day, 0, 0, 3),
            what=phrase("with two ties of 2.5 mm aluminium"),
            because=phrase(
                "Two ties of 2.5 mm aluminium hold a medium tree; one that rocks tears "
                "its new roots."
            ),
            datum=phrase("No ties are written down with the repotting."),
            weight=CARE,
        )

    return hung_after(rule_id, _POTTED, ask)


def _has_fresh_mix(done: Event) -> bool:
    """Whether fresh mix went in: not where a tree was only set back into its pot."""
    return done.act != "repotted" or done.has("mix") or is_root_work(done)


def _fresh_from_the_bag(tree: Tree, done: Event) -> str:
    """What went in: kanuma, unless the mix that is named says nothing of it."""
    mix = done.first("mix")
    named = f"{tree.mix} {mix.handle} {mix.words}" if mix is not None else tree.mix
    if named and "kanuma" not in named.casefold():
        return phrase("Fresh mix is dry from the bag and")
    return phrase("Fresh kanuma is bone-dry from the bag and")
