"""A guy that was found slack is tightened, and one that bites gets a pad."""

from __future__ import annotations

from backbud.plan.common.parts import on_part
from backbud.plan.common.seasons import before_growth
from backbud.plan.common.still_there import is_there
from backbud.plan.looks import places_found
from backbud.species import (
    PRESSING,
    Event,
    Proposal,
    Proposals,
    Schedule,
    Tree,
    Year,
    after,
    days_after,
)
from backbud.tongue import phrase


@after("checked", rule="guy-loose")
def tighten_guys(tree: Tree, done: Event, year: Year) -> Proposals:
    """Common practice, no source."""
    if not is_there(tree, "guy", done.day, "unguyed"):
        return
    window = days_after(done.day, 0, 7, 28)
    for part in places_found(done, ("guys",), "loose", "broken"):
        yield Proposal(
            "guyed",
            window,
            what=on_part(phrase("again where it is slack"), part),
            part=part,
            because=phrase("A slack guy holds nothing, and its anchor cuts in."),
            settled_by=("guyed", "unguyed", "wired"),
            weight=PRESSING,
            schedule=Schedule(again=before_growth(year, window.closes)),
        )
    for part in places_found(done, ("guys",), "biting"):
        yield Proposal(
            "guyed",
            days_after(done.day, 0, 0, 7),
            what=phrase("{what}, with a pad under it", what=on_part(phrase("again"), part)),
            part=part,
            because=phrase("It was seen to bite."),
            settled_by=("guyed", "unguyed"),
            weight=PRESSING,
        )
