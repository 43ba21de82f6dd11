"""Anchor ties come out when the roots hold, and what was left from before is asked for."""

from __future__ import annotations

from backbud.plan.looks import look_at
from backbud.species import (
    PRESSING,
    STAYS_ON,
    Event,
    Proposal,
    Proposals,
    Tree,
    Year,
    after,
    days_after,
    weeks_after,
)


@after("tied", having=("fills_pot",), rule="ties-out")
def roots_hold(tree: Tree, done: Event, year: Year) -> Proposals:
    """Common practice, no source: after one growing season. The next repotting cuts them too."""
    ties = tree.on("tie")
    if not ties:
        return
    left = sum(tie.count for tie in ties if tie.from_before)
    yield Proposal(
        "untied",
        weeks_after(done.day, 20, 26, 52),
        what="the anchor ties",
        datum=f"{left} of them from before this potting." if left else "",
        because="After a growing season the roots hold, and ties begin to cut in.",
        settled_by=("untied", "repotted"),
        weight=STAYS_ON,
    )


@after("checked", rule="ties-bite")
def they_bite(tree: Tree, done: Event, year: Year) -> Proposals:
    look = look_at(done, "ties")
    if look is None or look.what != "ties" or look.finding != "biting" or not tree.on("tie"):
        return
    yield Proposal(
        "untied",
        days_after(done.day, 0, 0, 7),
        what="the anchor ties",
        because="The ties were seen to bite.",
        cautions=("Hold the tree from outside, with string over the rim, if it still rocks.",),
        settled_by=("untied", "repotted"),
        weight=PRESSING,
    )
