"""Says how far a work went, and whether it takes strength that a tree needs a season to regain.

The one definition of hard work: the plan weighs two of them in a season, a species' gates hold
others back. What counts as hard is common practice, no source.
"""

from __future__ import annotations

from datetime import timedelta

from backbud.journal.events import Event
from backbud_grammar.act_words import DetailName
from backbud_grammar.acts import ROWS
from backbud_grammar.forms import AS_USUAL, ActForm, Extent

__all__ = ["Extent", "extent_of", "is_stressing", "may_stress", "stresses"]

# A tree answers one insult a season; common practice, no source.
SEASON = timedelta(days=150)
HARD_PRUNING = ROWS["pruned"].effort.hard


def extent_of(done: Event) -> Extent:
    """How far a work was taken, by its act's row: only in part, as usual, or hard."""
    effort = done.row.effort
    if effort is AS_USUAL:
        return "usual"
    if done.says(*effort.part) or share_off(done, 1.0) < effort.part_under:
        return "part"
    if effort.hard_from and share_off(done, 0.0) >= effort.hard_from - 1e-9:
        return "hard"
    if done.says(*effort.hard) or any(done.has(name) for name in effort.hard_details):
        return "hard"
    return effort.otherwise


def stresses(done: Event) -> bool:
    """Whether the work, as far as it went, takes strength that a tree needs a season to regain."""
    return extent_of(done) == "hard"


def is_stressing(act: ActForm, extent: Extent) -> bool:
    """Whether a work that is proposed would stress the tree."""
    return extent == "hard" or (extent == "usual" and "stresses" in act.traits)


def may_stress(act: ActForm) -> bool:
    """Whether a work can stress the tree: as it is usually done, or where it goes far."""
    return "stresses" in act.traits or bool(act.effort.hard)


def is_hard_pruning(done: Event) -> bool:
    """Whether it was a pruning into old wood, or one that took a third and more."""
    return done.act == "pruned" and stresses(done)


def parts_of(done: Event) -> tuple[str, ...]:
    """The parts of the tree that a work names, each once; "" where it names none.

    Of a pruning or a bend that went far on one part and not on another, only those of the one.
    """
    words = done.row.effort.hard
    far = [d.part for d in done.details if d.part and any(word in d.words for word in words)]
    return tuple(dict.fromkeys(far or done.parts)) or ("",)


def is_root_work(done: Event) -> bool:
    """Whether roots were cut or the root ball was opened."""
    return "root_work" in done.row.traits and stresses(done)


def cuts_roots(act: ActForm) -> bool:
    """Whether roots are cut by it, as it is usually done: by work on them, or as it is dug up."""
    return "root_work" in act.traits or "cuts_roots" in act.traits


def share_off(done: Event, otherwise: float) -> float:
    """The share that it took off, 0 to 1; `otherwise` where the line states none, or nothing."""
    return share_of(done, "off") or otherwise


def share_of(done: Event, detail: DetailName) -> float | None:
    """The share, 0 to 1, that a detail states as percent or as a fraction; None without one."""
    measure = done.measure(detail)
    if measure is None:
        return None
    if measure.sort == "share":
        return measure.within("%") / 100
    if measure.sort == "fraction":
        return float(measure.numbers[0] / measure.numbers[1])
    return None
