"""Questions to a tree's history: what was done to it, and when, before a day.

A rule may run long after its window, so every question names the day before which it looks: the
answer then never changes with later work.
"""

from __future__ import annotations

from collections.abc import Callable
from datetime import date

from backbud.species import (
    ActWord,
    Event,
    Tree,
    is_hard_pruning,
    is_root_work,
    share_of,
)

__all__ = ["is_hard_pruning", "is_root_work", "share_of"]


def is_hard_work(done: Event) -> bool:
    """Whether it was root work or hard pruning: what a tree answers only once a year."""
    return is_root_work(done) or is_hard_pruning(done)


def last_before(
    tree: Tree, day: date, chosen: Callable[[Event], bool], first: date = date.min
) -> Event | None:
    """The latest event before a day that the test chooses, from a first day on.

    Who says how far back it counts is answered as quickly for a long history as for a short one.
    """
    # Every rule asks this, so it asks plainly.
    for entry in reversed(tree.history):  # it is in the order of days
        event = entry.event
        done = event.when.first
        if done < first:
            return None
        if done < day and chosen(event):
            return event
    return None


def last_of_before(tree: Tree, day: date, *acts: ActWord, first: date = date.min) -> Event | None:
    """The latest event of any of these acts before a day, from a first day on."""
    # Asked most of all, so it asks itself.
    for entry in reversed(tree.history):
        event = entry.event
        done = event.when.first
        if done < first:
            return None
        if event.act in acts and done < day:
            return event
    return None


def since(tree: Tree, first: date, before: date, chosen: Callable[[Event], bool]) -> bool:
    """Whether the test chooses anything from a first day on and before another."""
    return last_before(tree, before, chosen, first) is not None
