"""Wire that was found loose holds nothing: it is set anew or comes off."""

from __future__ import annotations

from backbud.plan.common.parts import on_part
from backbud.plan.looks import places_found
from backbud.species import CHANCE, Event, Proposal, Proposals, Tree, Year, after, days_after
from backbud.tongue import phrase


@after("checked", rule="wire-loose")
def set_it_anew(tree: Tree, done: Event, year: Year) -> Proposals:
    """The look itself is made: what is loose does not bite. Common practice, no source."""
    if not tree.on("wire"):
        return
    for part in places_found(done, ("wire",), "loose"):
        yield Proposal(
            "wired",
            days_after(done.day, 0, 7, 42),
            what=on_part(phrase("again where it is loose"), part),
            part=part,
            because=phrase("The wire was found loose: it no longer holds the branch."),
            cautions=(phrase("Where the branch has set, take it off instead."),),
            settled_by=("wired", "unwired"),
            weight=CHANCE,
        )
