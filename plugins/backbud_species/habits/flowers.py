"""Whether a tree's flowers were all taken off in bud, and the hard cut of a tree without them."""

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
    Window,
    Year,
    days_after,
    joined,
    phrase,
)
from backbud_species.habits.done import is_hard_pruning, last_of_before, since
from backbud_species.habits.gates import HARD_WORK
from backbud_species.habits.rules import hung_after, yearly
from backbud_species.habits.times import Time

# A hard cut from midsummer on takes next year's flower buds; common practice, no source.
_BUDS_ARE_SET = timedelta(days=180)
# Buds that came off between one midsummer and the spring after it; ours, no source.
_SINCE_AUTUMN = timedelta(days=270)


def flowers_are_off(tree: Tree, day: date, year: Year) -> bool:
    """Whether all flower buds came off this year, or with the wood that bore them: so that there
    is none to take off, and no seed can follow."""
    if since(tree, year.first - _BUDS_ARE_SET, day, _cut_all_back):
        return True
    done = last_of_before(tree, day, "disbudded")
    if done is None or done.day < year.first:
        return False
    return _took_all(done)


def renews_without_flowers(rule_id: str, *, because: str, cautions: tuple[str, ...] = ()) -> Rule:
    """Hard pruning of a strong tree whose flower buds all came off: its best time, and the reason
    why they did."""

    def ask(species: Species, tree: Tree, done: Event, year: Year) -> Proposals:
        if not _took_all(done) or tree.strength != "strong" or HARD_WORK.shut(tree, done.day, year):
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


def renews_before_the_flush(
    rule_id: str, when: Time, *, because: str, cautions: tuple[str, ...] = ()
) -> Rule:
    """Hard pruning, in spring, of a strong tree of one flush whose flower buds all came off in the
    autumn before."""

    def ask(species: Species, tree: Tree, year: Year, window: Window, datum: str) -> Proposals:
        off = last_of_before(tree, window.opens, "disbudded")
        if off is None or off.day < window.opens - _SINCE_AUTUMN or not _took_all(off):
            return
        if tree.strength != "strong" or HARD_WORK.shut(tree, window.opens, year):
            return
        said = phrase("Its flower buds came off on {day}.", day=off.day)
        yield Proposal(
            "pruned",
            window,
            what=phrase("hard, to old wood, where it has to be renewed"),
            because=because,
            datum=joined(f"{said} {datum}".strip(), datum),
            cautions=cautions,
            extent="hard",
            weight=CHANCE,
            singly=True,
        )

    return yearly(rule_id, when, ask, "pruned")


def _took_all(disbudded: Event) -> bool:
    return not disbudded.details or disbudded.says("all")


def has_flowers(tree: Tree, day: date, year: Year) -> bool:
    """Whether there are flowers to be, as far as is known of the tree by now."""
    return not flowers_are_off(tree, max(day, year.today), year)


def _cut_all_back(done: Event) -> bool:
    return is_hard_pruning(done) and not done.parts
