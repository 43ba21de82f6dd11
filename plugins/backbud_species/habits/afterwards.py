"""Builders for what is due after a work: further work, a look at how the tree took it.

Common practice, no source, unless a rule says otherwise.
"""

from __future__ import annotations

from collections.abc import Callable

from backbud.species import (
    CARE,
    ROUTINE,
    ActWord,
    DetailWord,
    Event,
    Proposal,
    Proposals,
    Rule,
    SettledBy,
    Species,
    Tree,
    Weight,
    Window,
    Year,
    as_named,
    as_settling,
    days_after,
    deed_of,
    is_hard_pruning,
    parts_of,
    phrase,
    stresses,
)
from backbud_species.habits.rules import hung_after
from backbud_species.habits.times import Days, weeks

_NEW_LEAVES = weeks(3, 4, 6)
# BBCH: first leaves, shoot growth complete.
_LEAVES, _GROWN = 10, 91


def after_work(
    rule_id: str,
    acts: tuple[ActWord, ...],
    act: ActWord,
    days: Days,
    *,
    because: str,
    what: str = "",
    cautions: tuple[str, ...] = (),
    settled_by: tuple[SettledBy, ...] = (),
    only_after: Callable[[Event], bool] | None = None,
    each_part: bool = False,
    weight: Weight | None = None,
    once_it_grows: bool = False,
    unless_wrong: bool = False,
) -> Rule:
    """What is due so many days after one of these acts, for each part of the tree if so asked.

    `weight`: how much it matters, and what becomes of it once its days have passed; None takes that
    of aftercare, or of feed. `once_it_grows`: in spring where its days fall into rest.
    `unless_wrong`: nothing where the act was done out of its time.
    """

    def ask(species: Species, tree: Tree, done: Event, year: Year) -> Proposals:
        if only_after is not None and not only_after(done):
            return
        if unless_wrong and year.against(tree, deed_of(done)):
            return
        window = days_after(done.day, *days)
        if once_it_grows:
            window = _in_growth(window, year)
        for part in parts_of(done) if each_part else ("",):
            yield Proposal(
                act,
                window,
                what=_on_part(what, part),
                part=part,
                because=because,
                datum=phrase("It was {act} on {day}.", act=phrase(done.act), day=done.day),
                cautions=cautions,
                settled_by=settled_by,
                weight=weight or (ROUTINE if act == "fed" else CARE),
            )

    return hung_after(rule_id, acts, ask)


def _in_growth(window: Window, year: Year) -> Window:
    """The window; or three to eight weeks from the next first leaves, where it falls into rest."""
    grown, leaves = year.stage(_GROWN), year.stage(_LEAVES)
    if grown is not None and window.best > grown.last:
        leaves = year.following.stage(_LEAVES)
    elif leaves is None or window.best >= leaves.first:
        return window
    if leaves is None:
        return window
    return days_after(leaves.day, 21, 35, 56)


def checks_after(
    rule_id: str,
    acts: tuple[ActWord, ...],
    days: Days,
    *,
    look_at: DetailWord,
    because: str,
    what: str = "",
    cautions: tuple[str, ...] = (),
    settled_by: tuple[SettledBy, ...] = (),
    only_after: Callable[[Event], bool] | None = None,
    each_part: bool = False,
    weight: Weight = CARE,
    once_it_grows: bool = False,
) -> Rule:
    """A look after an act. `look_at`: a word of the diary's checks (buds, wounds, strength …).

    `settled_by`: what settles it besides a look at that. `once_it_grows`: of what only growth
    shows, so in spring where its days fall into rest.
    """
    also: tuple[SettledBy, ...] = ("vigour", *settled_by) if look_at == "strength" else settled_by
    return after_work(
        rule_id,
        acts,
        "checked",
        days,
        because=because,
        what=what or look_at,
        cautions=cautions,
        settled_by=(as_settling("checked", look_at), *also),
        only_after=only_after,
        each_part=each_part,
        weight=weight,
        once_it_grows=once_it_grows,
    )


def seals_cuts(
    rule_id: str, *, because: str, what: str = "the large cuts", cautions: tuple[str, ...] = ()
) -> Rule:
    """A large cut closed the same day, for each part that was cut hard, or lost a branch that had
    thickened it."""
    return after_work(
        rule_id,
        ("pruned",),
        "sealed",
        (0, 0, 3),
        because=because,
        what=what,
        cautions=cautions,
        only_after=_leaves_large_cuts,
        each_part=True,
    )


def _leaves_large_cuts(done: Event) -> bool:
    return is_hard_pruning(done) or done.says("sacrifice branch", "sacrifice branches")


def looks_for_new_leaves(
    rule_id: str,
    *,
    because: str,
    days: Days = _NEW_LEAVES,
    settled_by: tuple[SettledBy, ...] = (),
    only_after: Callable[[Event], bool] = stresses,
    weight: Weight = CARE,
) -> Rule:
    """A look whether a tree that was stripped answers."""
    return checks_after(
        rule_id,
        ("defoliated",),
        days,
        look_at="buds",
        what="buds and new leaves",
        because=because,
        settled_by=settled_by,
        only_after=only_after,
        weight=weight,
    )


def _on_part(words: str, part: str) -> str:
    """`buds on the old wood` on `low left` is `buds on the old wood, low left`."""
    return f"{phrase(words)}, {as_named(part)}" if part else words
