"""What trees of warm countries ask for in a room: light, food, a last trim. Common practice."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date

from msgspec.structs import replace

from backbud.species import Proposal, Rule, Season, Species, Stage, Tree, Year, summer_outside
from backbud_species.habits.flushes import trims_again
from backbud_species.habits.warmth import under_cover
from backbud_species.habits.works import ALWAYS, by_warmth, feeds, months, work


def turns_to_the_light(tree: Tree, day: date, year: Year) -> bool:
    """Whether it winters in a room; under glass light comes from all sides."""
    return not under_cover(year, "heated glass") and winters_inside(tree, day, year)


def winters_inside(tree: Tree, day: date, year: Year) -> bool:
    """Whether the nights of its place send a tender tree in, as far as is known."""
    if under_cover(year, "heated glass", "indoors"):
        return True
    if year.comes_in_below_c is None:
        return False
    summer = summer_outside(year)
    return summer is None or not summer.always


def where_it_winters_inside(rule: Rule) -> Rule:
    """The rule, and nothing of it where no night sends a tender tree in."""

    def ask(species: Species, tree: Tree, given: Stage | Season, year: Year) -> Iterable[Proposal]:
        if not winters_inside(tree, given.first, year):
            return ()
        return rule.function(species, tree, given, year)

    return replace(rule, function=ask)


WINTER_LIGHT = replace(
    work(
        "light",
        "turned",
        months((11, 1), (11, 20), (2, 15), why="the short days"),
        what="a quarter each week, at the lightest window",
        because="Light in a room is weak and comes from one side, so the far side loses its twigs.",
        cautions=("A lamp for twelve hours a day makes up for a dark window.",),
        gate=ALWAYS,
        only_if=turns_to_the_light,
    ),
    inside="room",
)
WINTER_FEED = replace(
    where_it_winters_inside(
        feeds(
            "feed-winter",
            months((11, 10), (12, 15), (2, 15), why="the short days"),
            what="weakly, and only while new leaves open",
            because="In warmth and light it grows on all winter and uses food, and in the dark it "
            "rests and feed stays in the soil as salt.",
        )
    ),
    inside="warmth",
)
LAST_TRIM = trims_again(
    "trim-late",
    by_warmth((8, 5), (8, 20), (9, 8)),
    what="the next flush to two leaves",
    because="What grows after it still ripens in good light, and a tree cut in the dark months "
    "stands thin until spring.",
)
