"""Raffia that was found tight or biting comes off."""

from __future__ import annotations

from backbud.plan.common.parts import on_part
from backbud.plan.common.still_there import is_there
from backbud.plan.looks import places_found
from backbud.species import PRESSING, Event, Proposal, Proposals, Tree, Year, after, days_after
from backbud.tongue import phrase


@after("checked", rule="wrap-bites")
def take_raffia_off(tree: Tree, done: Event, year: Year) -> Proposals:
    """Common practice, no source."""
    if not is_there(tree, "wrap", done.day, "unwrapped"):
        return
    for part in places_found(done, ("raffia",), "biting", "tight"):
        yield Proposal(
            "unwrapped",
            days_after(done.day, 0, 0, 7),
            what=on_part("", part),
            part=part,
            because=phrase("It was seen to bite."),
            weight=PRESSING,
        )
