"""A tree's history goes in; what was done to it, and when, comes out.

A rule may run long after its window, so every question names the day before which it looks: the
answer then never changes with later work.
"""

from __future__ import annotations

from collections.abc import Callable
from datetime import date

from backbud.species import (
    HARD_PRUNING,
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


def parts_of(done: Event) -> tuple[str, ...]:
    """The parts of the tree a work names, each once; an empty one where it names none.

    Of a pruning that was hard on one part and light on another, only the hard ones.
    """
    hard = [d.part for d in done.details if d.part and any(w in d.words for w in HARD_PRUNING)]
    return tuple(dict.fromkeys(hard or done.parts)) or ("",)


def on_part(words: str, part: str) -> str:
    """The words, and the part they are about: `buds on the old wood, low left`."""
    return f"{words}, {part}" if part else words


def last_before(tree: Tree, day: date, chosen: Callable[[Event], bool]) -> Event | None:
    """The latest event before a day that the test chooses."""
    return next(
        (
            entry.event
            for entry in reversed(tree.history)
            if entry.event.day < day and chosen(entry.event)
        ),
        None,
    )


def last_of_before(tree: Tree, day: date, *acts: ActWord) -> Event | None:
    """The latest event of any of these acts before a day."""
    return last_before(tree, day, lambda event: event.act in acts)


def since(tree: Tree, first: date, before: date, chosen: Callable[[Event], bool]) -> bool:
    """Whether the test chooses anything from a first day on and before another."""
    last = last_before(tree, before, chosen)
    return last is not None and last.day >= first
