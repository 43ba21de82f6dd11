"""A layer that was found rooted is taken off; one that has only begun is looked at again."""

from __future__ import annotations

from backbud.plan.common.parts import on_part
from backbud.plan.common.seasons import before_growth, in_growth, while_it_grows_on
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
)
from backbud.tongue import phrase


@after("checked", rule="layer-rooted")
def take_layer_off(tree: Tree, done: Event, year: Year) -> Proposals:
    """Common practice, no source."""
    if not tree.on("layer"):
        return
    for part in places_found(done, ("layer",), "rooted"):
        window = while_it_grows_on(done.day, year)
        yield Proposal(
            "separated",
            window,
            what=on_part(phrase("the layer"), part),
            part=part,
            because=phrase("It was found rooted."),
            cautions=(
                phrase(
                    "Leave the new roots as they are; shelter it from sun and wind until it grows."
                ),
            ),
            weight=STAYS_ON,
            schedule=Schedule(again=before_growth(year, window.closes)),
        )
    if done.has("again"):
        return
    for part in places_found(done, ("layer",), "roots showing", "white roots"):
        yield Proposal(
            "checked",
            days_after(done.day, 14, 21, 35)
            if in_growth(done.day, year)
            else before_growth(year, done.day),
            what=on_part(phrase("layer"), part),
            part=part,
            because=phrase("First roots are too few to feed it; they fill the moss in a month."),
            settled_by=("checked layer", "separated"),
            minutes=5,
            weight=PRESSING,
        )
