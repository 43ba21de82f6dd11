"""Says how far a work went, and whether it takes strength that a tree needs a season to regain.

The one definition of hard work: the plan weighs two of them in a season, a species' gates hold
others back. What counts as hard is common practice, no source.
"""

from __future__ import annotations

from datetime import timedelta
from typing import Literal

from backbud.journal.events import Event

Extent = Literal["part", "usual", "hard"]

# A tree answers one insult a season; common practice, no source.
SEASON = timedelta(days=150)
# A third of the growth off counts as hard.
HARD_SHARE = 1 / 3
# Words that say that a pruning went far.
HARD_PRUNING = ("hard", "to old wood", "trunk chop", "by half", "by a third", "by two thirds")
HEAVY_BEND = ("heavy",)
_WENT_FAR = {"pruned": HARD_PRUNING, "bent": HEAVY_BEND}
# What takes part of the leaves only is no insult.
LEAVES_IN_PART = (
    "partial",
    "large leaves",
    "half of each leaf",
    "half of the leaves",
    "damaged leaves",
    "old leaves",
    "half",
    "some",
    "outer",
)
ROOT_WORK = frozenset({"repotted", "potted-on", "root-pruned", "lifted", "collected"})
# As they are usually done these stress a tree; of others only those that go far.
STRESSING = frozenset({*ROOT_WORK, "defoliated", "decandled", "bent"}) - {"potted-on"}
MAY_STRESS = frozenset({*STRESSING, "pruned"})


def extent_of(done: Event) -> Extent:
    """How far a work was taken: only in part, as usual, or hard."""
    if done.act == "pruned":
        return "hard" if is_hard_pruning(done) else "usual"
    if done.act == "bent":
        return "hard" if done.says(*HEAVY_BEND) else "part"
    if done.act == "defoliated":
        in_part = done.says(*LEAVES_IN_PART) or (share_of(done, "off") or 1.0) < 1.0
        return "part" if in_part else "hard"
    if done.act == "decandled":
        return "hard"
    if done.act in ROOT_WORK:
        return "hard" if is_root_work(done) or done.act == "collected" else "part"
    return "usual"


def stresses(done: Event) -> bool:
    """Whether the work, as far as it went, takes strength that a tree needs a season to regain."""
    return extent_of(done) == "hard"


def is_stressing(act: str, extent: Extent) -> bool:
    """Whether a work that is proposed would stress the tree."""
    return extent == "hard" or (extent == "usual" and act in STRESSING)


def is_hard_pruning(done: Event) -> bool:
    """Whether it was a pruning into old wood, or one that took a third and more."""
    if done.act != "pruned":
        return False
    return done.says(*HARD_PRUNING) or (share_of(done, "off") or 0.0) >= HARD_SHARE - 1e-9


def parts_of(done: Event) -> tuple[str, ...]:
    """The parts of the tree that a work names, each once; "" where it names none.

    Of a pruning or a bend that went far on one part and not on another, only those of the one.
    """
    words = _WENT_FAR.get(done.act, ())
    far = [d.part for d in done.details if d.part and any(word in d.words for word in words)]
    return tuple(dict.fromkeys(far or done.parts)) or ("",)


def is_root_work(done: Event) -> bool:
    """Whether roots were cut or the root ball was opened."""
    if done.act == "repotted":
        return not done.has("no root work")
    if done.act == "potted-on":
        return any(done.has(name) for name in ("off", "off below", "off sides", "wedges"))
    return done.act in ("root-pruned", "lifted")


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
