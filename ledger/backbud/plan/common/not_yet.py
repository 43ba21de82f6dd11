"""A check that found something not yet so sets the next look at it."""

from __future__ import annotations

from backbud.plan.common.parts import on_part
from backbud.plan.looks import looks
from backbud.species import PRESSING, Event, Proposal, Proposals, Tree, Year, after, weeks_after
from backbud.tongue import phrase
from backbud_grammar.acts.watching import AWAITED


@after("checked", rule="not-yet")
def look_for_it_again(tree: Tree, done: Event, year: Year) -> Proposals:
    """A graft, a layer, roots or buds that have not come yet."""
    if done.has("again"):
        return
    for look in looks(done):
        if look.finding != "not yet" or look.what not in AWAITED:
            continue
        for part in look.parts or ("",):
            yield Proposal(
                "checked",
                weeks_after(done.day, 3, 4, 6),
                what=on_part(phrase(look.what), part),
                because=phrase("On {day} it was not yet so.", day=done.day),
                settled_by=look.settled_by,
                part=part,
                minutes=5,
                weight=PRESSING,
            )
