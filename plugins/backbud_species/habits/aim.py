"""What feed is to do for a tree: thicken a young one, or keep a refined one as it is.

A young tree is one whose sowing or striking is written down; a refined one is as old as the
species' repotting interval has it, and strong. Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from msgspec.structs import replace

from backbud.species import Proposal, Species, Tree, Window, Year, phrase
from backbud_species.habits.intervals import known_age_years

# BBCH: first leaves.
_LEAVES = 10
_SPRING_ENDS = (7, 15)


def by_aim(
    species: Species, tree: Tree, year: Year, proposals: Iterator[Proposal]
) -> Iterator[Proposal]:
    """The main feed of spring: full from the first leaf for a young tree, lean for a refined one;
    any other feed as it is."""
    for one in proposals:
        day = one.window.best
        if one.what or day > year.on(_SPRING_ENDS):
            yield one
        elif _is_young(species, tree, day):
            leaves = year.stage(_LEAVES)
            opens = min(one.window.opens, leaves.day) if leaves else one.window.opens
            best = min(one.window.best, max(opens, leaves.last)) if leaves else one.window.best
            yield replace(
                one,
                window=Window(opens, best, one.window.closes),
                what=phrase("fully, from the first leaf on"),
                because=phrase(
                    "A young tree has to thicken, and does it from all the leaf it can make."
                ),
            )
        elif _is_refined(species, tree, day):
            yield replace(
                one,
                what="leanly",
                because=phrase(
                    "{because} A refined tree that is strong keeps short shoots and small "
                    "leaves on lean feed.",
                    because=phrase(one.because),
                ),
            )
        else:
            yield one


def _is_young(species: Species, tree: Tree, day: date) -> bool:
    age, interval = known_age_years(tree, day), species.repot_interval
    until = interval.value.young_until_years if interval is not None else 0
    return age is not None and age.exact and age.years < until


def _is_refined(species: Species, tree: Tree, day: date) -> bool:
    age, interval = known_age_years(tree, day), species.repot_interval
    if interval is None or age is None or tree.strength != "strong":
        return False
    return age.years >= interval.value.old_from_years
