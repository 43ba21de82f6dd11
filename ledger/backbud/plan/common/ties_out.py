"""Anchor ties come out when the roots hold, and what was left from before is asked for."""

from __future__ import annotations

from datetime import timedelta

from backbud.plan.common.seasons import before_growth
from backbud.plan.looks import places_found
from backbud.species import (
    PRESSING,
    STAYS_ON,
    Event,
    Proposal,
    Proposals,
    Schedule,
    Tree,
    Year,
    after,
    days_after,
    weeks_after,
)
from backbud.tongue import phrase


@after("tied", having=("fills_pot",), rule="ties-out")
def roots_hold(tree: Tree, done: Event, year: Year) -> Proposals:
    """Common practice, no source: in a month at the end of one growing season, and where they were
    left on, in the last weeks of each rest. The next repotting cuts them too."""
    ties = tree.on("tie")
    if not ties:
        return
    left = sum(tie.count for tie in ties if tie.from_before)
    window = weeks_after(done.day, 20, 26, 30)
    yield Proposal(
        "untied",
        window,
        what=phrase("the anchor ties"),
        datum=phrase("{left} of them from before this potting.", left=left) if left else "",
        because=phrase("After a growing season the roots hold, and ties begin to cut in."),
        settled_by=("untied", "repotted"),
        weight=STAYS_ON,
        schedule=Schedule(
            after=phrase("At the latest they come out with the next repotting."),
            again=before_growth(year, window.closes),
        ),
    )


@after("checked", rule="ties-bite")
def they_bite(tree: Tree, done: Event, year: Year) -> Proposals:
    if not places_found(done, ("ties",), "biting") or not tree.on("tie"):
        return
    yield Proposal(
        "untied",
        days_after(done.day, 0, 0, 7),
        what=phrase("the anchor ties"),
        because=phrase("The ties were seen to bite."),
        cautions=(
            phrase("Hold the tree from outside, with string over the rim, if it still rocks."),
        ),
        settled_by=("untied", "repotted"),
        weight=PRESSING,
        schedule=Schedule(again=before_growth(year, done.day + timedelta(days=7))),
    )
