"""Whether a tree's flowers were all taken off in bud this year."""

from __future__ import annotations

from datetime import date, timedelta

from backbud.species import (
    CHANCE,
    Event,
    Proposal,
    Proposals,
    Rule,
    Species,
    Tree,
    Year,
    days_after,
    phrase,
)
from backbud_species.habits.done import is_hard_pruning, last_of_before, since
from backbud_species.habits.gates import HARD_WORK
from backbud_species.habits.rules import hung_after

# A hard cut from midsummer on takes next year's flower buds; common practice, no source.
_BUDS_ARE_SET = timedelta(days=180)


def flowers_are_off(tree: Tree, day: date, year: Year) -> bool:
    """Whether all flower buds came off this year, or with the wood that bore them: so that there
    is none to take off, and no seed can follow."""
    if since(tree, year.first - _BUDS_ARE_SET, day, _cut_all_back):
        return True
    done = last_of_before(tree, day, "disbudded")
    if done is None or done.day < year.first:
        return False
    return not done.details or done.says("all")


def renews_without_flowers(rule_id: str, *, because: str, cautions: tuple[str, ...] = ()) -> Rule:
    """Hard pruning of a strong tree whose flower buds all came off: its best time, and the reason
    why they did."""

    def ask(species: Species, tree: Tree, done: Event, year: Year) -> Proposals:
        off = not done.details or done.says("all")
        if not off or tree.strength != "strong" or HARD_WORK.shut(tree, done.day, year):
            return
        yield Proposal(
            "pruned",
            days_after(done.day, 0, 14, 42),
            what=phrase("hard, to old wood, where it has to be renewed"),
            because=because,
            datum=phrase("Its flower buds came off on {day}.", day=done.day),
            cautions=cautions,
            extent="hard",
            weight=CHANCE,
            singly=True,
        )

    return hung_after(rule_id, ("disbudded",), ask)


def has_flowers(tree: Tree, day: date, year: Year) -> bool:
    """Whether there are flowers to be, as far as is known of the tree by now."""
    return not flowers_are_off(tree, max(day, year.today), year)


def _cut_all_back(done: Event) -> bool:
    return is_hard_pruning(done) and not done.parts
