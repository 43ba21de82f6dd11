"""The yearly care of deadwood, for a tree that was carved. Common practice."""

from __future__ import annotations

from datetime import date, timedelta

from backbud.species import (
    CHANCE,
    Proposal,
    Proposals,
    Rule,
    Season,
    Species,
    Tree,
    Window,
    Year,
    phrase,
)
from backbud_species.habits.done import last_of_before
from backbud_species.habits.works import by_warmth, work

# Styles of the trade that are of deadwood.
_OF_DEADWOOD = frozenset({"driftwood", "deadwood", "sharimiki", "jin", "shari"})
# What was cut from live wood has to dry before it takes anything up.
_FRESH_WOOD_DRIES = timedelta(weeks=6)


def has_deadwood(tree: Tree, day: date) -> bool:
    """Whether it was carved or its deadwood treated before a day, or its card says so."""
    done = last_of_before(tree, day, "carved", "treated-deadwood")
    return done is not None or came_with_deadwood(tree)


def came_with_deadwood(tree: Tree) -> bool:
    """Whether its style on the card is one of deadwood: a tree may have come with it."""
    return not _OF_DEADWOOD.isdisjoint(tree.facts.get("style", "").casefold().split())


def cleans_live_veins(rule_id: str) -> Rule:
    """Dead bark brushed off beside deadwood, where there is any, so that the veins are seen."""
    return work(
        rule_id,
        "cleaned",
        by_warmth((5, 10), (6, 5), (6, 30)),
        what="the live veins with a soft brush and water, loose bark off",
        because=(
            "Clean veins show how far the live wood reaches and where it swells, "
            "and insects winter under loose bark."
        ),
        settled_by=("cleaned",),
        only_if=lambda tree, day, year: has_deadwood(tree, day),
    )


def cares_for_deadwood(rule_id: str, *, because: str, cautions: tuple[str, ...] = ()) -> Rule:
    """Lime sulphur once a year in dry heat, where there is deadwood by the diary or the card."""

    def ask(species: Species, tree: Tree, season: Season, year: Year) -> Proposals:
        usual = year.months((6, 20), (7, 10), (8, 20))
        moved, _ = year.by_warmth((7, 10))
        window = Window(usual.opens + moved, usual.best + moved, usual.closes + moved)
        carved = last_of_before(tree, window.opens, "carved")
        treated = last_of_before(tree, window.opens, "treated-deadwood")
        last = max(filter(None, (carved, treated)), key=lambda done: done.day, default=None)
        if last is None and not came_with_deadwood(tree):
            return
        if last is not None and last.day > window.best - _FRESH_WOOD_DRIES:
            return
        yield Proposal(
            "treated-deadwood",
            window,
            what=phrase("with lime sulphur, cleaned and wetted first"),
            because=because,
            datum=phrase(
                "It was last {act} {text}.", act=phrase(last.act), text=last.when.day_or_text
            )
            if last
            else phrase(
                "Its card has it as {facts}, and no treatment is written down.",
                facts=tree.facts["style"],
            ),
            cautions=(phrase("Cover soil and live bark: it kills both."), *cautions),
            weight=CHANCE,
        )

    return Rule(rule_id, "season", (), "summer", -1, ask)
