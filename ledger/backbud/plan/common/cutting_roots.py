"""Cuttings are looked at when they should have rooted, and those that have are potted on."""

from __future__ import annotations

from backbud.plan.common.seasons import before_growth, coming, in_growth, while_it_grows_on
from backbud.plan.looks import places_found
from backbud.species import (
    PRESSING,
    STAYS_ON,
    Event,
    Proposal,
    Proposals,
    Schedule,
    SettledBy,
    Tree,
    Window,
    Year,
    a_year_later,
    after,
    weeks_after,
)
from backbud.tongue import phrase

CUTTINGS_LEFT = "cuttings-left"
_CUTTINGS = frozenset({"roots", "cuttings"})
_LATE_SPRING = (5, 1), (5, 20), (6, 20)


@after("struck", rule="cutting-check")
def have_cuttings_rooted(tree: Tree, done: Event, year: Year) -> Proposals:
    """Common practice, no source: in growth two to three months, in winter not before spring."""
    growing = in_growth(done.day, year)
    window = weeks_after(done.day, 8, 10, 13) if growing else coming(year, done.day, *_LATE_SPRING)
    because = phrase("A cutting roots in two to three months of growth.")
    yield _look_at_roots(window, "roots", because, "potted-on", "repotted")


@after("rooted", rule=CUTTINGS_LEFT)
def have_the_others_rooted(tree: Tree, done: Event, year: Year) -> Proposals:
    """Where only some of a batch have roots. Common practice, no source."""
    batch = tree.batch
    if batch is None or batch.in_containers or (batch.rooted or 0) >= (batch.count or 0):
        return
    growing = in_growth(done.day, year)
    window = weeks_after(done.day, 3, 4, 6) if growing else coming(year, done.day, *_LATE_SPRING)
    yield _look_at_roots(
        window,
        phrase("roots of the others"),
        phrase(
            "{rooted} of {count} had roots on {day}.",
            rooted=batch.rooted or 0,
            count=batch.count or 0,
            day=done.day,
        ),
    )


@after("rooted", "checked", rule="rooted-on")
def each_into_a_pot(tree: Tree, done: Event, year: Year) -> Proposals:
    """Common practice, no source."""
    if done.act == "checked" and not places_found(done, _CUTTINGS, "rooted", "white roots"):
        return
    if not _are_still_together(tree):
        return
    window = while_it_grows_on(done.day, year)
    yield Proposal(
        "potted-on",
        window,
        what=phrase("those with roots, each into a pot of its own") if tree.is_batch else "",
        because=phrase("Roots that meet in the tray tear when they are parted."),
        cautions=(phrase("Shade and shelter for some weeks; no feed until they grow."),),
        weight=STAYS_ON,
        schedule=Schedule(again=before_growth(year, window.closes)),
    )


def _are_still_together(tree: Tree) -> bool:
    """Whether some of what was struck have roots and stand where they were struck."""
    batch = tree.batch
    if batch is not None and batch.rooted is not None:
        return batch.rooted > (batch.potted_on or 0)
    begun = tree.last_of("struck", "potted-on", "repotted")
    return begun is not None and begun.act == "struck" and not tree.began_another(begun)


def _look_at_roots(window: Window, what: str, because: str, *too: SettledBy) -> Proposal:
    return Proposal(
        "checked",
        window,
        what=what,
        because=because,
        cautions=(phrase("Look at the holes of the pot and pull at nothing."),),
        settled_by=("checked roots", "checked cuttings", "rooted", *too),
        minutes=5,
        weight=PRESSING,
        schedule=Schedule(again=a_year_later(window)),
    )
