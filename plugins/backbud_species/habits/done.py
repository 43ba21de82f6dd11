"""A tree's history goes in; what was done to it, and when, comes out.

A rule may run long after its window, so every question names the day before which it looks: the
answer then never changes with later work.
"""

from __future__ import annotations

from collections.abc import Callable
from datetime import date

from backbud.species import Event, Tree

# A third of the growth off counts as hard; common practice, no source.
HARD_SHARE = 1 / 3
_HARD_WORDS = ("hard", "to old wood", "trunk chop", "by half", "by a third", "by two thirds")


def is_hard_pruning(done: Event) -> bool:
    """Whether it was a pruning into old wood, or one that took a third and more."""
    if done.act != "pruned":
        return False
    return done.says(*_HARD_WORDS) or (share_of(done, "off") or 0.0) >= HARD_SHARE - 1e-9


def is_root_work(done: Event) -> bool:
    """Whether roots were cut or the root ball was opened."""
    if done.act == "repotted":
        return not done.has("no root work")
    if done.act == "potted-on":
        return any(done.has(name) for name in ("off", "off below", "off sides", "wedges"))
    return done.act in ("root-pruned", "lifted")


def is_hard_work(done: Event) -> bool:
    """Whether it was root work or hard pruning: what a tree answers only once a year."""
    return is_root_work(done) or is_hard_pruning(done)


def parts_of(done: Event) -> tuple[str, ...]:
    """The parts of the tree a work names, each once; an empty one where it names none.

    Of a pruning that was hard on one part and light on another, only the hard ones.
    """
    hard = [d.part for d in done.details if d.part and any(w in d.words for w in _HARD_WORDS)]
    return tuple(dict.fromkeys(hard or done.parts)) or ("",)


def on_part(words: str, part: str) -> str:
    """The words, and the part they are about: `buds on the old wood, low left`."""
    return f"{words}, {part}" if part else words


def share_of(done: Event, detail: str) -> float | None:
    """The share, 0 to 1, that a detail states as percent or as a fraction; None without one."""
    measure = done.measure(detail)
    if measure is None:
        return None
    if measure.sort == "share":
        return measure.within("%") / 100
    if measure.sort == "fraction":
        return float(measure.numbers[0] / measure.numbers[1])
    return None


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


def last_of_before(tree: Tree, day: date, *acts: str) -> Event | None:
    """The latest event of any of these acts before a day."""
    return last_before(tree, day, lambda event: event.act in acts)


def since(tree: Tree, first: date, before: date, chosen: Callable[[Event], bool]) -> bool:
    """Whether the test chooses anything from a first day on and before another."""
    last = last_before(tree, before, chosen)
    return last is not None and last.day >= first
